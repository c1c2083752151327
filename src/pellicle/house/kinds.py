"""The general kinds of house: what stands in where a file says nothing. No makes; rows in ``data/house_kinds.csv``."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.passage import Arrangement
from pellicle.table import Row, keys, number, rows
from pellicle.units.kinds import HOUR_S

TABLE = "house/data/house_kinds.csv"
UNSTATED = "house"


@dataclass(frozen=True, slots=True)
class HouseKind:
    """A kind of house in SI: whether it has a damper, how its air moves and leaks, how unlike its places are.

    ``film_log_sd`` is the standard deviation of the logarithm of the film coefficient before anything was measured,
    ``position_sd`` that between the places of one house.
    """

    name: str
    label: str
    damper: bool
    gas_fired: bool
    film_w_m2k: float
    film_log_sd: float
    arrangement: Arrangement | None
    emissivity: float
    volume_m3: float
    leak_kg_s: float
    fresh_kg_s: float
    full_fresh_kg_s: float
    position_sd: float
    sources: tuple[str, ...]


@cache
def house_kinds() -> Mapping[str, HouseKind]:
    """Return every kind of house by name, in the order of the table."""
    return MappingProxyType({row["kind"]: _kind(row) for row in rows(TABLE)})


def house_kind(name: str, field: str = "house.kind") -> HouseKind:
    """Return a kind of house by name, the unstated one for none; InputError with the near ones where there is none.

    >>> house_kind("Climate Chamber").damper
    False
    """
    if not name:
        return house_kinds()[UNSTATED]
    asked = " ".join(name.casefold().split())
    if asked in house_kinds():
        return house_kinds()[asked]
    near = difflib.get_close_matches(asked, house_kinds(), n=2)
    id = "house.kind_near" if near else "house.kind_unknown"
    raise InputError(id, field=field, read=name, near=" or ".join(near), allowed=", ".join(house_kinds()))


def _kind(row: Row) -> HouseKind:
    return HouseKind(
        row["kind"],
        row["label"],
        row["damper"] == "yes",
        row["gas_fired"] == "yes",
        number(row, "film_w_m2k"),
        number(row, "film_log_sd"),
        Arrangement(row["arrangement"]) if row["arrangement"] else None,
        number(row, "emissivity"),
        number(row, "volume_m3"),
        number(row, "leak_kg_h") / HOUR_S,
        number(row, "fresh_kg_h") / HOUR_S,
        number(row, "fresh_open_kg_h") / HOUR_S,
        number(row, "position_sd"),
        keys(row),
    )
