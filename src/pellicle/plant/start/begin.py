"""What comes before Django: the folder, its lock, disk and port, the files of the pages. Then ``serve`` takes over."""

from __future__ import annotations

from collections.abc import Callable

from pellicle.errors import InputError, PellicleError
from pellicle.message import Message, message
from pellicle.plant import assets
from pellicle.plant.folder import Folder
from pellicle.plant.start.checks import check_disk, check_port
from pellicle.plant.start.lock import LockedError, held
from pellicle.plant.start.setup import prepare, set_up

HOST = "127.0.0.1"

Tell = Callable[[Message], None]


def begin(folder: Folder, port: int, *, lan: bool, tell: Tell, show: Tell) -> None:
    """Serve until interrupted. ``tell`` gets progress and warnings, ``show`` the address."""
    if lan:
        raise InputError("plant_start.no_lan", field="--lan")
    prepare(folder)
    try:
        with held(folder.serving):
            warning = check_disk(folder.path)
            if warning is not None:
                tell(warning)
            check_port(HOST, port)
            if not folder.database.exists():
                tell(message("plant_start.first_time", folder=str(folder.path)))
            build(tell)
            set_up(folder)
            from pellicle.plant.start.serve import serve  # needs Django set up

            serve(folder, HOST, port, tell, show)
    except LockedError:
        raise PellicleError("plant_start.served", folder=str(folder.path)) from None


def build(tell: Tell) -> None:
    """Build the charts and fonts of a checkout; without them pages still work."""
    if assets.wanted():
        try:
            assets.build(tell=lambda text: tell(message("plant_start.fetching")))
        except assets.AssetsError as error:
            tell(message("plant_start.no_assets", why=str(error)))
    elif not assets.built():
        tell(message("plant_start.without_assets"))
