"""Ingredients of the user's own: g per 100 g by constituent and solute, added or put in the place of a row."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.food.composition import CONSTITUENTS, Composition
from pellicle.food.ingredient import MEAT, OWN, Ingredient
from pellicle.food.names import key, near
from pellicle.food.normalise import WHOLE_G, normalised
from pellicle.food.solutes import SOLUTES, SYRUP, solute
from pellicle.message import Message, message
from pellicle.product import OwnIngredient

# How far figures with water among them may add from 100 before something is missing or counted twice, g per 100 g.
# The printed sums of 317 raw meats run from 98.5 to 102. assumed: common practice
LEAST_SUM_G = 97.0
MOST_SUM_G = 102.0
SYNONYMS = MappingProxyType(
    {"moisture": "water", "fibre": "carbohydrate", "fiber": "carbohydrate", "starch": "carbohydrate"}
)
# What labels print and a composition needs otherwise: the message that says how.
HINTS = MappingProxyType({"sodium": "food.not_sodium", "sugar": "food.not_sugars"})


def own_ingredient(own: OwnIngredient, base: Ingredient | None = None, field: str = "") -> Ingredient:
    """Return the ingredient that a user entered, with its composition per kg.

    Without ``water`` the rest to 100 g is water. ``base`` is the catalogue's ingredient that it overrides, whose label,
    group, species, allergens and density stay where the user gives none. In the group ``meat`` all protein is muscle.
    InputError, under ``field``, for names that are neither constituent nor solute (with near matches), for figures
    that are negative, not finite or over 100, and for figures that add to more than 102 or, with water, to less than
    97 g.

    >>> own = own_ingredient(OwnIngredient("plum glaze", {"sucrose": 40, "glucose": 10, "fructose": 10}))
    >>> round(own.composition.water, 3), round(own.composition.solute("sucrose"), 3)
    (0.4, 0.4)
    """
    at = field or f"ingredient.{own.name}"
    if own.density_kg_m3 is not None and not (math.isfinite(own.density_kg_m3) and own.density_kg_m3 > 0):
        raise InputError("food.bad_density", field=f"{at}.density", name=own.name, read=f"{own.density_kg_m3:g}")
    group = base.group if base is not None and own.group == OWN else own.group
    read = _by_name(own.per_100g, own.name, at)
    protein = read.get("protein", 0.0)
    muscle = protein if group == MEAT else 0.0
    composition, said = _completed(read, muscle, own.name, at)
    return Ingredient(
        name=own.name,
        label=own.label or (base.label if base else own.name),
        group=group,
        composition=composition,
        species=base.species if base else "",
        allergens=own.allergens or (base.allergens if base else ()),
        density_kg_m3=own.density_kg_m3 or (base.density_kg_m3 if base else None),
        declare=base.declare if base else (),
        nitrite_known=_told("nitrite", own, base is None or base.nitrite_known, read),
        nitrate_known=_told("nitrate", own, base is None or base.nitrate_known, read),
        normalised=said,
        aliases=base.aliases if base else (),
        note=own.source,
    )


def _told(agent: str, own: OwnIngredient, base_known: bool, read: Mapping[str, float]) -> bool:
    """An ingredient whose name or label names an agent, and whose figures do not, holds an amount nobody told."""
    named = agent in f"{own.name} {own.label}".casefold()
    return _names_one(read, agent) or (base_known and not named)


def _names_one(read: Mapping[str, float], agent: str) -> bool:
    return any(name.endswith(agent) for name in read)


def _by_name(per_100g: Mapping[str, float], name: str, field: str) -> dict[str, float]:
    if not per_100g:
        raise InputError("food.nothing_given", field=field, name=name)
    read: dict[str, float] = {}
    for typed, grams in per_100g.items():
        at = f"{field}.{typed}"
        if not (math.isfinite(grams) and 0 <= grams <= WHOLE_G):
            raise InputError("food.bad_grams", field=at, name=name, constituent=typed, read=f"{grams:g}")
        constituent = _constituent(typed, name, at)
        read[constituent] = read.get(constituent, 0.0) + grams
    return read


def _constituent(typed: str, name: str, field: str) -> str:
    plain = " ".join(typed.casefold().split())
    plain = SYNONYMS.get(plain, plain)
    if plain in CONSTITUENTS or plain in SOLUTES:
        return plain
    if SYRUP.fullmatch(plain):
        return solute(typed, field).name
    if key(plain) in HINTS:
        raise InputError(HINTS[key(plain)], field=field, name=name)
    offered = near(plain, [*CONSTITUENTS, *SOLUTES])
    hint = message("food.near", names=", ".join(offered)) if offered else message("food.no_near_constituent")
    raise InputError("food.unknown_constituent", field=field, name=name, read=typed, hint=str(hint))


def _completed(read: Mapping[str, float], muscle: float, name: str, field: str) -> tuple[Composition, Message | None]:
    solutes = MappingProxyType({entry: grams for entry, grams in read.items() if entry not in CONSTITUENTS})
    given = {entry: read.get(entry, 0.0) for entry in CONSTITUENTS}
    per_100g = Composition(**given, muscle=muscle, solutes=solutes)
    total = float(per_100g.total)
    if total > MOST_SUM_G:
        raise InputError("food.over_whole", field=field, name=name, total=f"{total:g}", most=f"{MOST_SUM_G:g}")
    if "water" not in read:
        return normalised(per_100g.with_water(max(0.0, WHOLE_G - total)))
    if total < LEAST_SUM_G:
        raise InputError("food.under_whole", field=field, name=name, total=f"{total:g}", least=f"{LEAST_SUM_G:g}")
    return normalised(per_100g)
