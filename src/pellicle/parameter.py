"""Model parameters: every row of ``parameters.csv``, and the check of what a product's ``[model]`` table overrides.

The table is the sole list. A row gives the default, how well it is known before anything was measured (prior and
spread), on which level it varies (piece, batch, house, product) and the bounds outside which it is a mistake.
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType

from pellicle import table
from pellicle.errors import InputError

TABLE = "parameters.csv"
NO_OVERRIDES: Mapping[str, float] = MappingProxyType({})


class Prior(StrEnum):
    """What is known of a parameter before anything was measured; ``spread`` is its standard deviation."""

    NORMAL = "normal"
    HALF_NORMAL = "half-normal"
    NONE = "none"


class Level(StrEnum):
    """What a parameter is a property of."""

    PIECE = "piece"
    BATCH = "batch"
    HOUSE = "house"
    PRODUCT = "product"


@dataclass(frozen=True, slots=True)
class Parameter:
    """One model parameter: default, prior and bounds in ``unit``, what it means and where the figure comes from.

    ``spread`` is the standard deviation of the prior, zero where there is none; ``checked`` the date on which the row
    was compared with its source, or ``no``.
    """

    name: str
    unit: str
    default: float
    prior: Prior
    spread: float
    level: Level
    low: float
    high: float
    meaning: str
    sources: tuple[str, ...]
    checked: str


@cache
def parameters() -> Mapping[str, Parameter]:
    """Return every model parameter by name, in the order of the table."""
    return MappingProxyType({row["name"]: _parameter(row) for row in table.rows(TABLE)})


def value(name: str, overrides: Mapping[str, float] = NO_OVERRIDES) -> float:
    """Return the value of a parameter: what ``overrides`` says, else its default, in the unit of its row.

    InputError if there is no such parameter.

    >>> value("protein_water_factor"), value("protein_water_factor", {"protein_water_factor": 1.0})
    (0.9, 1.0)
    """
    return overrides[name] if name in overrides else _known(name).default


def check_overrides(model: Mapping[str, float]) -> None:
    """Pass if every name in ``model`` is a parameter and its value lies within the bounds; InputError otherwise.

    >>> check_overrides({"weighing_sdd": 0.0})
    Traceback (most recent call last):
        ...
    pellicle.errors.InputError: There is no model parameter 'weighing_sdd'. Did you mean weighing_sd or reading_sd?
    """
    for name, given in model.items():
        row = _known(name)
        if not row.low <= given <= row.high:
            unit = "" if row.unit == "1" else f" {row.unit}"
            raise InputError(
                "parameter.out_of_bounds",
                field=f"model.{name}",
                name=name,
                value=f"{given:g}{unit}",
                low=f"{row.low:g}",
                high=f"{row.high:g}{unit}",
                default=f"{row.default:g}{unit}",
                meaning=row.meaning,
            )


def _known(name: str) -> Parameter:
    found = parameters().get(name)
    if found is None:
        near = difflib.get_close_matches(name, parameters(), n=3)
        id = "parameter.unknown" if near else "parameter.unknown_far"
        raise InputError(id, field=f"model.{name}", name=name, near=" or ".join(near), all=", ".join(parameters()))
    return found


def _parameter(row: table.Row) -> Parameter:
    return Parameter(
        row["name"],
        row["unit"],
        table.number(row, "default"),
        Prior(row["prior"]),
        table.number(row, "spread", empty=0.0),
        Level(row["level"]),
        table.number(row, "low"),
        table.number(row, "high"),
        row["meaning"],
        table.keys(row),
        row["checked"],
    )
