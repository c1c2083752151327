"""A server that the tests of the browser started."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Served:
    """A server that runs: its address, its folder, and the token it printed."""

    address: str
    folder: Path
    token: str
