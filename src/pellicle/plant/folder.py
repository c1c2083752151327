"""Where a plant's data live: one folder of its own, readable by its owner only, with everything a backup must hold."""

from __future__ import annotations

import os
import secrets
import sys
from dataclasses import dataclass
from pathlib import Path

VARIABLE = "PELLICLE_DATA"
PRIVATE_FOLDER = 0o700
PRIVATE_FILE = 0o600


@dataclass(frozen=True, slots=True)
class Folder:
    """The data folder and the names of what stands in it."""

    path: Path

    @property
    def database(self) -> Path:
        """The records."""
        return self.path / "plant.sqlite3"

    @property
    def secret(self) -> Path:
        """What signs the cookies of this plant."""
        return self.path / "secret"

    @property
    def first_run(self) -> Path:
        """The hash of the token that guards the first page, until there is an owner."""
        return self.path / "first-run"

    @property
    def serving(self) -> Path:
        """Locked while a server runs on this folder."""
        return self.path / "serving.lock"

    @property
    def migrating(self) -> Path:
        """Locked while the tables are being changed."""
        return self.path / "migrating.lock"

    @property
    def replaced(self) -> Path:
        """What restores have replaced."""
        return self.path / "replaced"


def usual() -> Path:
    """Return where data go when nobody says where: this system's place for the data of programs."""
    if sys.platform == "win32":
        home = os.environ.get("LOCALAPPDATA")
        return (Path(home) if home else Path.home() / "AppData" / "Local") / "pellicle"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "pellicle"
    home = os.environ.get("XDG_DATA_HOME")
    return (Path(home) if home else Path.home() / ".local" / "share") / "pellicle"


def chosen() -> Folder:
    """Return the folder that was chosen for this process, else the usual one; it need not exist."""
    return Folder(Path(os.environ.get(VARIABLE) or usual()).expanduser().absolute())


def of(path: Path | None) -> Folder:
    """Return the folder somebody named, else the one chosen in the environment, else the usual one."""
    return chosen() if path is None else Folder(path.expanduser().absolute())


def make(folder: Folder) -> None:
    """Make the folder, closed to others, and its secret; OSError where that cannot be."""
    folder.path.mkdir(parents=True, exist_ok=True, mode=PRIVATE_FOLDER)
    folder.path.chmod(PRIVATE_FOLDER)
    if not folder.secret.exists():
        write_private(folder.secret, secrets.token_urlsafe(48))


def write_private(path: Path, text: str) -> None:
    """Write a small file that only the owner of the folder can read, whole or not at all."""
    part = path.with_name(f".{path.name}.part")
    part.unlink(missing_ok=True)
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, PRIVATE_FILE)
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(text)
    os.replace(part, path)
