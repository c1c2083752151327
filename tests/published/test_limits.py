"""Limits and cure figures against what their texts print and the ounces and pounds those texts are written in."""

from __future__ import annotations

from datetime import date

import pytest

from agreement import agrees
from pellicle.answers.cure import cure_answer
from pellicle.formula.cure import combined_residual_ppm
from pellicle.formula.ions import As, factor, molar_mass
from pellicle.product import CureMethod, Form, Storage
from pellicle.rules.limits import by_id

ON = date(2026, 3, 14)
POUND_KG = 0.45359237


@pytest.mark.parametrize(
    ("id", "ounces_in_100_lb", "printed"),
    [
        # 9 CFR 424.21(c), rows on nitrite and nitrate: ounces to 100 lb; ppm in the inspectors' handbook, ch. 3
        ("us-nitrite-dry", 1.0, "625"),
        ("us-nitrite-comminuted", 0.25, "156"),
        ("us-nitrate-dry", 3.5, "2187"),
        ("us-nitrate-comminuted", 2.75, "1718"),
        # the same, accelerators; ppm printed as 469 and 547
        ("us-accelerator-acids", 0.75, "469"),
        ("us-accelerator-salts", 0.875, "547"),
    ],
)
def test_a_limit_is_its_ounces_in_a_hundred_pounds_not_the_rounded_ppm(id, ounces_in_100_lb, printed) -> None:
    row = by_id(id)
    assert row.limit == ounces_in_100_lb / 16 / 100 * 1e6
    assert printed in row.as_printed
    assert abs(row.limit - float(printed)) < 1  # printed cut off or rounded


def test_two_pounds_in_a_hundred_gallons_are_200_ppm_only_at_ten_pounds_a_gallon() -> None:
    """The row's own unit: 2 lb to 100 gal, 10 % pump. With water at 8.345 lb/gal it is 239.7 (secondary pages)."""
    pumped = [0.10 * 2 / (100 * pounds_per_gallon) * 1e6 for pounds_per_gallon in (10.0, 8.345)]
    assert pumped[0] == pytest.approx(by_id("us-nitrite-solution").limit)
    assert agrees(pumped[1], "239.7")


@pytest.mark.parametrize(
    ("method", "form", "storage", "percent"),
    [
        # most of a 6.25 % cure in per cent of meat, computed from the limits 156, 200, 120 and 625
        (CureMethod.GROUND, Form.GROUND, Storage.SHELF_STABLE, "0.25"),
        (CureMethod.TUMBLED, Form.WHOLE_MUSCLE, Storage.SHELF_STABLE, "0.32"),
        (CureMethod.TUMBLED, Form.WHOLE_MUSCLE, Storage.BACON, "0.192"),
        (CureMethod.RUBBED, Form.WHOLE_MUSCLE, Storage.SHELF_STABLE, "1.00"),
    ],
)
def test_the_most_of_a_625_percent_cure(method, form, storage, percent) -> None:
    found = cure_answer(method, 100.0, 1.0, 0.0625, on=ON, form=form, storage=storage)
    assert agrees(found.largest_lawful_kg, percent)


def test_a_dry_rub_of_78_grams_a_kilogram_is_lawful_for_ham_and_not_for_bacon() -> None:
    """A posted recipe: 7.8 g of 6.25 % cure per kg of meat is 487.5 ppm; over 200 (bacon), under 625 (dry cured)."""
    ham = cure_answer(CureMethod.RUBBED, 1.0, 0.0078, 0.0625, on=ON)
    bacon = cure_answer(CureMethod.RUBBED, 1.0, 0.0078, 0.0625, on=ON, storage=Storage.BACON)
    assert agrees(ham.ingoing_ppm, "487.5")
    assert (ham.verdict, bacon.verdict) == ("met", "not met")


@pytest.mark.parametrize(
    ("pounds", "ounces", "printed", "verdict"),
    [
        # a cure chart copied among cooks; its ppm recomputed: the small batches disagree with each other
        (1, 0.05, "195", "not met"),
        (2, 0.08, "156", "met"),
        (3, 0.10, "130", "met"),
        (4, 0.15, "146", "met"),
        (5, 0.20, "156", "met"),
        (10, 0.40, "156", "met"),
        (25, 1.00, "156", "met"),
    ],
)
def test_a_copied_cure_chart_is_over_the_lowest_limit_in_one_row(pounds, ounces, printed, verdict) -> None:
    found = cure_answer(CureMethod.GROUND, pounds * POUND_KG, ounces * POUND_KG / 16, 0.0625, on=ON, form=Form.GROUND)
    assert agrees(found.ingoing_ppm, printed, within=0.75)  # the chart cuts off or rounds
    assert found.verdict == verdict


def test_five_pounds_in_a_brine_are_156_over_all_and_234_in_the_meat() -> None:
    """A question of cooks: 5 lb of meat, 2.5 lb of water, 1.5 teaspoons of 5.67 g. Only one answer is within 200."""
    spoons_kg, water_kg = 1.5 * 0.00567, 2.5 * POUND_KG
    found = cure_answer(
        CureMethod.IMMERSION_WHOLE, 5 * POUND_KG, spoons_kg, 0.0625, pickle_kg=water_kg + spoons_kg, on=ON
    )
    assert agrees(found.ingoing_ppm, "156")
    assert agrees(found.worst_case_ppm, "234", within=0.6)


@pytest.mark.parametrize(
    ("agent", "salt", "printed"),
    [
        # Regulation (EU) 2023/2108 as summarised: factors from salt to ion
        ("nitrite", "sodium", "0.67"),
        ("nitrate", "sodium", "0.73"),
        ("nitrate", "potassium", "0.61"),
    ],
)
def test_molar_masses_give_the_european_factors(agent: str, salt: str, printed: str) -> None:
    assert agrees(factor(agent, salt, As.ION), printed)


@pytest.mark.parametrize(
    ("id", "as_sodium_nitrite"),
    [("eu-nitrite-added-2025", "120"), ("eu-nitrite-residual-2025", "67.5"), ("eu-nitrite-sterilised-2025", "82.5")],
)
def test_the_european_ion_limits_as_sodium_nitrite(id: str, as_sodium_nitrite: str) -> None:
    """By molar masses 80, 45 and 55 mg/kg of the ion are 120, 67.5 and 82.5 mg/kg of sodium nitrite."""
    assert agrees(by_id(id).limit * molar_mass("nitrite") / molar_mass("nitrite", "ion"), as_sodium_nitrite)


def test_brazil_counts_what_is_left_of_both_and_90_with_80_is_over() -> None:
    """By molar masses 90 mg/kg nitrite and 80 mg/kg nitrate (as its sodium salt) are 154.9 together."""
    together = combined_residual_ppm(90.0, 80.0)
    assert agrees(together, "154.9")
    assert not by_id("br-combined").met_by(together)


def test_canadian_grams_in_a_hundred_kilograms_are_its_ppm() -> None:
    """Input limits as printed: 20 g, 12 g (side bacon) and at least 10 g in 100 kg."""
    for id, grams in (("ca-nitrite", 20), ("ca-nitrite-bacon", 12), ("ca-nitrite-minimum", 10)):
        assert by_id(id).limit == pytest.approx(grams / 1000 / 100 * 1e6)
