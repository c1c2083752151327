"""Sub-formulas: a name that stands for a mixture is opened into the ingredients it is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pellicle.errors import InputError
from pellicle.food.ingredients import Catalogue, Ingredient
from pellicle.formula.printed import percent
from pellicle.formula.strength import with_strength
from pellicle.product import Line, MixtureLine

# Shares on a recipe card are rounded; more than this missing is a missing ingredient. assumed: common practice
SUM_TOLERANCE = 0.005


@dataclass(frozen=True, slots=True)
class Portion:
    """An ingredient and its share (kg/kg) of the line it belongs to; ``of_mixture`` names the innermost mixture."""

    ingredient: Ingredient
    share: float
    of_mixture: str = ""


def open_line(
    line: Line, field: str, mixtures: Mapping[str, tuple[MixtureLine, ...]], catalogue: Catalogue
) -> tuple[Portion, ...]:
    """Return the ingredients that a line stands for, with shares that add to 1.

    One ingredient as a rule; where the line names a mixture, its ingredients, through as many mixtures as there are.
    InputError, under ``field``, for an unknown ingredient, a cure without its strength, a mixture whose shares do not
    come to 100 %, that names an ingredient twice or leads back to itself.
    """
    if line.ingredient not in mixtures:
        try:
            found = catalogue.find(line.ingredient, f"{field}.ingredient")
            return (Portion(with_strength(found, line, field), 1.0),)
        except InputError as error:
            error.line = line.line
            raise
    if line.nitrite_share is not None or line.nitrate_share is not None:
        raise InputError("formula.strength_of_mixture", field=f"{field}.nitrite", line=line.line, name=line.ingredient)
    return _open(line.ingredient, mixtures, catalogue, ())


def _open(
    name: str, mixtures: Mapping[str, tuple[MixtureLine, ...]], catalogue: Catalogue, above: tuple[str, ...]
) -> tuple[Portion, ...]:
    field = f"mixture.{name}"
    if name in above:
        way = " -> ".join((*above[above.index(name) :], name))
        raise InputError("formula.mixture_circle", field=field, name=name, way=way)
    rows = mixtures[name]
    _refuse_sum(name, rows, field)
    whole = sum(row.share for row in rows)
    portions: list[Portion] = []
    seen: set[str] = set()
    for row in rows:
        where = f"{field}.{row.ingredient}"
        if row.ingredient in mixtures:
            inside, called = _open(row.ingredient, mixtures, catalogue, (*above, name)), row.ingredient
        else:
            found = with_strength(catalogue.find(row.ingredient, where), row, where)
            inside, called = (Portion(found, 1.0, name),), found.name
        if called in seen:
            raise InputError("formula.mixture_twice", field=where, name=called, mixture=name)
        seen.add(called)
        portions += [Portion(item.ingredient, item.share * row.share / whole, item.of_mixture) for item in inside]
    return tuple(portions)


def _refuse_sum(name: str, rows: tuple[MixtureLine, ...], field: str) -> None:
    for row in rows:
        if not 0 <= row.share <= 1:
            raise InputError(
                "formula.mixture_share", field=f"{field}.{row.ingredient}", name=row.ingredient, mixture=name
            )
    whole = sum(row.share for row in rows)
    if not abs(whole - 1) <= SUM_TOLERANCE:
        raise InputError("formula.mixture_sum", field=field, name=name, percent=percent(whole))
