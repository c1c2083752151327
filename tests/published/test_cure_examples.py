"""Ingoing cure against printed examples (``cure_examples.csv``, source and locator beside each), and sums around it."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from agreement import agrees
from pellicle.formula.cure import (
    DRY,
    PPM,
    combined_residual_ppm,
    dry_ppm,
    ingoing_ppm,
    permitted_cure_kg,
    picked_up,
    pumped_ppm,
    whole_ppm,
)
from pellicle.formula.cure_figures import from_numbers
from pellicle.formula.ions import As, factor
from pellicle.formula.yields import percent_added, protein_fat_free
from pellicle.product import CureMethod


def examples() -> list[dict[str, str]]:
    lines = (Path(__file__).parent / "cure_examples.csv").read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def ppm(row: dict[str, str]) -> float:
    agent = float(row["cure"]) * float(row["strength"])
    if row["sum"] == "dry":
        return float(dry_ppm(agent, float(row["green"])))
    if row["sum"] == "whole":
        return float(whole_ppm(agent, float(row["green"]), float(row["pickle"])))
    return float(pumped_ppm(agent, float(row["pickup"]), float(row["pickle"])))


@pytest.mark.parametrize("row", examples(), ids=lambda row: row["id"])
def test_ingoing_agent_is_the_printed_one(row: dict[str, str]) -> None:
    within = float(row["within"]) if row["within"] else None
    assert agrees(ppm(row), row["printed_ppm"], within=within), ppm(row)


def test_the_pickle_of_the_printed_example_is_the_sum_of_its_parts() -> None:
    """Supplier's answers: 400 lb water, 50 lb cure, 9 lb 6 oz phosphate, 1 lb 5 oz erythorbate, 1 lb 8 oz spice."""
    assert agrees(400 + 50 + (9 + 6 / 16) + (1 + 5 / 16) + (1 + 8 / 16), "462.1875")


@pytest.mark.parametrize(
    ("method", "pickle_lb", "pickup", "printed"),
    [
        # 4 oz of 6.25 % for 100 lb (home curing threads); the pickle examples as in the table
        (CureMethod.RUBBED, None, None, "156.25"),
        (CureMethod.TUMBLED, None, None, "156.25"),
        (CureMethod.GROUND, None, None, "156.25"),
    ],
)
def test_the_calculator_gives_the_premix_figure(
    method: CureMethod, pickle_lb: float | None, pickup: float | None, printed: str
) -> None:
    found = from_numbers(method, 100.0, 0.25, 0.0625, pickle_kg=pickle_lb, pickup_share=pickup)
    assert found.nitrite.ingoing_ppm is not None
    assert agrees(found.nitrite.ingoing_ppm, printed)


def test_the_calculator_gives_the_printed_pumped_figure() -> None:
    """Supplier's answers: 50 lb of 0.75 % cure in 462.1875 lb of pickle, 20 % pump, 162 ppm at any green weight."""
    found = from_numbers(CureMethod.INJECTED, 1000.0, 50.0, 0.0075, pickle_kg=462.1875, pickup_share=0.20)
    assert found.nitrite.ingoing_ppm is not None
    assert agrees(found.nitrite.ingoing_ppm, "162")


def test_the_calculator_gives_the_discussed_whole_and_worst_figures() -> None:
    """Home curing threads: 5 lb of meat, 2.5 lb of water, 1.5 tsp of 5.67 g at 6.25 %: 156 whole, 234 all taken up."""
    cure_lb, water_lb = 1.5 * 5.67 / 453.592, 2.5
    found = from_numbers(CureMethod.IMMERSION_WHOLE, 5.0, cure_lb, 0.0625, pickle_kg=water_lb).nitrite
    assert found.ingoing_ppm is not None
    assert found.worst_case_ppm is not None
    assert agrees(found.ingoing_ppm, "156")
    assert agrees(found.worst_case_ppm, "234")


def test_undepleted_nitrite_in_the_finished_weight() -> None:
    """Own arithmetic: 57 g of cure on 22.7 kg of strips at 45 % yield, nothing used up: 348.8 ppm."""
    assert agrees(float(dry_ppm(0.057 * 0.0625, 22.7 * 0.45)), "348.8")


@pytest.mark.parametrize(("limit", "printed_percent"), [(156, "0.25"), (200, "0.32"), (120, "0.192"), (625, "1.00")])
def test_the_most_of_a_six_and_a_quarter_per_cent_cure(limit: float, printed_percent: str) -> None:
    """Own arithmetic: per cent of the meat's weight at which a 6.25 % cure reaches a limit."""
    most = permitted_cure_kg(limit, 0.0625, DRY, 100.0)
    assert most is not None
    assert agrees(most, printed_percent)


def test_the_permitted_cure_in_a_pickle_counts_its_own_mass() -> None:
    """The strict gallon, backwards: with 3 oz in 8.33 lb of water at 10 % the figure is 137.57 ppm."""
    strict = ingoing_ppm(3 * 0.0625, picked_up(0.10), 0.0, 136.28)
    most = permitted_cure_kg(strict, 0.0625, picked_up(0.10), 0.0, other_pickle_kg=133.28)
    assert most is not None
    assert agrees(most, "3.000")


@pytest.mark.parametrize(
    ("agent", "salt", "to", "printed"),
    [
        # ratios of molar masses; EU regulation 2023/2108 rounds them to 0.67, 0.73 and 0.61
        ("nitrite", "sodium", As.ION, "0.6668"),
        ("nitrite", "sodium", As.ION, "0.67"),
        ("nitrate", "sodium", As.ION, "0.7295"),
        ("nitrate", "sodium", As.ION, "0.73"),
        ("nitrate", "potassium", As.ION, "0.6133"),
        ("nitrate", "potassium", As.ION, "0.61"),
        ("nitrite", "potassium", As.ION, "0.5406"),
    ],
)
def test_salts_as_ions(agent: str, salt: str, to: As, printed: str) -> None:
    assert agrees(factor(agent, salt, to), printed)


@pytest.mark.parametrize(("ion", "printed_salt"), [(80, "120"), (45, "67.5"), (55, "82.5")])
def test_european_limits_as_sodium_nitrite(ion: float, printed_salt: str) -> None:
    """Summaries of EU regulation 2023/2108: mg/kg of NO2 beside the same as NaNO2."""
    assert agrees(ion / factor("nitrite", "sodium", As.ION), printed_salt)


def test_the_older_european_limit_as_the_ion() -> None:
    assert agrees(150 * factor("nitrite", "sodium", As.ION), "100")


def test_combined_residual_as_brazil_counts_it() -> None:
    """Own arithmetic on the Brazilian basis: nitrite 90 and nitrate 80 mg/kg are 154.9 as sodium nitrite."""
    assert agrees(combined_residual_ppm(90.0, 80.0), "154.9")


def test_erythorbate_as_parts_per_million() -> None:
    """Own arithmetic: 0.05 % is 500 ppm; 3/4 oz and 7/8 oz per 100 lb are 468.75 and 546.875 ppm."""
    assert agrees(float(dry_ppm(0.05, 100.0)), "500")
    assert agrees(0.75 / 1600 * PPM, "468.75")
    assert agrees(0.875 / 1600 * PPM, "546.875")


def test_per_cent_added() -> None:
    """Inspectors' definition: green 100, pumped 112, smoked 104 is 4 % added."""
    assert agrees(float(percent_added(104.0, 100.0)), "4")


def test_protein_fat_free() -> None:
    """Inspectors' definition: protein 17.0 %, fat 6.0 % is 18.09 %."""
    assert agrees(float(protein_fat_free(0.170, 0.060)), "18.09")
