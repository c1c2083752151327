"""The sources of a plan: the static union over the relations it can reach, and the rows of data it read."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from pellicle import parameter
from pellicle.answers.working import Working
from pellicle.food.solutes import solute
from pellicle.relation import RELATIONS
from pellicle.rules.cautions import Caution
from pellicle.rules.verdict import Check
from pellicle.source import Source, cited

# The rooms whose relations a plan can reach; the temperature form, standards and comparison tables are not among them.
REACHED = (
    "pellicle.food.electrolytes",
    "pellicle.food.sugars",
    "pellicle.food.sorption",
    "pellicle.food.water_model",
    "pellicle.formula.",
)
PASSAGE = ("pellicle.air.", "pellicle.piece.", "pellicle.run.", "pellicle.safety.")


def plan_sources(work: Working, checks: Sequence[Check], cautions: Sequence[Caution]) -> tuple[Source, ...]:
    """Return every source a plan rests on, each once."""
    return cited(_keys(work, checks, cautions))


def passage_sources(
    work: Working, checks: Sequence[Check], cautions: Sequence[Caution], house: Iterable[str]
) -> tuple[Source, ...]:
    """Return every source a passage through the house rests on, each once."""
    return cited(_keys(work, checks, cautions) | relation_sources(PASSAGE) | set(house))


def relation_sources(rooms: Iterable[str]) -> set[str]:
    """Return the source keys of all relations whose module name begins with one of ``rooms``."""
    starts = tuple(rooms)
    return {key for name, found in RELATIONS.items() if name.startswith(starts) for key in found.sources}


def _keys(work: Working, checks: Sequence[Check], cautions: Sequence[Caution]) -> set[str]:
    keys = relation_sources(REACHED)
    for ingredient in (work.formula.meat, *(part.ingredient for part in work.formula.parts)):
        keys |= set(ingredient.sources)
        keys |= {key for name in ingredient.composition.solutes for key in solute(name).sources}
    keys |= {key for row in parameter.parameters().values() for key in row.sources}
    keys |= {key for check in checks for key in check.sources}
    keys |= {key for caution in cautions for key in caution.sources}
    return keys
