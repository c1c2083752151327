"""Altitudes, speeds, flows, film coefficients and ramps as people type them, against an independent table of units."""

from __future__ import annotations

from collections.abc import Callable

import pint
import pytest

from pellicle import units
from pellicle.errors import InputError

ORACLE = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("parse", "text", "number", "theirs", "si"),
    [
        (units.altitude_m, "5000 ft", 5000, "foot", "meter"),
        (units.speed_m_s, "400 ft/min", 400, "foot/minute", "meter/second"),
        (units.speed_m_s, "1.5 m/s", 1.5, "meter/second", "meter/second"),
        (units.flow_kg_s, "300 lb/h", 300, "pound/hour", "kilogram/second"),
        (units.flow_kg_s, "150 kg per h", 150, "kilogram/hour", "kilogram/second"),
        (units.film_w_m2k, "3.5 Btu/(h ft2 F)", 3.5, "Btu/hour/foot**2/delta_degF", "watt/meter**2/kelvin"),
        (units.film_w_m2k, "20 W/m²K", 20, "watt/meter**2/kelvin", "watt/meter**2/kelvin"),
        (units.pressure_pa, "846 mbar", 846, "millibar", "pascal"),
    ],
)
def test_an_entry_is_read_as_the_oracle_reads_it(
    parse: Callable[[str, str], float], text: str, number: float, theirs: str, si: str
) -> None:
    assert parse(text, "x") == pytest.approx(ORACLE.Quantity(number, theirs).to(si).magnitude, rel=1e-9)


def test_still_air_and_a_shut_damper_are_nothing_with_a_unit() -> None:
    assert units.speed_m_s("0 m/s", "x") == 0.0
    assert units.flow_kg_s("0 kg/h", "x") == 0.0


def test_a_ramp_is_a_time_or_a_rate() -> None:
    assert units.ramp("20 min", "x") == (1200.0, None)
    assert units.ramp("60 F/h", "x")[1] == pytest.approx(60 * 5 / 9 / 3600)


@pytest.mark.parametrize(
    ("parse", "text", "said"),
    [
        (units.altitude_m, "9000 m", "more than the 5000 m"),
        (units.altitude_m, "1500", "a number without a unit"),
        (units.speed_m_s, "2 m", "not a number followed by a unit"),
        (units.speed_m_s, "-1 m/s", "nothing below zero"),
        (units.speed_m_s, "2 m/kg", "does not measure what is asked for"),
        (units.speed_m_s, "2 m/0 s", "not a number followed by a unit"),
        (units.flow_kg_s, "10 m/h", "does not measure"),
        (units.film_w_m2k, "0 W/m2K", "must be above zero"),
        (units.film_w_m2k, "20 W", "`W` is not a unit known here"),
        (units.film_w_m2k, "900 W/m2K", "more than the 500 W/m2K"),
        (units.film_w_m2k, "W/m2K", "not a number followed by a unit"),
        (units.pressure_pa, "101 Pa", "less than the 50 kPa"),
        (units.temperature_step_k, "80 K", "more than the 30 K"),
        (units.ramp, "20", "a number without a unit"),
        (units.ramp, "0 C/min", "must be above zero"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_would_do(
    parse: Callable[[str, str], float], text: str, said: str
) -> None:
    with pytest.raises(InputError) as refused:
        parse(text, "house.x")
    assert said in str(refused.value)
    assert "house.x" in str(refused.value)
