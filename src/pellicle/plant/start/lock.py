"""A file that one process at a time holds; it is free again when that process ends, however it ends."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class LockedError(Exception):
    """Another process holds the file."""


@contextmanager
def held(path: Path, wait_s: float = 0.0) -> Iterator[None]:
    """Hold the file while the block runs; LockedError if another process still does after the wait."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    until = time.monotonic() + wait_s
    try:
        while not _take(handle):
            if time.monotonic() >= until:
                raise LockedError(str(path))
            time.sleep(0.05)
        yield
    finally:
        os.close(handle)  # lets go of it


if sys.platform == "win32":
    import msvcrt

    def _take(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _take(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
