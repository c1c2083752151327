"""Psychrometrics as relations: saturation, humidity ratio, wet bulb, dew point, altitude, boiling point.

Air and vapour are taken as ideal gases; saturation is that of liquid water, also below the freezing point, and only a
wet bulb below it stands for ice on the sock. Every body works on numbers, arrays and inside a compiler; iterations are
counted, not tested. ``state`` puts them together for people and refuses what cannot be.
"""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from pellicle.relation import relation
from pellicle.units.kinds import ICE_POINT_K

Quantity: TypeAlias = float | NDArray[np.float64]

SOURCE = "ashrae-psychrometrics"

# kg of water per kg of dry air at equal pressures: the ratio of the molar masses (SOURCE).
WATER_AIR_RATIO = 0.621945
STANDARD_PRESSURE_PA = 101325.0
DRY_AIR_GAS_CONSTANT = 287.042  # J/kg/K (SOURCE)

# Beyond the range of anything that cures, dries or smokes; only keeps the search away from nonsense.
COLDEST_C = -60.0
LEAST_VAPOUR_PA = 1e-3
MOST_VAPOUR_SHARE = 0.999999  # of the air's pressure: nothing but vapour is no longer air

# Newton from the warm end of a convex function: as many steps as the widest span (dry bulb 200 C, dry air) needs, + 2.
WET_BULB_STEPS = 16
DEW_POINT_STEPS = 6


@relation(SOURCE, valid={"temperature_c": (0.0, 200.0), "result": (600.0, 1.6e6)})
def saturation_pressure_pa(temperature_c: Quantity) -> Quantity:
    """Return the vapour pressure over liquid water, Pa: Hyland and Wexler.

    ``temperature_c`` [C] 0 to 200. Steam at 100 C is near 101 420 Pa (printed tables: 101 418).

    >>> round(float(saturation_pressure_pa(100.0)), 1)
    101418.7
    """
    t = temperature_c + ICE_POINT_K
    pressure: Quantity = np.exp(
        -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t - 1.4452093e-8 * t * t * t
        + 6.5459673 * np.log(t)
    )  # fmt: skip
    return pressure


@relation(SOURCE, valid={"temperature_c": (0.0, 200.0), "result": (0.009, 0.08)})
def saturation_log_slope(temperature_c: Quantity) -> Quantity:
    """Return d ln(saturation pressure) / dT over liquid water, 1/K.

    ``temperature_c`` [C] 0 to 200. Own derivative of Hyland and Wexler; vapour pressure doubles every 11 K at 10 C.

    >>> round(float(np.log(2.0) / saturation_log_slope(10.0)), 1)
    10.3
    """
    t = temperature_c + ICE_POINT_K
    return 5.8002206e3 / (t * t) - 4.8640239e-2 + 2.0 * 4.1764768e-5 * t - 3.0 * 1.4452093e-8 * t * t + 6.5459673 / t


@relation(SOURCE, valid={"temperature_c": (-100.0, 0.0), "result": (1e-3, 612.0)})
def ice_pressure_pa(temperature_c: Quantity) -> Quantity:
    """Return the vapour pressure over ice, Pa: Hyland and Wexler.

    ``temperature_c`` [C] -100 to 0. Ice at -10 C has 259.9 Pa (printed tables).

    >>> round(float(ice_pressure_pa(-10.0)), 1)
    259.9
    """
    t = temperature_c + ICE_POINT_K
    t2 = t * t
    pressure: Quantity = np.exp(
        -5.6745359e3 / t + 6.3925247 - 9.677843e-3 * t + 6.2215701e-7 * t2 + 2.0747825e-9 * t2 * t
        - 9.484024e-13 * t2 * t2 + 4.1635019 * np.log(t)
    )  # fmt: skip
    return pressure


@relation(SOURCE, valid={"temperature_c": (-100.0, 0.0), "result": (0.08, 0.21)})
def ice_log_slope(temperature_c: Quantity) -> Quantity:
    """Return d ln(vapour pressure) / dT over ice, 1/K.

    ``temperature_c`` [C] -100 to 0. Own derivative of Hyland and Wexler.

    >>> round(float(ice_log_slope(-10.0)), 3)
    0.089
    """
    t = temperature_c + ICE_POINT_K
    t2 = t * t
    return (
        5.6745359e3 / t2 - 9.677843e-3 + 2.0 * 6.2215701e-7 * t + 3.0 * 2.0747825e-9 * t2
        - 4.0 * 9.484024e-13 * t2 * t + 4.1635019 / t
    )  # fmt: skip


@relation(SOURCE, valid={"vapour_pressure_pa": (0.0, 101000.0), "pressure_pa": (101325.0, 110000.0)})
def humidity_ratio(vapour_pressure_pa: Quantity, pressure_pa: Quantity) -> Quantity:
    """Return the humidity ratio, kg of water per kg of dry air: 0.621945 pv / (P - pv).

    ``vapour_pressure_pa`` [Pa], below ``pressure_pa`` [Pa] of the air. Saturated air of 25 C holds 0.0201 (own table).

    >>> round(float(humidity_ratio(saturation_pressure_pa(25.0), 101325.0)), 4)
    0.0201
    """
    vapour = np.minimum(vapour_pressure_pa, MOST_VAPOUR_SHARE * pressure_pa)
    return WATER_AIR_RATIO * vapour / (pressure_pa - vapour)


@relation(SOURCE, valid={"humidity_ratio": (0.0, 50.0), "pressure_pa": (50000.0, 110000.0), "result": (0.0, 110000.0)})
def vapour_pressure_pa(humidity_ratio: Quantity, pressure_pa: Quantity) -> Quantity:
    """Return the vapour pressure in the air, Pa: the inverse of ``humidity_ratio``.

    ``humidity_ratio`` [kg/kg], ``pressure_pa`` [Pa] of the air.

    >>> round(vapour_pressure_pa(0.0201, 101325.0), -1)
    3170.0
    """
    return pressure_pa * humidity_ratio / (WATER_AIR_RATIO + humidity_ratio)


@relation(SOURCE, valid={"vapour_pressure_pa": (612.0, 1.5e6), "result": (0.0, 200.0)})
def dew_point_c(vapour_pressure_pa: Quantity) -> Quantity:
    """Return the temperature at which liquid water has a vapour pressure, C: Hyland and Wexler inverted.

    ``vapour_pressure_pa`` [Pa]; below 612 Pa the liquid is undercooled, below 0.001 Pa nothing changes any more. Six
    Newton steps in ln p. Air of 60 C and 25 % has its dew point at 32.83 C (own table).

    >>> round(float(dew_point_c(0.25 * saturation_pressure_pa(60.0))), 2)
    32.83
    """
    wanted = np.log(np.maximum(vapour_pressure_pa, LEAST_VAPOUR_PA))
    # Magnus: where the search starts; what it finds does not depend on it
    spread = wanted - np.log(611.2)
    found: Any = np.maximum(243.12 * spread / (17.62 - spread), COLDEST_C)
    for _ in range(DEW_POINT_STEPS):
        short = wanted - np.log(saturation_pressure_pa(found))
        found = np.maximum(found + short / saturation_log_slope(found), 2.0 * COLDEST_C)
    return found  # type: ignore[no-any-return]


@relation(SOURCE, valid={"pressure_pa": (50000.0, 110000.0), "result": (80.0, 103.0)})
def boiling_point_c(pressure_pa: Quantity) -> Quantity:
    """Return the temperature at which water boils under a pressure, C.

    ``pressure_pa`` [Pa]. Printed tables give 99.97 C at 101 325 Pa.

    >>> round(float(boiling_point_c(101325.0)), 2)
    99.97
    """
    return dew_point_c(pressure_pa)


@relation(SOURCE, valid={"altitude_m": (-500.0, 5000.0), "result": (50000.0, 110000.0)})
def pressure_at_altitude_pa(altitude_m: Quantity) -> Quantity:
    """Return the pressure of the standard atmosphere, Pa: 101325 (1 - 2.25577e-5 z)^5.2559.

    ``altitude_m`` [m] z. The standard atmosphere prints 84 556 Pa at 1500 m.

    >>> round(pressure_at_altitude_pa(1500.0))
    84556
    """
    return STANDARD_PRESSURE_PA * (1.0 - 2.25577e-5 * altitude_m) ** 5.2559


@relation(
    SOURCE,
    valid={
        "dry_bulb_c": (0.0, 150.0),
        "wet_bulb_c": (0.0, 90.0),
        "pressure_pa": (95000.0, 110000.0),
        "result": (0.0, 10.0),
    },
)
def humidity_ratio_from_wet_bulb(dry_bulb_c: Quantity, wet_bulb_c: Quantity, pressure_pa: Quantity) -> Quantity:
    """Return the humidity ratio that gives a wet bulb, kg/kg: the balance of heat on the sock, never below 0.

    W = ((2501 - 2.326 t*) Ws* - 1.006 (t - t*)) / (2501 + 1.86 t - 4.186 t*), below 0 C that of ice: 2830 - 0.24 t*
    and 2830 + 1.86 t - 2.1 t*. ``dry_bulb_c`` [C] t, ``wet_bulb_c`` [C] t*, ``pressure_pa`` [Pa]. Air of 60 C with a
    wet bulb of 37.43 C holds 0.0322 (own table).

    >>> round(float(humidity_ratio_from_wet_bulb(60.0, 37.43, 101325.0)), 4)
    0.0322
    """
    frozen = 1.0 * (wet_bulb_c < 0.0)
    over_ice = ice_pressure_pa(np.minimum(wet_bulb_c, 0.0))
    vapour: Any = frozen * over_ice + (1.0 - frozen) * saturation_pressure_pa(np.maximum(wet_bulb_c, 0.0))
    full = humidity_ratio(vapour, pressure_pa)
    latent = 2501.0 - 2.326 * wet_bulb_c + frozen * (329.0 + 2.086 * wet_bulb_c)
    below = 2501.0 + 1.86 * dry_bulb_c - 4.186 * wet_bulb_c + frozen * (329.0 + 2.086 * wet_bulb_c)
    return np.maximum((latent * full - 1.006 * (dry_bulb_c - wet_bulb_c)) / below, 0.0)


@relation(
    SOURCE,
    valid={
        "dry_bulb_c": (0.0, 150.0),
        "humidity_ratio": (0.0, 10.0),
        "pressure_pa": (50000.0, 110000.0),
        "result": (-30.0, 103.0),
    },
)
def wet_bulb_c(dry_bulb_c: Quantity, humidity_ratio: Quantity, pressure_pa: Quantity) -> Quantity:
    """Return the thermodynamic wet bulb, C; the dry bulb where the air is saturated or beyond.

    ``dry_bulb_c`` [C], ``humidity_ratio`` [kg/kg], ``pressure_pa`` [Pa]. Newton on the balance of
    ``humidity_ratio_from_wet_bulb``, multiplied out so that it is convex and rises: from the warm end every step falls
    short of the root and none passes it. Frozen only where a wet sock would be
    below 0 C. Air of 79 C and 35 % has 56.88 C (own table).

    >>> ratio = humidity_ratio_from_wet_bulb(79.0, 56.88, 101325.0)
    >>> round(float(wet_bulb_c(79.0, ratio, 101325.0)), 2)
    56.88
    """
    top = np.minimum(dry_bulb_c, boiling_point_c(pressure_pa))
    found: Any = top
    for _ in range(WET_BULB_STEPS):
        vapour = saturation_pressure_pa(found)
        gain = vapour * saturation_log_slope(found)
        latent = 2501.0 - 2.326 * found
        air = 1.006 * (dry_bulb_c - found) + humidity_ratio * (2501.0 + 1.86 * dry_bulb_c - 4.186 * found)
        over = WATER_AIR_RATIO * latent * vapour - (pressure_pa - vapour) * air
        slope = (
            WATER_AIR_RATIO * (latent * gain - 2.326 * vapour) + gain * air
            + (pressure_pa - vapour) * (1.006 + 4.186 * humidity_ratio)
        )  # fmt: skip
        found = np.minimum(np.maximum(found - over / slope, COLDEST_C), top)
    cold: Any = np.minimum(found, 0.0)
    for _ in range(WET_BULB_STEPS // 2):
        vapour = ice_pressure_pa(cold)
        gain = vapour * ice_log_slope(cold)
        latent = 2830.0 - 0.24 * cold
        air = 1.006 * (dry_bulb_c - cold) + humidity_ratio * (2830.0 + 1.86 * dry_bulb_c - 2.1 * cold)
        over = WATER_AIR_RATIO * latent * vapour - (pressure_pa - vapour) * air
        slope = (
            WATER_AIR_RATIO * (latent * gain - 0.24 * vapour) + gain * air
            + (pressure_pa - vapour) * (1.006 + 2.1 * humidity_ratio)
        )  # fmt: skip
        cold = np.minimum(np.maximum(cold - over / slope, COLDEST_C), 0.0)
    frozen = 1.0 * (found < 0.0)
    return frozen * np.minimum(cold, top) + (1.0 - frozen) * found  # type: ignore[no-any-return]


# What a compiler has to know to compile any of these, lowest first.
COMPILABLE = (
    saturation_pressure_pa,
    saturation_log_slope,
    ice_pressure_pa,
    ice_log_slope,
    humidity_ratio,
    vapour_pressure_pa,
    dew_point_c,
    boiling_point_c,
    pressure_at_altitude_pa,
    humidity_ratio_from_wet_bulb,
    wet_bulb_c,
)
