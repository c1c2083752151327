"""Putting a backup in the place of what a folder holds: checked first, and what it replaces is kept beside."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from django.db import connections

from pellicle.errors import InputError, PellicleError
from pellicle.message import message
from pellicle.plant.audit.chain import append
from pellicle.plant.audit.verify import verify_copy
from pellicle.plant.folder import PRIVATE_FILE, PRIVATE_FOLDER, Folder
from pellicle.plant.keep.archive import Manifest, migrations, read, sound
from pellicle.plant.keep.backup import MACHINE
from pellicle.plant.start.lock import LockedError, held
from pellicle.plant.start.migrate import known_migrations, migrate

BESIDE = ("-wal", "-shm")


@dataclass(frozen=True, slots=True)
class Restored:
    """What was put in place, and where what it replaced is."""

    manifest: Manifest
    replaced: Path | None


def restore(folder: Folder, path: Path) -> Restored:
    """Check a backup and put it in place; nothing is touched before every check has passed.

    Needs Django set up on the folder, whose tables need not exist yet.
    """
    try:
        with held(folder.serving):
            return _restore(folder, path)
    except LockedError:
        raise PellicleError("plant_keep.served", folder=str(folder.path)) from None


def _restore(folder: Folder, path: Path) -> Restored:
    with tempfile.TemporaryDirectory(prefix=".restore-", dir=folder.path) as name:
        copy = Path(name) / "copy.sqlite3"
        manifest = read(path, copy)
        _check(path, copy, manifest)
        replaced = _set_aside(folder)
        copy.chmod(PRIVATE_FILE)
        copy.replace(folder.database)
    migrate(folder)
    append(
        message(
            "plant_audit.restored", file=path.name, made=manifest.made_at, entries=manifest.entries, head=manifest.head
        ),
        MACHINE,
    )
    return Restored(manifest, replaced)


def _check(path: Path, copy: Path, manifest: Manifest) -> None:
    newer = sorted(set(manifest.migrations) - known_migrations())
    if newer:
        raise InputError("plant_keep.newer", field="FILE", file=path.name, version=manifest.version, step=newer[0])
    if not sound(copy):
        raise InputError("plant_keep.damaged", field="FILE", file=path.name)
    try:
        with closing(sqlite3.connect(copy)) as connection:
            found, steps = verify_copy(connection), migrations(connection)
    except sqlite3.DatabaseError:
        raise InputError("plant_keep.damaged", field="FILE", file=path.name) from None
    if found.fault is not None:
        raise InputError("plant_keep.backup_chain_broken", field="FILE", file=path.name, why=str(found.fault))
    if (found.entries, found.head, steps) != (manifest.entries, manifest.head, manifest.migrations):
        raise InputError("plant_keep.damaged", field="FILE", file=path.name)


def _set_aside(folder: Folder) -> Path | None:
    """Move what is there into a folder named after the moment; the log beside a database belongs to it."""
    if not folder.database.exists():
        return None
    connections.close_all()
    aside = folder.replaced / datetime.now(UTC).strftime("%Y-%m-%d-%H%M%S-%f")
    aside.mkdir(parents=True, mode=PRIVATE_FOLDER)
    for suffix in ("", *BESIDE):
        source = folder.database.with_name(folder.database.name + suffix)
        if source.exists():
            shutil.move(source, aside / source.name)
    return aside
