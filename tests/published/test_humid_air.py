"""Humid air against two independent libraries and against printed pairs.

psychrolib 2.5 follows the same handbook (ideal gas), so agreement to thousandths shows that the equations stand as
printed there. CoolProp 8 knows real air, which at saturation holds 0.4 to 0.7 % more vapour; the difference grows with
the vapour's share of the pressure. The two libraries differ from each other by as much: what is asked against CoolProp
is 1 % of W up to two fifths of the pressure, and what ideal gas costs beyond is bounded here too.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from pellicle.air.film import forced_film_w_m2k, radiation_film_w_m2k, still_film_w_m2k
from pellicle.air.humid import (
    boiling_point_c,
    dew_point_c,
    humidity_ratio,
    pressure_at_altitude_pa,
    saturation_pressure_pa,
    wet_bulb_c,
)
from pellicle.air.state import MOST_VAPOUR_SHARE, air_state
from pellicle.air.wet_surface import wet_surface_c

psychrolib = pytest.importorskip("psychrolib")
properties = pytest.importorskip("CoolProp.CoolProp")

TEXT = (Path(__file__).parent / "humid_air.csv").read_text("utf-8")
ROWS = list(csv.DictReader(line for line in TEXT.splitlines() if not line.startswith("#")))
SEA_PA, HIGH_PA = 101325.0, 84300.0
HUMIDITIES = (0.0, 0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 1.0)
GRID = [
    (temperature, share, pressure)
    for pressure in (70000.0, 78000.0, 84556.0, 95000.0, 101325.0)
    for temperature in (*range(0, 98, 4), 98)
    for share in HUMIDITIES
    if share * saturation_pressure_pa(float(temperature)) < MOST_VAPOUR_SHARE * pressure
]


def ratio_of(temperature: float, share: float, pressure: float) -> float:
    return float(humidity_ratio(share * saturation_pressure_pa(temperature), pressure))


def fahrenheit(value: float) -> float:
    return (value - 32.0) / 1.8


def either_way(ours: float, theirs: float) -> bool:
    """Return whether a sock at its freezing point can be wet or frozen: both balances hold, and a library takes one."""
    return -1.0 < theirs < 0.0 <= ours < 1.0 or -1.0 < ours < 0.0 <= theirs < 1.0


@pytest.mark.slow
def test_w_and_the_wet_bulb_are_those_of_psychrolib() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    for temperature, share, pressure in GRID:
        ratio = ratio_of(temperature, share, pressure)
        theirs = psychrolib.GetHumRatioFromRelHum(temperature, share, pressure)
        assert ratio == pytest.approx(theirs, rel=0.001, abs=1e-6)
        if temperature < boiling_point_c(pressure):  # above it the library's own bisection does not close
            expected = psychrolib.GetTWetBulbFromHumRatio(temperature, max(theirs, 1e-7), pressure)
            found = float(wet_bulb_c(temperature, ratio, pressure))
            assert found == pytest.approx(expected, abs=0.005) or either_way(found, expected)


def test_w_is_that_of_real_air_within_one_per_cent_up_to_two_fifths_of_vapour() -> None:
    worst = 0.0
    for temperature, share, pressure in GRID:
        if share and temperature < boiling_point_c(pressure):
            ratio = ratio_of(temperature, share, pressure)
            real = properties.HAPropsSI("W", "T", temperature + 273.15, "P", pressure, "R", share)
            error = abs(ratio / real - 1.0)
            few = share * saturation_pressure_pa(float(temperature)) < 0.4 * pressure
            assert error < (0.01 if few else 0.016), (temperature, share, pressure)
            worst = max(worst, error)
    assert worst > 0.012  # real air is wetter: were this to vanish, the oracle would not be what it is


def test_the_wet_bulb_is_that_of_real_air() -> None:
    for temperature, share, pressure in GRID:
        if temperature < boiling_point_c(pressure):
            ratio = ratio_of(temperature, share, pressure)
            real = properties.HAPropsSI("B", "T", temperature + 273.15, "P", pressure, "R", share) - 273.15
            allowed = 0.033 if temperature <= 80 else 0.115
            found = float(wet_bulb_c(temperature, ratio, pressure))
            assert found == pytest.approx(real, abs=allowed) or either_way(found, real)


@pytest.mark.slow
def test_few_socks_can_be_either_wet_or_frozen() -> None:
    """The band is 1 K wide at most, so that the tests above leave next to nothing out."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    left_out = 0
    for temperature, share, pressure in GRID:
        if temperature < boiling_point_c(pressure):
            ratio = max(psychrolib.GetHumRatioFromRelHum(temperature, share, pressure), 1e-7)
            expected = psychrolib.GetTWetBulbFromHumRatio(temperature, ratio, pressure)
            left_out += either_way(float(wet_bulb_c(temperature, ratio, pressure)), expected)
    assert left_out < 0.01 * len(GRID)


@pytest.mark.parametrize("row", [row for row in ROWS if row["what"] == "state"], ids=lambda row: row["x"])
def test_the_check_table_is_met(row: dict[str, str]) -> None:
    """Section 1 of the transport review: the columns of its library A (ideal gas)."""
    temperature, share = (float(value) for value in row["x"].split())
    air = air_state(temperature, humidity=share / 100)
    high = air_state(temperature, pressure_at_altitude_pa(1500.0), humidity=share / 100)
    assert air.humidity_ratio == pytest.approx(float(row["w"]), rel=0.01)
    assert air.dew_point_c == pytest.approx(float(row["dew"]), abs=0.05)
    assert air.wet_bulb_c == pytest.approx(float(row["wet"]), abs=0.05)
    assert high.wet_bulb_c == pytest.approx(float(row["wet_1500"]), abs=0.05)


@pytest.mark.parametrize(
    ("temperature", "printed"), [(20, 2338.8), (40, 7383.5), (60, 19943.8), (80, 47411.6), (100, 101418.7)]
)
def test_saturation_pressures_are_those_of_library_a(temperature: float, printed: float) -> None:
    assert saturation_pressure_pa(float(temperature)) == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize(
    ("altitude", "pressure", "boils"),
    [
        (0, 101325, 99.97), (500, 95461, 98.31), (1000, 89875, 96.65), (1500, 84556, 94.98), (2000, 79495, 93.32),
        (3000, 70108, 89.97),
    ],
)  # fmt: skip
def test_pressure_and_boiling_point_by_altitude(altitude: float, pressure: float, boils: float) -> None:
    """Standard atmosphere, as printed in section 1 of the transport review."""
    assert pressure_at_altitude_pa(float(altitude)) == pytest.approx(pressure, abs=1.0)
    assert float(boiling_point_c(float(pressure))) == pytest.approx(boils, abs=0.01)


@pytest.mark.parametrize("row", [row for row in ROWS if row["what"] == "wet bulb at 90 %"], ids=lambda row: row["x"])
def test_wet_bulbs_at_ninety_per_cent(row: dict[str, str]) -> None:
    """Section 1.3 of the rules review, in F, at sea level and 84.3 kPa."""
    dry = fahrenheit(float(row["x"]))
    for pressure, printed in ((SEA_PA, row["wet"]), (HIGH_PA, row["wet_1500"])):
        assert air_state(dry, pressure, humidity=0.9).wet_bulb_c == pytest.approx(fahrenheit(float(printed)), abs=0.04)


@pytest.mark.parametrize("row", [row for row in ROWS if row["what"] == "humidity"], ids=lambda row: row["x"])
def test_humidity_from_dry_and_wet_bulb(row: dict[str, str]) -> None:
    """Section 1.3 of the rules review: RH % from two bulbs in F, at sea level and 84.3 kPa."""
    dry, wet = (fahrenheit(float(value)) for value in row["x"].split("/"))
    for pressure, printed in ((SEA_PA, row["wet"]), (HIGH_PA, row["wet_1500"])):
        assert 100 * air_state(dry, pressure, wet_bulb_c=wet).humidity == pytest.approx(float(printed), abs=0.06)


def test_half_saturated_air_of_140_f() -> None:
    """Section 1.3 of the rules review: wet bulb 117.1 F at sea level, 116.6 F at 84.3 kPa."""
    for pressure, printed in ((SEA_PA, 117.1), (HIGH_PA, 116.6)):
        found = air_state(fahrenheit(140.0), pressure, humidity=0.5).wet_bulb_c
        assert found == pytest.approx(fahrenheit(printed), abs=0.04)


def test_the_highest_dry_bulb_that_can_hold_ninety_per_cent() -> None:
    """Section 1.3 of the rules review: 217.3 F at sea level, 208.0 F at 84.3 kPa, where 90 % is all the pressure."""
    for pressure, printed in ((SEA_PA, 217.3), (HIGH_PA, 208.0)):
        assert float(dew_point_c(pressure / 0.9)) == pytest.approx(fahrenheit(printed), abs=0.06)


@pytest.mark.parametrize(
    ("temperature", "share", "printed"),
    [
        (43, 0.25, 25.41), (57, 0.35, 39.45), (60, 0.25, 37.35), (66, 0.35, 46.57), (68, 0.35, 48.17),
        (79, 0.35, 57.03), (75, 0.15, 41.27), (68, 0.05, 28.36),
    ],
)  # fmt: skip
def test_what_a_wet_surface_holds(temperature: float, share: float, printed: float) -> None:
    """Solved exactly from the balance with Le^(2/3) 0.92 (kernel review, section 0.9)."""
    ratio = ratio_of(temperature, share, SEA_PA)
    assert float(wet_surface_c(temperature, ratio, SEA_PA, 20.0, 0.0, 1.0)) == pytest.approx(printed, abs=0.01)


@pytest.mark.parametrize(
    ("length", "printed"),
    [
        (0.03, (10.0, 15.8, 22.3, 31.5, 38.6)),
        (0.05, (7.7, 12.2, 17.3, 24.4, 29.9)),
        (0.10, (5.5, 8.6, 12.2, 17.3, 21.2)),
        (0.20, (3.9, 6.1, 8.6, 12.2, 15.0)),
    ],
)
def test_film_coefficients_along_a_plate(length: float, printed: tuple[float, ...]) -> None:
    """Section 2 of the transport review, laminar, 65 C; its properties of air differ by 1 to 2 %."""
    speeds = np.array([0.2, 0.5, 1.0, 2.0, 3.0])
    found = forced_film_w_m2k(speeds, length, 65.0, SEA_PA)
    np.testing.assert_allclose(found, printed, rtol=0.02)


def test_still_air_and_radiation() -> None:
    """Section 2 of the transport review: 4.97 for 15 cm and 20 K; radiation 6.9, 7.9, 9.0 at 50, 65, 80 C, e 0.9."""
    assert float(still_film_w_m2k(0.15, 20.0, 65.0, SEA_PA)) == pytest.approx(4.97, rel=0.03)
    for temperature, printed in ((50.0, 6.9), (65.0, 7.9), (80.0, 9.0)):
        assert radiation_film_w_m2k(0.9, temperature) == pytest.approx(printed, abs=0.06)
