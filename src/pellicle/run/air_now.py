"""The air around the piece at one moment: set points with their ramps, and what the house's humidity makes of them."""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.air.humid import (
    humidity_ratio,
    humidity_ratio_from_wet_bulb,
    saturation_pressure_pa,
    vapour_pressure_pa,
)
from pellicle.run import layout as at
from pellicle.run.layout import Scalar

# Vapour at or beyond this share of the pressure is no air any more; refused at the door, held here all the same.
MOST_VAPOUR = 0.97
# assumed: no house's air is drier, as relative humidity; at 0 a face would never come to rest.
LEAST_HUMIDITY = 1e-3
# assumed: width over which condensation on the walls begins, kg/kg; narrower than that the stepper hunts.
CONDENSE_WIDTH = 5e-4


def air_now(time_s: Scalar, step: Any, house_ratio: Scalar, pressure: Scalar) -> tuple[Scalar, Scalar, Scalar]:
    """Return dry bulb [C], humidity ratio [kg/kg] and vapour pressure [Pa] at a time [s] since the step began.

    A wet bulb that is held while the dry bulb still climbs towards it is the dry bulb until then: air takes no more.
    """
    share = 1.0
    if time_s < step[at.RAMP]:
        share = time_s / step[at.RAMP]
    air_c = step[at.AIR_FROM] + share * (step[at.AIR_TO] - step[at.AIR_FROM])
    wanted = step[at.HUMID_FROM] + share * (step[at.HUMID_TO] - step[at.HUMID_FROM])
    kind = step[at.HUMIDITY_KIND]
    if kind == at.RELATIVE:
        vapour = wanted * saturation_pressure_pa(air_c)
    elif kind == at.WET_BULB:
        vapour = vapour_pressure_pa(humidity_ratio_from_wet_bulb(air_c, min(wanted, air_c), pressure), pressure)
    else:
        vapour = vapour_pressure_pa(max(house_ratio, 0.0), pressure)
    vapour = min(max(vapour, LEAST_HUMIDITY * saturation_pressure_pa(air_c)), MOST_VAPOUR * pressure)
    return air_c, humidity_ratio(vapour, pressure), vapour


def house_balance(step: Any, air_c: Scalar, ratio: Scalar, pressure: Scalar) -> tuple[Scalar, Scalar, Scalar]:
    """Return what ventilation brings and walls take from the house [kg/s], and the rise of both with the ratio.

    First net water brought by fresh air, then water condensed on the walls, then d(first - second)/d(ratio).
    """
    fresh = step[at.FRESH] * (step[at.FRESH_RATIO] - ratio)
    full = humidity_ratio(min(saturation_pressure_pa(air_c), MOST_VAPOUR * pressure), pressure)
    over = ratio - full
    root = np.sqrt(over * over + CONDENSE_WIDTH * CONDENSE_WIDTH)
    walls = step[at.HOUSE_AIR] * step[at.CONDENSE]
    slope = -step[at.FRESH] - walls * (1.0 + over / root) / 2.0
    return fresh, walls * (over + root) / 2.0, slope


COMPILABLE = (air_now, house_balance)
