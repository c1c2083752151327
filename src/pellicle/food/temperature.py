"""Water activity at another temperature: only the protein-bound part moves, and only in the driest layer.

Salt brines move by about 0.001 between 25 and 70 C up to 4 mol/kg, sugars hardly more; what protein holds tightly
moves with its net heat of sorption. The 25 C model is used everywhere; this is for a crust, and for showing how
little it is.
"""

from __future__ import annotations

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.food.electrolytes import CELSIUS_ZERO_K
from pellicle.relation import relation

# J/mol/K, exact by definition of the mole and the kelvin.
GAS_CONSTANT = 8.314462618


@relation("sorption-heat-memory", valid={"held": (0.0, 5.0), "result": (0.0, 12000.0)})
def net_sorption_heat(held: Quantity) -> Quantity:
    """Return the heat of sorption above that of free water, J/mol: 12000 exp(-X / 0.06).

    ``held`` is water per dry matter X [kg/kg]; floats or arrays. The shape is from memory; pork shows none above 0.15
    kg/kg.

    >>> round(float(net_sorption_heat(0.30)), -1)
    80.0
    """
    return 12000.0 * np.exp(-held / 0.06)


@relation(("sorption-heat-memory", "own-arithmetic"), valid={"temperature_c": (0.0, 100.0), "result": (0.0, 1.0)})
def aw_at_temperature(aw: Quantity, held: Quantity, from_c: float, temperature_c: Quantity) -> Quantity:
    """Return the water activity at ``temperature_c`` of what reads ``aw`` at ``from_c``, at the same water content.

    aw2 = aw1 exp(-(q/R)(1/T2 - 1/T1)). ``aw`` [1], ``held`` water per dry matter [kg/kg], ``from_c`` and
    ``temperature_c`` [C]. At X = 0.15 the rise from 25 to 70 C is about 5 % (the review's own arithmetic).

    >>> round(float(aw_at_temperature(0.50, 0.15, 25.0, 70.0) / 0.50), 2)
    1.05
    """
    reciprocal = 1.0 / (temperature_c + CELSIUS_ZERO_K) - 1.0 / (from_c + CELSIUS_ZERO_K)
    return np.minimum(aw * np.exp(-net_sorption_heat(held) / GAS_CONSTANT * reciprocal), 1.0)
