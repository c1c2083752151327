"""What ``air`` answers: everything two readings say of the air, and the temperature a wet surface holds in it."""

from __future__ import annotations

from dataclasses import dataclass

from pellicle import parameter
from pellicle.air.humid import STANDARD_PRESSURE_PA, pressure_at_altitude_pa
from pellicle.air.state import SOURCES, air_state
from pellicle.air.wet_surface import wet_surface_c
from pellicle.errors import InputError
from pellicle.house.kinds import house_kind
from pellicle.message import Message, message
from pellicle.source import Source, cited
from pellicle.units import both_temperatures

PERCENT = 100.0
WET = 1.0  # water activity of a surface that evaporates like water
WET_SURFACE_SOURCES = ("transport-review", "common-practice")


@dataclass(frozen=True, slots=True)
class AirAnswer:
    """Humid air: temperatures in C, pressures in Pa, relative humidity in %, humidity ratio in kg per kg dry air.

    ``dew_point_c`` is None in air without vapour. A wet surface holds between ``wet_surface_low_c`` (it sees no warm
    wall) and ``wet_surface_high_c`` (a single open layer in slow air); ``hint`` says so in words.
    """

    dry_bulb_c: float
    wet_bulb_c: float
    rh_percent: float
    dew_point_c: float | None
    humidity_ratio: float
    vapour_pressure_pa: float
    pressure_pa: float
    boiling_point_c: float
    wet_surface_low_c: float
    wet_surface_high_c: float
    hint: Message
    sources: tuple[Source, ...]


def air_answer(
    dry_bulb_c: float,
    wet_bulb_c: float | None = None,
    humidity: float | None = None,
    dew_point_c: float | None = None,
    altitude_m: float | None = None,
    pressure_pa: float | None = None,
    field: str = "",
    dry_field: str = "",
) -> AirAnswer:
    """Return what the dry bulb (C) and one of wet bulb (C), humidity (share) and dew point (C) say of the air.

    At ``altitude_m`` or ``pressure_pa``, else at the standard pressure. InputError for air that cannot be, and for two
    ways to give the pressure. Air of 79 C and 35 % (own table: wet bulb 56.88 C, dew point 55.23 C):

    >>> air = air_answer(79.0, humidity=0.35)
    >>> round(air.wet_bulb_c, 2), round(air.dew_point_c, 2)
    (56.88, 55.23)
    """
    if altitude_m is not None and pressure_pa is not None:
        raise InputError("air.altitude_and_pressure", field="--pressure")
    pressure = STANDARD_PRESSURE_PA if pressure_pa is None else pressure_pa
    if altitude_m is not None:
        pressure = float(pressure_at_altitude_pa(altitude_m))
    air = air_state(dry_bulb_c, pressure, wet_bulb_c, humidity, dew_point_c, field, dry_field)
    kind = house_kind("")
    walls = kind.emissivity * parameter.value("view_factor_open")
    low, high = (
        float(wet_surface_c(dry_bulb_c, air.humidity_ratio, pressure, kind.film_w_m2k, seen, WET))
        for seen in (0.0, walls)
    )
    return AirAnswer(
        dry_bulb_c=air.dry_bulb_c,
        wet_bulb_c=air.wet_bulb_c,
        rh_percent=PERCENT * air.humidity,
        dew_point_c=air.dew_point_c,
        humidity_ratio=air.humidity_ratio,
        vapour_pressure_pa=air.vapour_pressure_pa,
        pressure_pa=air.pressure_pa,
        boiling_point_c=air.boiling_point_c,
        wet_surface_low_c=low,
        wet_surface_high_c=high,
        hint=message("air.hint", low=both_temperatures(low, 1), high=both_temperatures(high, 1)),
        sources=cited([*SOURCES, *WET_SURFACE_SOURCES]),
    )
