"""Where compiled code is kept between runs: a folder named after everything that was compiled.

A compiler's own cache does not notice when a function imported from another file has changed, and would go on running
the old relation without a word. So the folder's name is a hash of all relations, of the kernel, of their constants and
of the compiler's version, and it is set before the compiler is imported.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import sys
import time
from collections.abc import Iterable
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent
# rooms whose sources and tables end up in compiled code
ROOMS = ("air", "food", "piece", "run", "safety")
SUFFIXES = (".py", ".csv")
VARIABLE = "NUMBA_CACHE_DIR"
KEPT = 3  # folders of other versions that stay, the newest ones: two checkouts may take turns
DIGITS = 16
STALE_S = 7 * 24 * 3600.0  # a folder used within a week is never removed


def cache_folder() -> bool:
    """Point the compiler at the folder of this content; False where no folder can be written: then nothing is kept.

    Someone who set the folder in the environment keeps it: it is used with the content's name below it.
    """
    folder = _folder()
    if folder is None:
        os.environ.pop(VARIABLE, None)
        return False
    os.environ[VARIABLE] = str(folder)
    module = sys.modules.get("numba")
    if module is not None:
        module.config.CACHE_DIR = str(folder)  # imported before us, by somebody else
    return True


def is_warm() -> bool:
    """Return whether the kernel of this content is compiled already; else the next run takes half a minute first."""
    return cache_folder() and any(Path(os.environ[VARIABLE]).rglob("*.nbc"))


def content_hash(files: Iterable[Path] | None = None) -> str:
    """Return a name for the content of the relations, the kernel, their tables and the compiler's version."""
    found = hashlib.sha256()
    for name in ("numba", "llvmlite", "numpy"):
        try:
            found.update(f"{name} {version(name)}".encode())
        except PackageNotFoundError:
            found.update(f"{name} -".encode())
    found.update(sys.version.encode())
    for path in sources() if files is None else files:
        found.update(path.name.encode())
        found.update(path.read_bytes())
    return found.hexdigest()[:DIGITS]


def sources() -> tuple[Path, ...]:
    """Return every file that compiled code is made from."""
    rooms = (path for room in ROOMS for path in (PACKAGE / room).rglob("*") if path.suffix in SUFFIXES)
    return (*sorted(path for path in rooms if path.is_file()), PACKAGE / "relation.py", PACKAGE / "units" / "kinds.py")


def prune(parent: Path, current: str, now: float) -> tuple[Path, ...]:
    """Remove folders of other content that nobody used for a week, all but the newest few; return what went."""
    others = [path for path in parent.iterdir() if path.is_dir() and path.name != current and _ours(path)]
    others.sort(key=lambda path: path.stat().st_mtime, reverse=True)
    gone = [path for path in others[KEPT:] if now - path.stat().st_mtime > STALE_S]
    for path in gone:
        shutil.rmtree(path, ignore_errors=True)
    return tuple(gone)


@cache
def _folder() -> Path | None:
    name = content_hash()
    for parent in _parents():
        folder = parent / name
        try:
            folder.mkdir(parents=True, exist_ok=True)
            probe = folder / f".writable-{os.getpid()}"
            probe.touch()
            probe.unlink()
            os.utime(folder)
            prune(parent, name, time.time())
        except OSError:
            continue
        return folder
    return None


def _parents() -> tuple[Path, ...]:
    own = os.environ.get(VARIABLE)
    if own:
        # what a process of ours has set is handed to its children, and is no wish of anybody's
        set_by_us = _ours(Path(own)) and Path(own).parent.name == "pellicle"
        return (Path(own).parent if set_by_us else Path(own) / "pellicle",)
    home = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    return ((Path(home) if home else Path.home() / ".cache") / "pellicle",)


def _ours(path: Path) -> bool:
    return len(path.name) == DIGITS and all(letter in "0123456789abcdef" for letter in path.name)
