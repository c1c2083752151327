"""How much dissolves, and what temperature does to water activity."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from agreement import agrees
from pellicle.food.saturation import saturation_warnings, solubility
from pellicle.food.temperature import aw_at_temperature, net_sorption_heat


# Sugar-technology table seen in the review: kg sucrose per kg water. The fit, which is from memory, lies up to 1 % off
# it (worst at 40 C).
@pytest.mark.parametrize(
    ("temperature_c", "printed"), [(0, "1.812"), (20, "2.007"), (40, "2.358"), (60, "2.894"), (80, "3.704")]
)
def test_sucrose(temperature_c: float, printed: str) -> None:
    assert agrees(solubility("sucrose", temperature_c) or 0.0, printed, within=0.011 * float(printed))


# Handbook solubilities, from memory: g salt per 100 g water, weight percent of the sugars.
@pytest.mark.parametrize(
    ("temperature_c", "printed"), [(0, "35.7"), (20, "35.9"), (25, "36.0"), (60, "37.0"), (80, "37.9")]
)
def test_salt(temperature_c: float, printed: str) -> None:
    assert agrees(100.0 * (solubility("salt", temperature_c) or 0.0), printed)


@pytest.mark.parametrize(
    ("sugar", "temperature_c", "percent"), [("glucose", 20, "47.8"), ("glucose", 60, "75"), ("fructose", 25, "80.3")]
)
def test_simple_sugars(sugar: str, temperature_c: float, percent: str) -> None:
    ratio = solubility(sugar, temperature_c) or 0.0
    assert agrees(100.0 * ratio / (1.0 + ratio), percent)


def test_a_solute_the_table_does_not_know_is_unlimited_and_silent() -> None:
    assert solubility("glycerol", 20.0) is None
    assert saturation_warnings({"glycerol": 100.0}, 1.0, 20.0) == ()


@given(st.sampled_from(["sucrose", "glucose", "fructose", "salt"]), st.floats(0.0, 79.0))
def test_more_dissolves_when_warmer(name: str, temperature_c: float) -> None:
    cold, warm = solubility(name, temperature_c), solubility(name, temperature_c + 1.0)
    assert cold is not None
    assert warm is not None
    assert warm >= cold


# The review, section 6 (shape from memory): J/mol, and the rise of aw from 25 to 70 C at the same water content.
@pytest.mark.parametrize(("held", "heat", "rise"), [(0.30, "80", "0.4"), (0.15, "1000", "5"), (0.05, "5000", "31")])
def test_only_tightly_held_water_moves_with_temperature(held: float, heat: str, rise: str) -> None:
    assert agrees(float(net_sorption_heat(held)), heat, within=0.05 * float(heat))
    found = 100.0 * (float(aw_at_temperature(0.30, held, 25.0, 70.0)) / 0.30 - 1.0)
    # the review rounds the heat before it computes the rise
    assert agrees(found, rise, within=1.0 if float(rise) > 1.0 else 0.05)


@given(st.floats(0.02, 1.0), st.floats(0.0, 2.0), st.floats(0.0, 100.0))
def test_there_and_back_is_where_it_was(reading: float, held: float, temperature_c: float) -> None:
    there = aw_at_temperature(reading, held, 25.0, temperature_c)
    if there < 1.0:
        assert float(aw_at_temperature(there, held, temperature_c, 25.0)) == pytest.approx(reading)
