"""Solutes by species: how each counts towards water activity, from ``data/solutes.csv``.

Three treatments: ``electrolyte`` (a 1:1 salt, Pitzer), ``norrish`` (sugars, polyols, fruit acids) and ``ideal``
(everything else, by osmoles). Glucose syrup solids of any dextrose equivalent are made to order.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.message import message
from pellicle.table import keys, number, rows

SYRUP = re.compile(r"glucose syrup DE (\d+(?:\.\d+)?)", re.IGNORECASE)
SYRUP_DE_LOW = 10.0
SYRUP_DE_HIGH = 95.0
SYRUP_SOURCE = "glucose-syrup-memory"
# Number-average molar mass of the solids times the dextrose equivalent, g/mol (glucose: 180.16 at DE 100).
SYRUP_MOLAR_MASS_TIMES_DE = 18016.0
# assumed: the review's "+-0.01 extra" for a syrup, read as one standard deviation.
SYRUP_EXTRA_AW_SD = 0.01
G_PER_KG = 1000.0


class Treat(StrEnum):
    """How a solute lowers water activity in the model."""

    ELECTROLYTE = "electrolyte"
    NORRISH = "norrish"
    IDEAL = "ideal"


@dataclass(frozen=True, slots=True)
class Solute:
    """One solute. ``molar_mass`` in kg/mol; the last three numbers are zero where the treatment does not use them.

    ``salt_equivalents``: mol of 1:1 salt per mol, with the virial coefficients of the row ``pitzer`` of
    ``data/pitzer.csv``; ``norrish_k``: constant of the Norrish equation (natural logarithm); ``osmol_per_mol``: ions
    times osmotic coefficient. ``extra_aw_sd`` is doubt to add where the solute carries most of the effect. ``sources``
    are keys of ``sources.toml``.
    """

    name: str
    label: str
    group: str
    treat: Treat
    molar_mass: float
    salt_equivalents: float = 0.0
    norrish_k: float = 0.0
    osmol_per_mol: float = 0.0
    pitzer: str = ""
    extra_aw_sd: float = 0.0
    sources: tuple[str, ...] = ()

    @property
    def sweet(self) -> bool:
        """True for sugars and polyols, whose mass decides whether a product counts as sweet."""
        return self.group in ("sugar", "polyol")


def solute(name: str, field: str = "") -> Solute:
    """Return the solute of that name; ``glucose syrup DE n`` is made for any n from 10 to 95 (dry solids).

    InputError with near matches if there is none; ``field`` is where the name was entered.

    >>> round(solute("salt").molar_mass, 6)
    0.058443
    >>> round(solute("glucose syrup DE 42").molar_mass, 3), solute("glucose syrup DE 42").norrish_k
    (0.429, 5.5)
    """
    found = SOLUTES.get(name)
    if found is not None:
        return found
    syrup = SYRUP.fullmatch(name.strip())
    if syrup and SYRUP_DE_LOW <= float(syrup[1]) <= SYRUP_DE_HIGH:
        return glucose_syrup(float(syrup[1]))
    near = difflib.get_close_matches(name, SOLUTES, n=3)
    hint = message("food_aw.near", names=", ".join(near)) if near else message("food_aw.no_near")
    raise InputError("food_aw.unknown_solute", field=field, name=name, hint=str(hint))


@cache
def glucose_syrup(dextrose_equivalent: float) -> Solute:
    """Return the dry solids of a glucose syrup: molar mass 18016/DE g/mol, Norrish constant by DE.

    The constant is linear between the rows of ``data/syrups.csv`` and carried on at the first slope below them; it is
    an order of magnitude there, so an extra 0.01 aw of doubt goes with every syrup. From memory, to be verified.

    >>> glucose_syrup(63).norrish_k
    3.0
    """
    points = [(number(row, "dextrose_equivalent"), number(row, "norrish_k")) for row in rows("food/data/syrups.csv")]
    upper = next((at for at in range(1, len(points)) if dextrose_equivalent <= points[at][0]), len(points) - 1)
    (x0, y0), (x1, y1) = points[upper - 1], points[upper]
    norrish_k = y0 + (y1 - y0) * (dextrose_equivalent - x0) / (x1 - x0)
    name = f"glucose syrup DE {dextrose_equivalent:g}"
    return Solute(
        name=name,
        label=f"{name} (solids)",
        group="sugar",
        treat=Treat.NORRISH,
        molar_mass=SYRUP_MOLAR_MASS_TIMES_DE / dextrose_equivalent / G_PER_KG,
        norrish_k=norrish_k,
        extra_aw_sd=SYRUP_EXTRA_AW_SD,
        sources=(SYRUP_SOURCE,),
    )


def _read() -> Mapping[str, Solute]:
    table = {
        row["name"]: Solute(
            name=row["name"],
            label=row["label"],
            group=row["group"],
            treat=Treat(row["treat"]),
            molar_mass=number(row, "molar_mass_g_per_mol") / G_PER_KG,
            salt_equivalents=number(row, "salt_equivalents", empty=0.0),
            norrish_k=number(row, "norrish_k", empty=0.0),
            osmol_per_mol=number(row, "osmol_per_mol", empty=0.0),
            pitzer=row["pitzer"],
            sources=keys(row),
        )
        for row in rows("food/data/solutes.csv")
    }
    return MappingProxyType(table)


SOLUTES: Mapping[str, Solute] = _read()
