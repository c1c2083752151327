"""Serving a plant: tables and guards, what to warn of, the calculation in the background, and then requests."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from types import FrameType

from django.contrib.sessions.backends.db import SessionStore
from django.core.wsgi import get_wsgi_application
from waitress.server import create_server

from pellicle.message import Message, message
from pellicle.plant.audit.age import OLD_DAYS, days_since_backup
from pellicle.plant.audit.chain import By, append
from pellicle.plant.folder import Folder
from pellicle.plant.people.first_run import new_token
from pellicle.plant.people.models import Person
from pellicle.plant.start.migrate import migrate
from pellicle.plant.start.warm import warming

THREADS = 8
LARGEST_REQUEST = 20_000_000

Tell = Callable[[Message], None]


def serve(folder: Folder, host: str, port: int, tell: Tell, show: Tell) -> None:
    """Serve a folder on which Django is set up, until interrupted."""
    gone = migrate(folder)
    if gone:
        append(message("plant_audit.guards_back", guards=", ".join(gone)), By("the server"))
        tell(message("plant_start.guards_back", guards=", ".join(gone)))
    SessionStore.clear_expired()
    warning = backup_warning(datetime.now(UTC))
    if warning is not None:
        tell(warning)
    with warming() as going_on:
        if going_on:
            tell(message("plant_start.warming"))
        _run(folder, host, port, show)
    tell(message("plant_start.ended"))


def backup_warning(now: datetime) -> Message | None:
    """Return a warning where there is something to lose and no recent copy of it."""
    if not Person.objects.exists():
        return None
    days = days_since_backup(now)
    if days is None:
        return message("plant_start.no_backup")
    return message("plant_start.old_backup", days=days) if days >= OLD_DAYS else None


def _run(folder: Folder, host: str, port: int, show: Tell) -> None:
    server = create_server(
        get_wsgi_application(),
        host=host,
        port=port,
        threads=THREADS,
        ident="",
        max_request_body_size=LARGEST_REQUEST,
    )
    address = f"http://{host}:{server.effective_port}/"
    if Person.objects.exists():
        show(message("plant_start.address", address=address))
    else:
        show(message("plant_start.first_address", address=address, token=new_token(folder)))
    before = signal.signal(signal.SIGTERM, _end)
    try:
        server.run()  # returns on an interrupt and on SystemExit
    finally:
        server.close()
        signal.signal(signal.SIGTERM, before)


def _end(number: int, frame: FrameType | None) -> None:
    sys.exit(0)
