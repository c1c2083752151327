"""Water that protein holds: the GAB isotherm, its slope and its inverse, with constants from ``data/sorption.csv``.

In the water model this is the water that does not dissolve anything (non-solvent water). Fat holds none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.relation import relation
from pellicle.table import number, rows


@dataclass(frozen=True, slots=True)
class Gab:
    """GAB constants of a solid: ``monolayer`` in kg water per kg solid, ``c`` and ``k`` without unit."""

    monolayer: float
    c: float
    k: float


GAB_CONSTANTS: Mapping[str, Gab] = MappingProxyType(
    {
        row["solid"]: Gab(number(row, "monolayer_kg_per_kg"), number(row, "energy_c"), number(row, "multilayer_k"))
        for row in rows("food/data/sorption.csv")
    }
)
PROTEIN = GAB_CONSTANTS["meat protein"]


@relation(("aw-model-review", "mcc-gab"), valid={"aw": (0.0, 1.0)})
def gab_water(aw: Quantity, monolayer: Quantity, c: Quantity, k: Quantity) -> Quantity:
    """Return the water held at a water activity, in the unit of ``monolayer`` (here kg per kg solid).

    X = Xm C K aw / ((1 - K aw)(1 - K aw + C K aw))

    ``aw`` [1] 0 to 1, ``monolayer`` [kg/kg], ``c`` and ``k`` [1]; floats or arrays. The published constants of a
    microcrystalline cellulose (3.55 g/100 g, 14.42, 0.814) give 8.728 g/100 g at 0.750.

    >>> round(gab_water(0.750, 3.55, 14.42, 0.814), 3)
    8.728
    """
    u = k * aw
    return monolayer * c * u / ((1.0 - u) * (1.0 - u + c * u))


@relation("own-arithmetic", valid={"aw": (0.0, 1.0)})
def gab_slope(aw: Quantity, monolayer: Quantity, c: Quantity, k: Quantity) -> Quantity:
    """Return dX/d(aw) of ``gab_water``, from ``aw`` [1], ``monolayer`` [kg/kg], ``c`` [1] and ``k`` [1].

    Own arithmetic: the slope between two near points.

    >>> rise = gab_water(0.8001, 0.075, 11.0, 0.80) - gab_water(0.7999, 0.075, 11.0, 0.80)
    >>> abs(rise / 0.0002 - gab_slope(0.80, 0.075, 11.0, 0.80)) < 1e-6
    True
    """
    u = k * aw
    below = (1.0 - u) * (1.0 - u + c * u)
    return monolayer * c * k * (1.0 + (c - 1.0) * u * u) / (below * below)


@relation("own-arithmetic", valid={"held": (0.0, 10.0), "result": (0.0, 1.0)})
def gab_aw(held: Quantity, monolayer: Quantity, c: Quantity, k: Quantity) -> Quantity:
    """Return the water activity at which a solid holds ``held``, the inverse of ``gab_water``; 1 if it cannot.

    ``held`` and ``monolayer`` [kg/kg], ``c`` and ``k`` [1]; floats or arrays. Own arithmetic (the positive root of a
    quadratic, in the form that does not cancel).

    >>> round(float(gab_aw(gab_water(0.62, 0.075, 11.0, 0.80), 0.075, 11.0, 0.80)), 12)
    0.62
    """
    held = np.minimum(held, 2.0 * gab_water(1.0, monolayer, c, k))
    linear = monolayer * c - held * (c - 2.0)
    u = 2.0 * held / (linear + np.sqrt(linear * linear + 4.0 * (c - 1.0) * held * held))
    return np.minimum(u / k, 1.0)
