"""What is printed says what it means, and reads back as itself within the digits it shows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle import units
from pellicle.errors import InputError
from pellicle.units.kinds import INCH_M, POUND_KG
from pellicle.units.show import System

MASSES = st.floats(min_value=1e-6, max_value=9e5)
SYSTEMS = st.sampled_from(["metric", "us"])


@pytest.mark.parametrize(
    ("kg", "metric", "us"),
    [
        (84.02, "84.0 kg", "185.2 lb"),
        (1234.4, "1234 kg", "2721 lb"),
        (2.27, "2.27 kg", "5.00 lb"),
        (9.999, "10.0 kg", "22.0 lb"),
        (0.99999, "1.00 kg", "2.20 lb"),
        (0.156, "156 g", "5.50 oz"),
        (0.00568, "5.68 g", "0.200 oz"),
        (0.00025, "0.250 g", "0.00882 oz"),
        (-1.2, "-1.20 kg", "-2.65 lb"),
        (0.0, "0 g", "0 oz"),
    ],
)
def test_a_weight_is_printed_with_the_digits_it_needs(kg: float, metric: str, us: str) -> None:
    assert (units.show_mass(kg), units.show_mass(kg, "us")) == (metric, us)


@pytest.mark.parametrize(
    ("kg", "division_kg", "metric", "us"),
    [
        (12.3456, 0.005, "12.345 kg", "27.22 lb"),
        (12.3456, 0.1, "12.3 kg", "27.1 lb"),
        (0.01234, 0.005, "10 g", "0.4 oz"),
        (0.01234, 0.0001, "12.3 g", "0.434 oz"),
        (12.3456, POUND_KG / 4, "12.4 kg", "27.25 lb"),
        (12.3456, POUND_KG / 100, "12.347 kg", "27.22 lb"),
        (0.002, 0.005, "0 g", "0.0 oz"),
    ],
)
def test_a_weight_carries_the_decimals_of_its_scale(kg: float, division_kg: float, metric: str, us: str) -> None:
    assert units.both(kg, division_kg) == f"{metric} / {us}"


@pytest.mark.parametrize(
    ("s", "text"),
    [
        (0, "0 s"),
        (45, "45 s"),
        (80, "1 min 20 s"),
        (599.6, "10 min"),
        (3599, "1 h"),
        (21000, "5 h 50 min"),
        (47 * 3600, "47 h"),
        (51 * 3600, "2 d 3 h"),
        (-90, "-1 min 30 s"),
    ],
)
def test_a_time_is_printed_in_hours_and_minutes(s: float, text: str) -> None:
    assert units.show_duration(s) == text


def test_temperatures_lengths_and_shares_are_printed() -> None:
    assert units.both_temperatures(71.1) == "71 °C / 160 °F"
    assert units.show_temperature(-0.2) == "0 °C"
    assert (units.show_length(0.0064), units.show_length(0.0064, "us")) == ("6.4 mm", "0.25 in")
    assert (units.show_percent(0.461), units.show_ppm(156.25e-6)) == ("46.1 %", "156 ppm")


def test_a_number_stays_on_the_line_of_its_unit() -> None:
    assert units.unbroken("84.0 kg / 185.2 lb") == "84.0\u00a0kg / 185.2\u00a0lb"
    assert units.unbroken("hold 5 h 50 min at 71 °C") == "hold 5\u00a0h 50\u00a0min at 71\u00a0°C"


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_not_known_is_not_printed_as_a_number(value: float) -> None:
    for show in (units.show_mass, units.show_temperature, units.show_length, units.show_duration, units.show_percent):
        with pytest.raises(ValueError, match="cannot print"):
            show(value)


@given(kg=MASSES, system=SYSTEMS)
def test_a_printed_weight_reads_back_within_its_digits(kg: float, system: System) -> None:
    text = units.show_mass(kg, system)
    read = units.mass(text, "x", zero=True)
    assert abs(read - kg) <= half_a_digit(text) * (1 + 1e-9)
    if kg > 1e-3:
        assert read == pytest.approx(kg, rel=0.0051)


@given(
    kg=st.floats(min_value=1e-6, max_value=5000),
    division_kg=st.sampled_from([0.0001, 0.001, 0.002, 0.005, 0.01, 0.05, 0.1, 0.2, 0.5, 1.0]),
)
def test_a_weight_printed_for_a_scale_is_one_the_scale_can_show(kg: float, division_kg: float) -> None:
    read = units.mass(units.show_mass(kg, "metric", division_kg), "x", zero=True)
    assert read / division_kg == pytest.approx(round(read / division_kg), abs=1e-6)
    assert abs(read - kg) <= division_kg / 2 * (1 + 1e-6)


@given(c=st.floats(min_value=-59, max_value=399), system=SYSTEMS, digits=st.integers(0, 3))
def test_a_printed_temperature_reads_back_within_its_digits(c: float, system: System, digits: int) -> None:
    read = units.temperature_c(units.show_temperature(c, system, digits), "x")
    step = 1.0 if system == "metric" else 5 / 9
    assert abs(read - c) <= step * 10.0**-digits / 2 + 1e-9


@given(m=st.floats(min_value=0.001, max_value=1.9), system=SYSTEMS)
def test_a_printed_length_reads_back_within_its_digits(m: float, system: System) -> None:
    read = units.length_m(units.show_length(m, system), "x")
    assert abs(read - m) <= (0.1e-3 if system == "metric" else 0.01 * INCH_M) / 2 + 1e-12


@given(s=st.floats(min_value=1, max_value=364 * 86400))
def test_a_printed_time_reads_back_within_its_step(s: float) -> None:
    read = units.duration_s(units.show_duration(s), "x")
    assert abs(read - s) <= (0.5 if s < 600 else 30.0) + 1e-6


@given(share=st.floats(min_value=0, max_value=1), digits=st.integers(0, 4))
def test_a_printed_share_reads_back_within_its_digits(share: float, digits: int) -> None:
    assert abs(units.share(units.show_percent(share, digits), "x") - share) <= 0.01 * 10.0**-digits / 2 + 1e-12
    assert abs(units.share(units.show_ppm(share, digits), "x") - share) <= 1e-6 * 10.0**-digits / 2 + 1e-12


@given(kg=MASSES, system=SYSTEMS)
def test_an_unbroken_weight_reads_as_the_same_weight(kg: float, system: System) -> None:
    text = units.show_mass(kg, system)
    assert units.mass(units.unbroken(text), "x", zero=True) == units.mass(text, "x", zero=True)


@given(st.text(max_size=40) | st.text(alphabet="0123456789.,/-+eE %kglboz ½fpmn°CFperaw", max_size=16))
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    for read in (units.mass, units.temperature_c, units.duration_s, units.share, units.amount, units.aw):
        sentence = ""
        try:
            assert read(text, "x") is not None
        except InputError as refused:
            sentence = str(refused)
        assert not sentence or sentence.startswith("x ")


def half_a_digit(text: str) -> float:
    """Return half of the last digit of a printed weight, in kg."""
    number, unit = text.split()
    decimals = len(number.partition(".")[2])
    return 10.0**-decimals / 2 * units.mass(f"1 {unit}", "x")
