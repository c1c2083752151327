"""Curing agents in an ingredient: how much its composition holds, and the strength a line states from the label."""

from __future__ import annotations

from pellicle.food.composition import Composition
from pellicle.food.ingredients import Ingredient, cure_ingredient, needs_strength
from pellicle.product import Line, MixtureLine


def agent_share(composition: Composition, agent: str) -> float:
    """Return the mass of ``nitrite`` or ``nitrate`` in a composition, its sodium and potassium salts as they are.

    >>> from types import MappingProxyType
    >>> agent_share(Composition(solutes=MappingProxyType({"salt": 0.9375, "sodium nitrite": 0.0625})), "nitrite")
    0.0625
    """
    return float(composition.solute(f"sodium {agent}", f"potassium {agent}"))


def with_strength(ingredient: Ingredient, stated: Line | MixtureLine, field: str) -> Ingredient:
    """Return the ingredient with the shares of nitrite and nitrate that its line states, if it states any.

    InputError, under ``field``, for a cure without its strength and for a strength that cannot be.
    """
    if stated.nitrite_share is None and stated.nitrate_share is None and not needs_strength(ingredient):
        return ingredient
    return cure_ingredient(
        ingredient, stated.nitrite_share, stated.nitrate_share, stated.potassium, field=f"{field}.nitrite"
    )
