"""Sugars, polyols and fruit acids in water: the Norrish equation, alone and combined, and sucrose as measured.

The constants stand in ``data/solutes.csv``. Salts are left out of the mole fractions.
"""

from __future__ import annotations

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.food.electrolytes import WATER_MOLAR_MASS
from pellicle.relation import relation


@relation(("chirife-1980", "norrish-polyols"), valid={"molality": (0.0, 12.0), "result": (-1.0, 0.0)})
def log_aw_norrish(molality: Quantity, root_k: Quantity) -> Quantity:
    """Return ln aw of sugars and polyols in water by the combined Norrish equation.

    ln aw = ln Xw - (sum sqrt(Ki) Xi)^2, which is -ln(1 + n/nw) - (root_k X)^2 with X the mole fraction of all of them.

    ``molality`` [mol/kg water] of all together; ``root_k`` [1] is their mole-weighted mean sqrt(K). Floats or arrays.
    Within 0.001 aw of the isopiestic table for sucrose up to 6 mol/kg; Robinson and Stokes print 0.9328 at 3 mol/kg
    (from memory).

    >>> round(float(np.exp(log_aw_norrish(3.0, 6.47**0.5))), 3)
    0.933
    """
    amount = molality * WATER_MOLAR_MASS
    share = root_k * amount / (1.0 + amount)
    return -np.log1p(amount) - share * share


@relation("robinson-stokes-1961", valid={"molality": (0.0, 6.0), "result": (1.0, 1.6)})
def sucrose_osmotic_coefficient(molality: Quantity) -> Quantity:
    """Return the osmotic coefficient of sucrose in water at 25 C as measured isopiestically.

    phi = 1 + 0.07028 m + 0.01847 m^2 - 0.004045 m^3 + 0.000228 m^4

    ``molality`` [mol/kg water] 0 to 6; floats or arrays. A reference for tests: the water model uses Norrish.

    >>> round(sucrose_osmotic_coefficient(2.0), 4)
    1.1857
    """
    m = molality
    return 1.0 + 0.07028 * m + 0.01847 * m**2 - 0.004045 * m**3 + 0.000228 * m**4
