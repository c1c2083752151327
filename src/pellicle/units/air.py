"""What is said of air and houses, turned into SI: altitude, pressure, speed, air flow, film coefficient, ramps."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from pellicle.units.kinds import (
    ALTITUDE,
    BTU_J,
    DURATION,
    FAHRENHEIT_STEP_C,
    FILM_FORMS,
    FILM_MOST_W_M2K,
    FLOW_FORMS,
    FLOW_MOST_KG_S,
    FOOT_M,
    HOUR_S,
    LENGTH,
    MASS,
    PRESSURE,
    RAMP_FORMS,
    RAMP_MOST_K_S,
    SPEED_FORMS,
    SPEED_MOST_M_S,
    TEMPERATURE_STEP,
    Kind,
)
from pellicle.units.parse import duration_s
from pellicle.units.reading import Entry, Forms, entry_text, measure, plain_number, quantity, refusal
from pellicle.units.shares import split_per

# Spellings of a film coefficient, without spaces, brackets and points, and what one is in W/m2K.
_BTU_W_M2K = BTU_J / HOUR_S / FOOT_M**2 / FAHRENHEIT_STEP_C
FILM_UNITS: Mapping[str, float] = MappingProxyType(
    {
        **dict.fromkeys(("w/m2k", "w/m2/k", "w/m2c", "w/m2/c"), 1.0),
        **dict.fromkeys(("btu/hft2f", "btu/h/ft2/f", "btu/hrft2f", "btu/hr/ft2/f"), _BTU_W_M2K),
    }
)
_FILM = re.compile(r"([0-9.,/ ]*[0-9])\s*([a-z].*)", re.IGNORECASE)


def altitude_m(value: Entry, field: str) -> float:
    """Return a height above the sea in m, from -430 to 5000. InputError otherwise.

    >>> altitude_m("1500 m", "--altitude"), round(altitude_m("5000 ft", ""), 1)
    (1500.0, 1524.0)
    """
    return quantity(value, field, ALTITUDE)


def pressure_pa(value: Entry, field: str) -> float:
    """Return a pressure of the air in Pa, from 50 to 110 kPa. InputError otherwise.

    >>> round(pressure_pa("846 hPa", "house.pressure"))
    84600
    """
    return quantity(value, field, PRESSURE)


def temperature_step_k(value: Entry, field: str) -> float:
    """Return a difference of temperatures in K, from -30 to 30. InputError otherwise.

    >>> temperature_step_k("-1.5 C", ""), round(temperature_step_k("9 F", ""), 6)
    (-1.5, 5.0)
    """
    return quantity(value, field, TEMPERATURE_STEP)


def speed_m_s(value: Entry, field: str) -> float:
    """Return the speed of air in m/s, from 0 to 30. InputError otherwise.

    >>> speed_m_s("2 m/s", "house.air_speed"), speed_m_s("400 ft/min", "")
    (2.0, 2.032)
    """
    return _rate(value, field, LENGTH, SPEED_FORMS, SPEED_MOST_M_S, "30 m/s")


def flow_kg_s(value: Entry, field: str) -> float:
    """Return a flow of air, steam or water in kg/s, from 0 to 30. InputError otherwise.

    >>> flow_kg_s("180 kg/h", "step[1].fresh_air")
    0.05
    """
    return _rate(value, field, MASS, FLOW_FORMS, FLOW_MOST_KG_S, "108000 kg/h")


def film_w_m2k(value: Entry, field: str) -> float:
    """Return a film coefficient in W/m2K, above 0 to 500. InputError otherwise.

    >>> film_w_m2k("20 W/m2K", "house.film_coefficient"), round(film_w_m2k("3.5 Btu/h/ft2/F", ""), 2)
    (20.0, 19.87)
    """
    text = entry_text(value, field, FILM_FORMS)
    match = _FILM.fullmatch(text)
    if not match:
        raise refusal("unreadable", field, text, FILM_FORMS)
    spelling = re.sub(r"[\s().·*°^]", "", match[2].replace("²", "2")).lower()
    if spelling not in FILM_UNITS:
        raise refusal("unknown_unit", field, text, FILM_FORMS, unit=match[2])
    found = plain_number(match[1], text, field, FILM_FORMS) * FILM_UNITS[spelling]
    return _limited(found, text, field, FILM_FORMS, FILM_MOST_W_M2K, "500 W/m2K", zero=False)


def ramp(value: Entry, field: str) -> tuple[float | None, float | None]:
    """Return how a set point is reached: (s, None) for a time, (None, K/s) for a rate. InputError for neither.

    >>> ramp("20 min", "step[1].ramp"), ramp("1.5 C/min", "step[1].ramp")
    ((1200.0, None), (None, 0.025))
    """
    text = entry_text(value, field, RAMP_FORMS)
    part, whole = split_per(text)
    if not whole:
        return duration_s(value, field), None
    rate = measure(part, text, field, TEMPERATURE_STEP, RAMP_FORMS) / _time_s(whole, text, field, RAMP_FORMS)
    return None, _limited(rate, text, field, RAMP_FORMS, RAMP_MOST_K_S, "5 K/s", zero=False)


def _rate(value: Entry, field: str, kind: Kind, forms: Forms, most: float, most_text: str) -> float:
    """Return a quantity of ``kind`` per time."""
    text = entry_text(value, field, forms)
    part, whole = split_per(text)
    if not whole:
        raise refusal("unreadable", field, text, forms)
    found = measure(part, text, field, kind, forms) / _time_s(whole, text, field, forms)
    return _limited(found, text, field, forms, most, most_text, zero=True)


def _time_s(text: str, read: str, field: str, forms: Forms) -> float:
    counted = text if text[0].isdigit() else f"1 {text}"
    found = measure(counted, read, field, DURATION, forms)
    if found <= 0:
        raise refusal("unreadable", field, read, forms)
    return found


def _limited(value: float, read: str, field: str, forms: Forms, most: float, most_text: str, *, zero: bool) -> float:
    if value < 0:
        raise refusal("negative", field, read, forms)
    if value == 0 and not zero:
        raise refusal("zero", field, read, forms)
    if value > most:
        raise refusal("too_large", field, read, forms, limit=most_text)
    return value
