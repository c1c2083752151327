"""Amounts as the two scales show them, what a law limits cut down and never up; checks with digits that fit them."""

from __future__ import annotations

import pytest

from pellicle.formula.rounding import round_kg
from pellicle.message import message
from pellicle.report.plan_rows import check_rows, scale_metric, scale_us
from pellicle.rules.verdict import Check, Verdict
from pellicle.units.kinds import GRAM_KG, OUNCE_KG, POUND_KG


@pytest.mark.parametrize("tenths", range(1, 160))
def test_tenths_of_an_ounce_of_cure_are_printed_as_the_scale_counted_them(tenths: int) -> None:
    """Four ounces once came out as 3.99."""
    kg = round_kg(tenths / 10 * OUNCE_KG, OUNCE_KG / 10)
    assert float(scale_us(kg, cut=True).removesuffix(" oz")) == tenths / 10


def test_the_metric_column_of_an_ounce_scale_is_cut_not_rounded() -> None:
    assert scale_metric(4 * OUNCE_KG, cut=True) == "113.39 g"
    assert scale_metric(3 * OUNCE_KG, cut=True) == "85.04 g"


def test_binary_dust_adds_no_decimal() -> None:
    assert scale_metric(60 * 110e-6 / 0.006, cut=True) == "1.10 kg"
    assert scale_metric(201 * GRAM_KG * (1 - 1e-15), cut=True) == "201 g"


def test_what_a_law_limits_is_never_printed_as_more() -> None:
    assert scale_us(1.2399 * POUND_KG, cut=True) == "1.23 lb"
    assert scale_us(1.2399 * POUND_KG) == "1.24 lb"


@pytest.mark.parametrize(
    ("value", "limit", "unit", "direction", "shown"),
    [
        (500.0, 546.875, "ppm", "at most", ("500.0 ppm", "at most 546.9 ppm")),
        (156.24, 156.25, "ppm", "at most", ("156.2 ppm", "at most 156.25 ppm")),
        (546.88, 546.875, "ppm", "at most", ("546.9 ppm", "at most 546.875 ppm")),
        (16.3583, 0.5533333333, "min", "at least", ("16.4 min", "at least 33 s")),
        (0.5516, 0.5533333333, "min", "at least", ("33.1 s", "at least 33.2 s")),
    ],
)
def test_a_check_shows_digits_fit_for_it_and_short_times_in_seconds(value, limit, unit, direction, shown) -> None:
    said = message("rules.title_nitrite")
    check = Check("any", said, Verdict.MET, said, value=value, limit=limit, unit=unit, direction=direction, digits=1)
    (row,) = check_rows([check])

    assert (row.value, row.limit) == shown
