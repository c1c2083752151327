"""The reduction a process has to reach, by organism and species, as dated guidance has it (``data``)."""

from __future__ import annotations

from dataclasses import dataclass

from pellicle.product import POULTRY
from pellicle.table import keys, number, rows

TABLE = "rules/data/lethality_targets.csv"
BLOCKS = "blocks"


@dataclass(frozen=True, slots=True)
class Target:
    """The log reduction needed of one organism, what to aim for where that is more, and where it stands."""

    organism: str
    target: float
    aim: float | None
    blocks: bool
    clause: str
    sources: tuple[str, ...]


def target_for(organism: str, species: str) -> Target | None:
    """Return the target for an organism in a species, the most particular first; None where there is none.

    A species that is not told has the target for meat.

    >>> [target_for("salmonella", species).target for species in ("beef", "pork", "turkey")]
    [5.0, 5.0, 7.0]
    >>> target_for("stec", "beef").blocks, target_for("stec", "pork").blocks, target_for("aureus", "beef")
    (True, False, None)
    """
    kinds = (species, "poultry" if species in POULTRY else "meat", "any")
    for kind in kinds:
        for row in rows(TABLE):
            if row["organism"] == organism and row["meat"] == kind:
                aim = number(row, "aim") if row["aim"] else None
                target, clause = number(row, "target"), row["clause"]
                return Target(organism, target, aim, row["use"] == BLOCKS, clause, keys(row))
    return None
