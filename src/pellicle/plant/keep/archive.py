"""The file of a backup: a zip archive with a manifest and a whole copy of the database. No Django here."""

from __future__ import annotations

import hashlib
import json
import shutil
import sqlite3
import zipfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from pellicle.errors import InputError

MANIFEST, DATABASE = "manifest.json", "plant.sqlite3"
FORMAT = 1
BLOCK = 1 << 20
LARGEST_MANIFEST = 1 << 20


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a backup says of itself."""

    made_at: str
    version: str  # of the program that made it
    migrations: tuple[str, ...]  # the steps its tables are made of
    entries: int
    head: str  # of the audit
    sha256: str  # of the database
    format: int = FORMAT


def write(path: Path, database: Path, manifest: Manifest) -> None:
    """Write the file beside its place first and move it there when it is whole; InputError where that cannot be."""
    part = path.with_name(f".{path.name}.part")
    try:
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
            fields = {name: getattr(manifest, name) for name in Manifest.__dataclass_fields__}
            archive.writestr(MANIFEST, json.dumps(fields, indent=2))
            archive.write(database, DATABASE)
        part.chmod(0o600)
        part.replace(path)
    except OSError as error:
        raise InputError(
            "plant_keep.cannot_write", field="FILE", file=str(path), reason=error.strerror or str(error)
        ) from None
    finally:
        part.unlink(missing_ok=True)


def read(path: Path, database: Path) -> Manifest:
    """Unpack the database of a backup to a place of its own and return the manifest; InputError if it is not whole."""
    with _opened(path) as archive:
        if archive.getinfo(MANIFEST).file_size > LARGEST_MANIFEST:
            raise KeyError(MANIFEST)
        fields = json.loads(archive.read(MANIFEST))
        if fields["format"] != FORMAT:
            raise InputError("plant_keep.other_format", field="FILE", file=path.name, format=fields["format"])
        manifest = Manifest(**{**fields, "migrations": tuple(fields["migrations"])})
        with archive.open(DATABASE) as source, database.open("wb") as target:
            shutil.copyfileobj(source, target, BLOCK)
    if checksum(database) != manifest.sha256:
        raise InputError("plant_keep.damaged", field="FILE", file=path.name)
    return manifest


def refuse_unreadable(path: Path) -> None:
    """Raise InputError for a file that is not there or is no archive, before anything is made for it."""
    with _opened(path):
        pass


def checksum(path: Path) -> str:
    """Return the hash of a file's bytes."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def sound(database: Path) -> bool:
    """Return whether the database engine finds its own file in order."""
    try:
        with closing(sqlite3.connect(database)) as connection:
            found = connection.execute("PRAGMA integrity_check").fetchone()
    except sqlite3.DatabaseError:
        return False
    return bool(found == ("ok",))


def migrations(connection: sqlite3.Connection) -> tuple[str, ...]:
    """Return the steps that a database's tables are made of."""
    rows = connection.execute("SELECT app, name FROM django_migrations ORDER BY app, name")
    return tuple(f"{app}.{name}" for app, name in rows)


@contextmanager
def _opened(path: Path) -> Iterator[zipfile.ZipFile]:
    try:
        with zipfile.ZipFile(path) as archive:
            yield archive
    except FileNotFoundError:
        raise InputError("plant_keep.no_file", field="FILE", file=str(path)) from None
    except (zipfile.BadZipFile, KeyError, TypeError, ValueError, EOFError):
        raise InputError("plant_keep.no_backup", field="FILE", file=path.name) from None
    except OSError as error:
        raise InputError(
            "plant_keep.cannot_read", field="FILE", file=str(path), reason=error.strerror or str(error)
        ) from None
