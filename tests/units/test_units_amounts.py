"""The amount on a formula line: its share, its basis, its agent."""

from __future__ import annotations

import pytest

from agreement import agrees
from pellicle.units import Amount, Basis, amount
from pellicle.units.amounts import AGENT_FORMS, BAG_FORMS, BASIS_FORMS, FORMS

LINE = "formula[2].amount"


@pytest.mark.parametrize(
    ("entry", "value", "basis"),
    [
        ("9 % of raw", 0.09, Basis.RAW),
        ("9 %", 0.09, Basis.RAW),
        ("9%of raw", 0.09, Basis.RAW),
        ("9 % of raw weight", 0.09, Basis.RAW),
        ("9 % of green weight", 0.09, Basis.RAW),
        ("9 % of the meat", 0.09, Basis.RAW),
        ("9 % OF THE RAW MEAT", 0.09, Basis.RAW),
        ("3 % of total", 0.03, Basis.TOTAL),
        ("3 % of the batch", 0.03, Basis.TOTAL),
        ("2 % of solution", 0.02, Basis.SOLUTION),
        ("2 % of the brine", 0.02, Basis.SOLUTION),
        ("6 g/kg", 0.006, Basis.RAW),
        ("6 g/kg of raw", 0.006, Basis.RAW),
        ("6 g/kg of total", 0.006, Basis.TOTAL),
        ("500 ppm of raw", 0.0005, Basis.RAW),
        ("2.9 oz/lb", 0.18125, Basis.RAW),
        ("4 oz per 100 lb", 0.0025, Basis.RAW),
        ("4 oz/100 lb", 0.0025, Basis.RAW),
        ("1 lb per 25 lb", 0.04, Basis.RAW),
        ("100 g per 10 kg", 0.01, Basis.RAW),
        ("250 %", 2.5, Basis.RAW),
        ("2.5 kg", 2.5, Basis.ABSOLUTE),
        ("4 oz", 0.1133980925, Basis.ABSOLUTE),
        ("2 lb 3 oz", 0.992233309375, Basis.ABSOLUTE),
    ],
)
def test_an_amount_stands_on_its_basis(entry: str, value: float, basis: Basis) -> None:
    read = amount(entry, LINE)
    assert read.value == pytest.approx(value, rel=1e-12)
    assert (read.basis, read.agent, read.bags, read.text) == (basis, "", False, entry)


@pytest.mark.parametrize(
    ("entry", "agent", "basis"),
    [
        ("150 ppm nitrite of raw", "nitrite", Basis.RAW),
        ("150 ppm nitrite", "nitrite", Basis.RAW),
        ("150 ppm sodium nitrite of green weight", "nitrite", Basis.RAW),
        ("0.015 % nitrite of total", "nitrite", Basis.TOTAL),
        ("150 mg/kg nitrate", "nitrate", Basis.RAW),
    ],
)
def test_a_cure_by_target_names_its_agent(entry: str, agent: str, basis: Basis) -> None:
    read = amount(entry, LINE)
    assert (round(read.value, 9), read.agent, read.basis) == (0.00015, agent, basis)


@pytest.mark.parametrize(
    ("entry", "value", "basis"),
    [
        ("1 bag per 25 lb", 1 / (25 * 0.45359237), Basis.RAW),
        ("1 bag/25 lb of meat", 1 / (25 * 0.45359237), Basis.RAW),
        ("1/2 bag per 10 kg", 0.05, Basis.RAW),
        ("2 bags", 2.0, Basis.ABSOLUTE),
        ("1 unit bag", 1.0, Basis.ABSOLUTE),
    ],
)
def test_bags_are_counted(entry: str, value: float, basis: Basis) -> None:
    read = amount(entry, LINE)
    assert read == Amount(pytest.approx(value), basis, "", True, entry)


def test_premix_at_four_ounces_per_hundred_pounds_is_a_quarter_of_a_per_cent() -> None:
    """The trade's own figure, common practice: 1 oz of 6.25 % cure per 25 lb, or 4 oz per 100 lb, is 156 ppm."""
    for entry in ("1 oz per 25 lb", "4 oz per 100 lb", "2.5 g/kg", "0.25 % of raw"):
        assert agrees(amount(entry, LINE).value * 0.0625 * 1e6, "156.25")


@pytest.mark.parametrize("form", sorted({*FORMS, *BASIS_FORMS, *BAG_FORMS, *AGENT_FORMS}))
def test_the_forms_a_sentence_offers_are_amounts(form: str) -> None:
    assert amount(form, LINE).value > 0
