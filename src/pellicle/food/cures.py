"""Curing salts: what their label says becomes their composition; without it there is no cure to weigh."""

from __future__ import annotations

import math
from dataclasses import replace
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.ingredient import BAG, CURE, OWN, Ingredient
from pellicle.message import Value
from pellicle.table import number, rows

SAME = 1e-6  # kg/kg; what a strength loses between text and number
WEAKEST = "weakest"


def is_cure(ingredient: Ingredient) -> bool:
    """Return whether an ingredient is there to cure: a curing salt, a pure agent, a cultured vegetable powder."""
    return ingredient.group == CURE


def can_carry_nitrite(ingredient: Ingredient) -> bool:
    """Return whether a line may state nitrite for this ingredient: cures, bags, own ingredients, natural sources."""
    undeclared = not (ingredient.nitrite_known and ingredient.nitrate_known)
    return undeclared or ingredient.group in (CURE, BAG, OWN)


def needs_strength(ingredient: Ingredient) -> bool:
    """Return whether a cure says nothing of its strength yet: the percentage on its label must stand on the line."""
    return is_cure(ingredient) and not _agents(ingredient.composition)


def cure_ingredient(
    ingredient: Ingredient,
    nitrite_share: float | None,
    nitrate_share: float | None = None,
    potassium: bool = False,
    field: str = "",
) -> Ingredient:
    """Return the ingredient with the strength that its label states; the rest of a curing salt is salt.

    Shares are kg per kg of the ingredient, of sodium nitrite and sodium nitrate, of the potassium salts if
    ``potassium``. In a vegetable powder the rest keeps its proportions. Pure agents take no strength. InputError,
    under ``field``, for a cure without any, for shares that are negative, over the whole together, or so small that a
    percentage was typed as a fraction, for a strength that contradicts the composition, and for ingredients that are
    no cure.

    >>> from pellicle.food.ingredients import catalogue
    >>> cure = cure_ingredient(catalogue().find("curing salt"), 0.0625)
    >>> cure.composition.solute("sodium nitrite"), cure.composition.solute("salt")
    (0.0625, 0.9375)
    """
    _check(ingredient, nitrite_share, nitrate_share, field)
    nitrite, nitrate = nitrite_share or 0.0, nitrate_share or 0.0
    metal = "potassium" if potassium else "sodium"
    stated = {name: mass for name, mass in ((f"{metal} nitrite", nitrite), (f"{metal} nitrate", nitrate)) if mass}
    held = _agents(ingredient.composition)
    if held:
        if not stated or all(math.isclose(held.get(name, 0.0), mass, abs_tol=SAME) for name, mass in stated.items()):
            return ingredient
        raise _refusal("food.strength_contradicts", ingredient, field, held=_say(held), read=_say(stated))
    rest = ingredient.composition * (1 - nitrite - nitrate)
    composition = replace(rest, solutes=MappingProxyType({**rest.solutes, **stated}))
    return replace(
        ingredient,
        composition=composition,
        nitrite_known=ingredient.nitrite_known or nitrite_share is not None,
        nitrate_known=ingredient.nitrate_known or nitrate_share is not None,
    )


def _check(ingredient: Ingredient, nitrite: float | None, nitrate: float | None, field: str) -> None:
    if not can_carry_nitrite(ingredient):
        raise _refusal("food.not_a_cure", ingredient, field)
    for agent, share in (("nitrite", nitrite), ("nitrate", nitrate)):
        if share is not None and not (math.isfinite(share) and 0 <= share <= 1):
            raise _refusal("food.bad_strength", ingredient, field, agent=agent, read=f"{share:g}")
    if (nitrite or 0.0) + (nitrate or 0.0) > 1:
        raise _refusal("food.strength_over_whole", ingredient, field)
    if needs_strength(ingredient):
        stated = {"nitrite": nitrite, "nitrate": nitrate}
        unstated = [agent for agent in ingredient.declare or ("nitrite",) if stated[agent] is None]
        if unstated or not (nitrite or nitrate):
            raise _refusal("food.no_strength", ingredient, field, agent=" and ".join(unstated) or "nitrite")
        strongest, least_met = max(nitrite or 0.0, nitrate or 0.0), _least()
        if strongest < least_met / 2:
            read, least = f"{100 * strongest:.4g}", f"{100 * least_met:g}"
            raise _refusal("food.strength_too_small", ingredient, field, read=read, least=least)


def refuse_weak(nitrite: float, nitrate: float, name: str, field: str) -> None:
    """Refuse a cure weaker than half of the weakest met: a percentage typed as a fraction. InputError under
    ``field``."""
    strongest, least_met = max(nitrite, nitrate), _least()
    if 0 < strongest < least_met / 2:
        read, least = f"{100 * strongest:.4g}", f"{100 * least_met:g}"
        raise InputError("food.strength_too_small", field=field, name=name, read=read, least=least)


def _least() -> float:
    """The weakest curing salt met; a line that states less than half of it typed a percentage as a fraction.

    Let through, that would hide an overdose of a hundred times.
    """
    found = {row["name"]: number(row, "strength") for row in rows("food/data/cure_strengths.csv")}
    return found[WEAKEST]


def _agents(composition: Composition) -> dict[str, float]:
    names = ("sodium nitrite", "potassium nitrite", "sodium nitrate", "potassium nitrate")
    return {name: float(composition.solute(name)) for name in names if float(composition.solute(name)) > 0}


def _say(agents: dict[str, float]) -> str:
    return ", ".join(f"{100 * mass:.4g} % {name}" for name, mass in agents.items())


def _refusal(id: str, ingredient: Ingredient, field: str, **values: Value) -> InputError:
    return InputError(id, field=field, line=None, name=ingredient.name, **values)
