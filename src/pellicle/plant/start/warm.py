"""Preparing the calculation while the first pages are looked at, in a process of its own: no page waits for it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from pellicle.run.cache import is_warm

PROGRAM = "from pellicle.run.warm import warm; warm()"


@contextmanager
def warming() -> Iterator[bool]:
    """Compile the kernel in the background unless it is on disk; yield whether that goes on, and end it at the end."""
    if is_warm():
        yield False
        return
    process = subprocess.Popen(
        [sys.executable, "-c", PROGRAM],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,  # a Ctrl-C in the terminal is for the server
    )
    if hasattr(os, "setpriority"):
        os.setpriority(os.PRIO_PROCESS, process.pid, 10)
    try:
        yield True
    finally:
        process.terminate()
        process.wait()
