"""A nutrition panel, per 100 g: the lines that make up a composition."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.food.names import near
from pellicle.food.solutes import SOLUTES
from pellicle.message import message

WHOLE_G = 100.0
SODIUM_MOLAR_MASS = 0.02298977  # kg/mol; source "own-arithmetic": standard atomic weight
# Salt per sodium, g/g: 58.443 / 22.990. Source "own-arithmetic".
SALT_PER_SODIUM = SOLUTES["salt"].molar_mass / SODIUM_MOLAR_MASS
# Salt and sodium on one label are the same figure twice; roundings aside. assumed: common practice
SALT_SODIUM_TOLERANCE = 0.10

# What a panel may call its lines.
LINES = MappingProxyType(
    {
        "protein": "protein",
        "fat": "fat",
        "total fat": "fat",
        "carbohydrate": "carbohydrate",
        "carbohydrates": "carbohydrate",
        "total carbohydrate": "carbohydrate",
        "sugar": "sugars",
        "sugars": "sugars",
        "total sugars": "sugars",
        "fibre": "fibre",
        "fiber": "fibre",
        "dietary fiber": "fibre",
        "polyols": "polyols",
        "sugar alcohol": "polyols",
        "sugar alcohols": "polyols",
        "sodium": "sodium",
        "salt": "salt",
        "water": "water",
        "moisture": "water",
        "ash": "ash",
    }
)
# Lines that are part of another line, or of no mass.
PASSED_OVER = (
    "saturates",
    "saturated fat",
    "trans fat",
    "added sugars",
    "cholesterol",
    "potassium",
    "calcium",
    "iron",
    "energy",
)


@dataclass(frozen=True, slots=True)
class Panel:
    """The lines of a panel in g per 100 g; None where a line that decides is not there, its name in ``missing``."""

    protein: float
    fat: float
    carbohydrate: float | None
    sugars: float | None
    fibre: float
    polyols: float
    sodium: float | None
    water: float | None
    ash: float | None
    missing: tuple[str, ...]


def read_panel(per_100g: Mapping[str, float], name: str, field: str) -> Panel:
    """Return the panel of bag ``name`` from g per 100 g by line; sodium is in g too, or stands as salt.

    InputError, under ``field``, for lines that no panel has (with near matches), figures that are negative, not
    finite or over 100, more sodium than pure salt holds, sugars over carbohydrate, and salt that is not its sodium.

    >>> read_panel({"Sodium": 10, "carbohydrate": 60, "sugars": 50}, "bag", "bag").missing
    ('protein', 'fat')
    """
    read: dict[str, float] = {}
    for typed, grams in per_100g.items():
        at = f"{field}.per_100g.{typed}"
        line = _line(typed, name, at)
        if not (math.isfinite(grams) and grams >= 0):
            raise InputError("food.bag_bad_grams", field=at, name=name, line_name=typed, read=f"{grams:g}")
        if line == "sodium" and grams * SALT_PER_SODIUM > WHOLE_G:
            most = f"{WHOLE_G / SALT_PER_SODIUM:.1f}"
            raise InputError("food.bag_sodium_in_mg", field=at, name=name, read=f"{grams:g}", most=most)
        if line is not None and grams > WHOLE_G:
            raise InputError("food.bag_bad_grams", field=at, name=name, line_name=typed, read=f"{grams:g}")
        if line is not None:
            read[line] = grams
    sugars, carbohydrate = read.get("sugars"), read.get("carbohydrate")
    if sugars is not None and carbohydrate is not None and sugars > carbohydrate:
        raise InputError(
            "food.bag_sugars_over",
            field=f"{field}.per_100g.sugars",
            name=name,
            sugars=f"{sugars:g}",
            most=f"{carbohydrate:g}",
        )
    return Panel(
        protein=read.get("protein", 0.0),
        fat=read.get("fat", 0.0),
        carbohydrate=carbohydrate,
        sugars=sugars,
        fibre=read.get("fibre", 0.0),
        polyols=read.get("polyols", 0.0),
        sodium=_sodium(read, name, field),
        water=read.get("water"),
        ash=read.get("ash"),
        missing=_missing(read),
    )


def sodium_of_agents(agents: Mapping[str, float]) -> float:
    """Return the sodium in sodium nitrite and nitrate, in the unit of their masses.

    >>> round(sodium_of_agents({"sodium nitrite": 6.8995}), 3)
    2.299
    """
    return sum(grams * SODIUM_MOLAR_MASS / SOLUTES[name].molar_mass for name, grams in agents.items())


def _line(typed: str, name: str, field: str) -> str | None:
    plain = " ".join(typed.casefold().replace("_", " ").split())
    if plain in LINES:
        return LINES[plain]
    if plain in PASSED_OVER:
        return None
    offered = near(plain, [*LINES, *PASSED_OVER])
    hint = str(message("food.near", names=", ".join(offered))) + " " if offered else ""
    raise InputError("food.bag_unknown_line", field=field, name=name, read=typed, hint=hint)


def _sodium(read: Mapping[str, float], name: str, field: str) -> float | None:
    salt, sodium = read.get("salt"), read.get("sodium")
    if salt is None:
        return sodium
    if sodium is not None and abs(salt - SALT_PER_SODIUM * sodium) > SALT_SODIUM_TOLERANCE * max(
        salt, SALT_PER_SODIUM * sodium
    ):
        raise InputError(
            "food.bag_salt_not_sodium",
            field=f"{field}.per_100g.salt",
            name=name,
            salt=f"{salt:g}",
            sodium=f"{sodium:g}",
            would=f"{SALT_PER_SODIUM * sodium:.3g}",
        )
    return salt / SALT_PER_SODIUM


def _missing(read: Mapping[str, float]) -> tuple[str, ...]:
    lines = [line for line in ("protein", "fat", "carbohydrate", "sugars") if line not in read]
    return (*lines, *(("sodium",) if "sodium" not in read and "salt" not in read else ()))
