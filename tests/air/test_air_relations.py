"""Humid air as relations: what must rise or fall with what, and what must come back from where it went."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.air.film import edge_thickness_m, joined_film_w_m2k
from pellicle.air.humid import (
    boiling_point_c,
    dew_point_c,
    humidity_ratio,
    humidity_ratio_from_wet_bulb,
    saturation_log_slope,
    saturation_pressure_pa,
    vapour_pressure_pa,
    wet_bulb_c,
)
from pellicle.air.wet_surface import wet_surface_c

temperatures = st.floats(2.0, 98.0)
shares = st.floats(0.0, 1.0)
pressures = st.floats(70000.0, 104000.0)


def ratio_of(temperature: float, share: float, pressure: float) -> float:
    vapour = min(share * float(saturation_pressure_pa(temperature)), 0.97 * pressure)
    return float(humidity_ratio(vapour, pressure))


@given(temperatures, shares, pressures)
def test_the_wet_bulb_leads_back_to_the_humidity_ratio(temperature: float, share: float, pressure: float) -> None:
    ratio = ratio_of(temperature, share, pressure)
    wet = float(wet_bulb_c(temperature, ratio, pressure))

    assert wet <= temperature
    assert float(humidity_ratio_from_wet_bulb(temperature, wet, pressure)) == pytest.approx(ratio, rel=1e-8, abs=1e-10)


@given(temperatures, shares, pressures)
def test_the_dew_point_stands_below_the_wet_bulb_and_that_below_the_dry_bulb(
    temperature: float, share: float, pressure: float
) -> None:
    ratio = ratio_of(temperature, share, pressure)
    wet = float(wet_bulb_c(temperature, ratio, pressure))
    dew = float(dew_point_c(vapour_pressure_pa(ratio, pressure)))

    assert dew <= max(wet, 0.0) + 0.06  # real only to a twentieth of a kelvin: latent heats of the sock are rounded
    assert wet <= temperature


@given(temperatures, st.floats(0.01, 0.98), pressures)
def test_more_vapour_means_a_warmer_sock(temperature: float, share: float, pressure: float) -> None:
    dry, moist = (ratio_of(temperature, each, pressure) for each in (share, share + 0.02))

    assert wet_bulb_c(temperature, dry, pressure) <= wet_bulb_c(temperature, moist, pressure)


@given(pressures)
def test_water_boils_where_its_vapour_has_the_airs_pressure(pressure: float) -> None:
    assert float(saturation_pressure_pa(boiling_point_c(pressure))) == pytest.approx(pressure, rel=1e-10)


@pytest.mark.parametrize("temperature", [0.0, 35.0, 90.0])
def test_the_slope_of_saturation_is_its_derivative(temperature: float) -> None:
    step = 1e-4
    above, below = (float(np.log(saturation_pressure_pa(temperature + each))) for each in (step, -step))

    assert float(saturation_log_slope(temperature)) == pytest.approx((above - below) / (2 * step), rel=1e-6)


def test_saturated_air_has_one_temperature_only() -> None:
    full = ratio_of(63.0, 1.0, 101325.0)

    assert float(wet_bulb_c(63.0, full, 101325.0)) == pytest.approx(63.0, abs=1e-9)
    assert float(wet_surface_c(63.0, full, 101325.0, 20.0, 0.5, 1.0)) == pytest.approx(63.0, abs=1e-9)


@given(temperatures, st.floats(0.0, 0.95), st.floats(5.0, 60.0))
def test_radiation_warms_a_wet_surface_and_salt_does_too(temperature: float, share: float, film: float) -> None:
    ratio = ratio_of(temperature, share, 101325.0)
    bare = float(wet_surface_c(temperature, ratio, 101325.0, film, 0.0, 1.0))

    assert float(wet_surface_c(temperature, ratio, 101325.0, film, 0.8, 1.0)) >= bare - 1e-9
    assert float(wet_surface_c(temperature, ratio, 101325.0, film, 0.0, 0.97)) >= bare - 1e-9


def test_without_radiation_the_film_coefficient_does_not_matter_to_a_wet_surface() -> None:
    slow, fast = (float(wet_surface_c(70.0, 0.05, 101325.0, film, 0.0, 1.0)) for film in (5.0, 60.0))

    assert slow == pytest.approx(fast, abs=1e-9)


def test_free_convection_does_not_matter_in_a_storm_and_is_all_there_is_in_still_air() -> None:
    assert joined_film_w_m2k(40.0, 5.0) == pytest.approx(40.0, rel=0.001)
    assert joined_film_w_m2k(0.0, 5.0) == pytest.approx(5.0)


def test_a_wide_piece_has_no_edges() -> None:
    assert edge_thickness_m(0.006, 1e6) == pytest.approx(0.006)
