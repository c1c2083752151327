"""The state of humid air from any two of what people read: dry bulb with wet bulb, relative humidity or dew point.

What cannot be is refused with a sentence: more vapour than the air holds, or than there is pressure.
"""

from __future__ import annotations

from dataclasses import dataclass

from pellicle.air.humid import (
    STANDARD_PRESSURE_PA,
    boiling_point_c,
    dew_point_c,
    humidity_ratio,
    humidity_ratio_from_wet_bulb,
    ice_pressure_pa,
    saturation_pressure_pa,
    vapour_pressure_pa,
    wet_bulb_c,
)
from pellicle.errors import InputError
from pellicle.units import show_percent, show_temperature

COLDEST_AIR_C, HOTTEST_AIR_C = -10.0, 150.0  # what cures, dries or smokes; the relations hold to 200
MOST_VAPOUR_SHARE = 0.97  # of the pressure: with more it is steam with a little air, and pieces dry by boiling
ROUNDING = 1e-6  # relative: how far rounded entries may lie over saturation


@dataclass(frozen=True, slots=True)
class AirState:
    """Humid air: temperatures in C, pressures in Pa, ``humidity`` as a share, ``humidity_ratio`` in kg/kg dry air.

    ``dew_point_c`` is None in air without any vapour; below 0 C it is that of undercooled water.
    """

    dry_bulb_c: float
    wet_bulb_c: float
    humidity: float
    dew_point_c: float | None
    humidity_ratio: float
    vapour_pressure_pa: float
    pressure_pa: float
    boiling_point_c: float


def air_state(
    dry_bulb_c: float,
    pressure_pa: float = STANDARD_PRESSURE_PA,
    wet_bulb_c: float | None = None,
    humidity: float | None = None,
    dew_point_c: float | None = None,
    field: str = "",
    dry_field: str = "",
) -> AirState:
    """Return the state of air from its dry bulb (C), pressure (Pa) and one of wet bulb (C), humidity (share), dew
    point (C).

    ``field`` and ``dry_field`` name what was entered, for the sentences. InputError unless exactly one is given, and
    for air that cannot be. Air of 79 C and 35 % has a wet bulb of 56.88 C (own table).

    >>> air = air_state(79.0, humidity=0.35)
    >>> round(air.wet_bulb_c, 2), round(air.dew_point_c, 2)
    (56.88, 55.23)
    """
    given = [value for value in (wet_bulb_c, humidity, dew_point_c) if value is not None]
    if len(given) != 1:
        raise InputError("air.one_of_three", field=field)
    boiling = float(boiling_point_c(pressure_pa))
    if not COLDEST_AIR_C <= dry_bulb_c <= HOTTEST_AIR_C:
        raise InputError(
            "air.dry_bulb_range",
            field=dry_field or field,
            read=show_temperature(dry_bulb_c, digits=1),
            low=show_temperature(COLDEST_AIR_C),
            high=show_temperature(HOTTEST_AIR_C),
        )
    if humidity is not None:
        vapour = _from_humidity(humidity, dry_bulb_c, pressure_pa, boiling, field)
    elif wet_bulb_c is not None:
        vapour = _from_wet_bulb(wet_bulb_c, dry_bulb_c, pressure_pa, boiling, field)
    else:
        vapour = _from_dew_point(given[0], dry_bulb_c, pressure_pa, boiling, field)
    return _state(dry_bulb_c, vapour, pressure_pa, boiling)


def _state(dry_bulb: float, vapour: float, pressure: float, boiling: float) -> AirState:
    ratio = float(humidity_ratio(vapour, pressure))
    return AirState(
        dry_bulb_c=dry_bulb,
        wet_bulb_c=float(wet_bulb_c(dry_bulb, ratio, pressure)),
        humidity=min(vapour / float(saturation_pressure_pa(dry_bulb)), 1.0),
        dew_point_c=float(dew_point_c(vapour)) if vapour > 0 else None,
        humidity_ratio=ratio,
        vapour_pressure_pa=vapour,
        pressure_pa=pressure,
        boiling_point_c=boiling,
    )


def _from_humidity(humidity: float, dry_bulb: float, pressure: float, boiling: float, field: str) -> float:
    full = float(saturation_pressure_pa(dry_bulb))
    if humidity > 1:
        raise InputError("air.over_saturation", field=field, read=show_percent(humidity, 0))
    if humidity < 0:
        raise InputError("air.below_zero", field=field, read=show_percent(humidity, 0))
    if humidity * full >= MOST_VAPOUR_SHARE * pressure:
        raise InputError(
            "air.over_boiling",
            field=field,
            read=show_percent(humidity, 0),
            dry=show_temperature(dry_bulb, digits=1),
            boiling=show_temperature(boiling, digits=1),
            most=show_percent(MOST_VAPOUR_SHARE * pressure / full, 0),
        )
    return humidity * full


def _from_wet_bulb(wet_bulb: float, dry_bulb: float, pressure: float, boiling: float, field: str) -> float:
    wet, dry = show_temperature(wet_bulb, digits=1), show_temperature(dry_bulb, digits=1)
    if wet_bulb > dry_bulb:
        raise InputError("air.wet_above_dry", field=field, wet=wet, dry=dry)
    over = ice_pressure_pa(wet_bulb) if wet_bulb < 0 else saturation_pressure_pa(wet_bulb)
    if over >= MOST_VAPOUR_SHARE * pressure:
        raise InputError("air.wet_bulb_boils", field=field, wet=wet, boiling=show_temperature(boiling, digits=1))
    driest = float(wet_bulb_c(dry_bulb, 0.0, pressure))
    if wet_bulb < driest * (1 - ROUNDING) - ROUNDING:
        raise InputError(
            "air.wet_bulb_too_low", field=field, wet=wet, dry=dry, driest=show_temperature(driest, digits=1)
        )
    return float(vapour_pressure_pa(humidity_ratio_from_wet_bulb(dry_bulb, wet_bulb, pressure), pressure))


def _from_dew_point(dew_point: float, dry_bulb: float, pressure: float, boiling: float, field: str) -> float:
    dew, dry = show_temperature(dew_point, digits=1), show_temperature(dry_bulb, digits=1)
    if dew_point > dry_bulb:
        raise InputError("air.dew_above_dry", field=field, dew=dew, dry=dry)
    vapour = float(saturation_pressure_pa(dew_point))
    if vapour >= MOST_VAPOUR_SHARE * pressure:
        raise InputError("air.dew_boils", field=field, dew=dew, boiling=show_temperature(boiling, digits=1))
    return vapour


SOURCES = ("ashrae-psychrometrics",)
