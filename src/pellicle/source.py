"""Where figures come from: every source once, with how well it is known, in ``sources.toml``."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType


class Known(StrEnum):
    """How a source is known to us: its text seen, quoted by another, remembered, or common practice without one."""

    SEEN = "seen"
    SECONDARY = "secondary"
    MEMORY = "memory"
    PRACTICE = "common practice"
    COMPUTED = "computed"


@dataclass(frozen=True, slots=True)
class Source:
    """One source: its key, what to look up, how it is known, and what is known of it."""

    key: str
    title: str
    known: Known
    note: str = ""

    @property
    def to_verify(self) -> bool:
        """True where the figure rests on memory or on nobody's text and is yet to be verified."""
        return self.known in (Known.MEMORY, Known.PRACTICE)


@cache
def sources() -> Mapping[str, Source]:
    """Return every registered source by key."""
    rows = tomllib.loads((files("pellicle") / "sources.toml").read_text("utf-8"))
    return MappingProxyType(
        {key: Source(key, row["title"], Known(row["known"]), row.get("note", "")) for key, row in rows.items()}
    )


def cited(keys: Iterable[str]) -> tuple[Source, ...]:
    """Return the sources under ``keys``, each once, sorted by key; KeyError if one is not registered."""
    return tuple(sources()[key] for key in sorted(set(keys)))
