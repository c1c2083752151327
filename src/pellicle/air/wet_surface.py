"""Where a wet surface stands in warm air: heat from air and walls against what its evaporation takes.

The same balance as the kernel's: heat film, Stefan-corrected evaporation by the analogy of heat and mass, radiation.
A few tenths of a kelvin below the thermodynamic wet bulb without radiation, above it with.
"""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from pellicle.air.film import STEFAN_BOLTZMANN
from pellicle.air.humid import boiling_point_c, saturation_log_slope, saturation_pressure_pa, vapour_pressure_pa
from pellicle.relation import relation
from pellicle.units.kinds import ICE_POINT_K

Quantity: TypeAlias = float | NDArray[np.float64]

LEWIS_POWER = 0.92  # (Sc/Pr)^(2/3) of water vapour in air: 0.90 to 0.94 (transport-review)
MOLAR_MASS_RATIO = 18.015 / 28.97  # water to dry air
NEAR_BOILING = 0.999  # of the pressure: as near as the search starts
ABOVE_AIR_K = 40.0  # how far above the air a surface that takes up vapour is looked for
STEPS = 20


@relation("transport-review", valid={"temperature_c": (0.0, 120.0), "result": (2.2e6, 2.51e6)})
def evaporation_heat_j_kg(temperature_c: Quantity) -> Quantity:
    """Return the heat that evaporating water takes, J/kg: 2 501 000 - 2381 t.

    ``temperature_c`` [C]. Steam tables print 2 257 000 at 100 C (from memory), 0.3 % below this line.

    >>> round(evaporation_heat_j_kg(100.0) / 2257e3, 3)
    1.003
    """
    return 2501e3 - 2381.0 * temperature_c


@relation(
    "transport-review",
    valid={
        "dry_bulb_c": (5.0, 150.0),
        "humidity_ratio": (0.0, 2.0),
        "pressure_pa": (50000.0, 110000.0),
        "film_w_m2k": (2.0, 200.0),
        "emissivity": (0.0, 1.0),
        "aw": (0.3, 1.0),
        "result": (-10.0, 110.0),
    },
)
def wet_surface_c(
    dry_bulb_c: Quantity,
    humidity_ratio: Quantity,
    pressure_pa: Quantity,
    film_w_m2k: Quantity,
    emissivity: Quantity,
    aw: Quantity,
) -> Quantity:
    """Return the temperature a surface holds while it stays as wet as it is, C.

    h (Ta - Ts) + e sigma (Ta^4 - Ts^4) = h / (cp Le^(2/3)) 18.015/28.97 ln((P - pv) / (P - aw ps(Ts))) hfg(Ts), with
    cp = 1006 + 1860 W. ``dry_bulb_c`` [C], ``humidity_ratio`` [kg/kg], ``pressure_pa`` [Pa], ``film_w_m2k`` [W/m2K],
    ``emissivity`` [1] times view factor, ``aw`` [1] of the surface. Solving the balance for air of 79 C and 35 %
    gives 57.03 C (own table).

    >>> ratio = 0.621945 * 0.35 * 45465.0 / (101325.0 - 0.35 * 45465.0)
    >>> round(float(wet_surface_c(79.0, ratio, 101325.0, 20.0, 0.0, 1.0)), 1)
    57.0
    """
    vapour = vapour_pressure_pa(humidity_ratio, pressure_pa)
    per_j = MOLAR_MASS_RATIO / ((1006.0 + 1860.0 * humidity_ratio) * LEWIS_POWER)
    rays = emissivity * STEFAN_BOLTZMANN / film_w_m2k
    air_k = dry_bulb_c + ICE_POINT_K
    top = np.minimum(dry_bulb_c + ABOVE_AIR_K, boiling_point_c(NEAR_BOILING * pressure_pa / aw))
    found: Any = top
    for _ in range(STEPS):
        own = aw * saturation_pressure_pa(found)
        drive = per_j * np.log((pressure_pa - vapour) / (pressure_pa - own))
        latent = evaporation_heat_j_kg(found)
        kelvin = found + ICE_POINT_K
        over = drive * latent - (dry_bulb_c - found) - rays * (air_k**4 - kelvin**4)
        slope = (
            per_j * own * saturation_log_slope(found) / (pressure_pa - own) * latent - 2381.0 * drive
            + 1.0 + 4.0 * rays * kelvin**3
        )  # fmt: skip
        found = np.minimum(found - over / slope, top)
    return found  # type: ignore[no-any-return]


COMPILABLE = (evaporation_heat_j_kg, wet_surface_c)
