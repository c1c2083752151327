"""Standards for water activity meters: saturated salts by temperature and unsaturated solutions, as tables.

Sodium chloride (0.753) and potassium chloride (0.843) at 25 C stand on either side of the usual limit, and a plant
can make both. Saturated salts move with temperature; unsaturated ones hardly do and are preferred.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from pellicle.errors import InputError
from pellicle.food.composition import Quantity
from pellicle.relation import relation
from pellicle.table import Row, number, rows

SATURATED = "food/data/standards_saturated.csv"
UNSATURATED = "food/data/standards_unsaturated.csv"
PERCENT = 100.0


@dataclass(frozen=True, slots=True)
class Standard:
    """A meter standard: its water activity at ``temperature_c`` and the standard uncertainty ``u`` of that."""

    name: str
    aw: float
    u: float
    temperature_c: float
    molality: float | None = None


@relation("greenspan-1977", valid={"temperature_c": (0.0, 80.0), "result": (0.1, 1.0)})
def saturated_salt_aw(temperature_c: Quantity, a0: float, a1: float, a2: float, a3: float) -> Quantity:
    """Return the water activity over a saturated salt solution.

    %RH = a0 + a1 t + a2 t^2 + a3 t^3, t in C. ``temperature_c`` [C], ``a0`` [%RH], ``a1`` [%RH/C], ``a2`` [%RH/C2],
    ``a3`` [%RH/C3] from ``data/standards_saturated.csv``, each row with its own range. Floats or arrays. Greenspan
    prints 75.29 %RH for sodium chloride at 25 C.

    >>> round(saturated_salt_aw(25.0, 75.5164, 0.0398321, -2.65459e-3, 2.848e-5), 3)
    0.753
    """
    t = temperature_c
    return (a0 + a1 * t + a2 * t * t + a3 * t * t * t) / PERCENT


def saturated(name: str, temperature_c: float) -> Standard:
    """Return a saturated salt as a standard at a temperature; InputError outside its range or for an unknown salt.

    >>> round(saturated("potassium chloride", 25.0).aw, 4)
    0.8435
    """
    row = _row(SATURATED, name)
    low, high = number(row, "low_c"), number(row, "high_c")
    if not low <= temperature_c <= high:
        raise InputError(
            "food_aw.standard_range", name=name, value=f"{temperature_c:g}", low=f"{low:g}", high=f"{high:g}"
        )
    coefficients = [number(row, column) for column in ("a0", "a1", "a2", "a3")]
    value = float(saturated_salt_aw(temperature_c, *coefficients))
    return Standard(name, value, number(row, "u_percent_rh") / PERCENT, temperature_c)


@cache
def unsaturated() -> tuple[Standard, ...]:
    """Return the unsaturated standards at 25 C, wettest first.

    >>> unsaturated()[0].name, unsaturated()[0].aw
    ('potassium chloride 0.50 mol/kg', 0.984)
    """
    found = [
        Standard(row["name"], number(row, "aw"), number(row, "u_aw"), REFERENCE_C, number(row, "molality_mol_per_kg"))
        for row in rows(UNSATURATED)
    ]
    return tuple(sorted(found, key=lambda standard: -standard.aw))


def saturated_names() -> tuple[str, ...]:
    """Return the names of the saturated salts."""
    return tuple(row["name"] for row in rows(SATURATED))


REFERENCE_C = 25.0


def _row(path: str, name: str) -> Row:
    found = next((row for row in rows(path) if row["name"] == name), None)
    if found is None:
        raise InputError("food_aw.unknown_standard", name=name, all=", ".join(row["name"] for row in rows(path)))
    return found
