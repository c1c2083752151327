"""The organisms that are counted, with how fast they die when wet, for decisions and on average (``data``)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from pellicle.source import sources
from pellicle.table import keys, number, rows

TABLE = "safety/data/organisms.csv"
SECONDS_PER_MINUTE = 60.0
ORGANISMS = ("salmonella", "stec", "listeria", "aureus")


@dataclass(frozen=True, slots=True)
class Line:
    """How fast one organism dies when wet: seconds for one log at 60 C, and z below and above it, K."""

    d60_s: float
    z_below_c: float
    z_above_c: float
    sources: tuple[str, ...]

    @property
    def from_memory(self) -> bool:
        """True where a figure of the line rests on memory alone: it can be shown, but no verdict may rest on it."""
        return any(sources()[key].to_verify for key in self.sources)


@dataclass(frozen=True, slots=True)
class Organism:
    """One organism in meat or in poultry: the line for decisions, the mean one, and how much a history can cost.

    ``history_most`` multiplies the time for one log after an hour at sub-lethal temperatures.
    """

    name: str
    label: str
    poultry: bool
    decision: Line
    mean: Line
    history_most: float


@cache
def organisms(poultry: bool) -> Mapping[str, Organism]:
    """Return the organisms by name, for meat or for poultry.

    >>> [round(organisms(poultry)["salmonella"].decision.d60_s, 1) for poultry in (False, True)]
    [157.8, 301.2]
    """
    meat = "poultry" if poultry else "meat"
    lines = {(row["organism"], row["use"]): row for row in rows(TABLE) if row["meat"] == meat}
    found = {}
    for name in ORGANISMS:
        decision, mean = lines[name, "decision"], lines[name, "mean"]
        found[name] = Organism(
            name, decision["label"], poultry, _line(decision), _line(mean), number(decision, "history_most")
        )
    return MappingProxyType(found)


def _line(row: Mapping[str, str]) -> Line:
    return Line(
        SECONDS_PER_MINUTE * number(row, "d60_min"), number(row, "z_below_60_c"), number(row, "z_above_60_c"), keys(row)
    )
