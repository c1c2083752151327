"""A backup while people work: the engine's own copy of one moment, checked, with the head of the audit in it."""

from __future__ import annotations

import sqlite3
import tempfile
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from pellicle import __version__
from pellicle.errors import InputError, PellicleError
from pellicle.message import message
from pellicle.plant.audit.chain import By, append
from pellicle.plant.audit.verify import Verified, verify_copy
from pellicle.plant.folder import Folder
from pellicle.plant.keep.archive import Manifest, checksum, migrations, sound, write

MACHINE = By("the command line")


@dataclass(frozen=True, slots=True)
class Kept:
    """A backup that was made."""

    path: Path
    manifest: Manifest


def backup(folder: Folder, path: Path) -> Kept:
    """Write everything the folder holds to one file and tell the audit; needs Django set up on the folder."""
    if not path.parent.is_dir():
        raise InputError("plant_keep.no_folder", field="FILE", folder=str(path.parent))
    with tempfile.TemporaryDirectory(prefix=".backup-", dir=folder.path) as name:
        copy = Path(name) / "copy.sqlite3"
        steps, found = _copy(folder.database, copy)
        if found.fault is not None:
            raise PellicleError("plant_keep.chain_broken", why=str(found.fault))
        if not sound(copy):
            raise PellicleError("plant_keep.database_unsound")
        manifest = Manifest(
            made_at=datetime.now(UTC).isoformat(timespec="seconds"),
            version=__version__,
            migrations=steps,
            entries=found.entries,
            head=found.head,
            sha256=checksum(copy),
        )
        write(path, copy, manifest)
    append(message("plant_audit.backup_made", file=path.name, entries=found.entries, head=found.head), MACHINE)
    return Kept(path, manifest)


def _copy(database: Path, copy: Path) -> tuple[tuple[str, ...], Verified]:
    with closing(sqlite3.connect(database, timeout=10)) as source, closing(sqlite3.connect(copy)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode=DELETE")
        return migrations(target), verify_copy(target)
