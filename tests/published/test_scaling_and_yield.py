"""Scaling, brine strength, spoons and yields against printed figures (sources beside each and in the tables)."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from agreement import agrees
from invented import line, product
from pellicle import units
from pellicle.food.composition import Composition
from pellicle.food.ingredients import catalogue
from pellicle.formula.parts import brine_percent, salometer
from pellicle.formula.resolve import resolve
from pellicle.formula.spoon import HIDES_FROM, spoon_mass
from pellicle.formula.yields import Base, mass_at_mpr, moisture_protein_ratio, yields

RATIOS = {"0_75": 0.75, "1_0": 1.0, "1_5": 1.5, "2_0": 2.0}


def table(name: str) -> list[dict[str, str]]:
    lines = (Path(__file__).parent / name).read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize(
    ("ingredient", "grams_per_kg", "printed"),
    # home curing threads on scaling: a recipe for 1 kg taken 2.27 times for 5 lb
    [
        ("salt", "17", "38.59"),
        ("curing salt", "2.5", "5.675"),
        ("black pepper", "2", "4.54"),
        ("garlic powder", "3", "6.81"),
        ("sucrose", "1", "2.27"),
    ],
)
def test_a_recipe_for_one_kilogram_scales(ingredient: str, grams_per_kg: str, printed: str) -> None:
    strength = {"nitrite": "6.25 %"} if ingredient == "curing salt" else {}
    made = product(line(ingredient, f"{grams_per_kg} g", **strength), raw="1 kg")
    (part,) = resolve(made, catalogue(), raw_kg=2.27).parts
    assert agrees(1000 * part.kg, printed)


def test_half_a_recipe_by_its_total() -> None:
    """Home curing threads: a recipe of 5048 g in all, halved to 2524 g, is a factor of 0.5."""
    made = product(line("water", "0.9 kg"), line("salt", "148 g"), raw="4 kg")
    whole, half = resolve(made, catalogue()), resolve(made, catalogue(), total_kg=2.524)
    assert agrees(1000 * whole.total_kg, "5048")
    assert agrees(half.parts[1].kg / whole.parts[1].kg, "0.5")


def test_two_gallons_of_water_for_a_hundred_pounds() -> None:
    """Processors' convention slides: 16.69 % of the meat, at 8.345 lb per gallon."""
    made = product(line("water", f"{2 * 8.345} lb"), raw="100 lb")
    formula = resolve(made, catalogue())
    assert agrees(formula.percent_of_raw(formula.solution_kg), "16.69")


def test_the_salt_that_hides_in_cure() -> None:
    """Home curing threads: of 0.4 oz of 6.25 % cure for 10 lb, 0.375 oz are salt."""
    made = product(line("curing salt", "0.4 oz", nitrite="6.25 %"), raw="10 lb")
    formula = resolve(made, catalogue())
    assert agrees(formula.hidden_salt_kg / units.mass("1 oz", ""), "0.375")


@pytest.mark.parametrize(("printed_brine", "degrees"), [("26.3", "100"), ("13.15", "50")])
def test_salometer_degrees(printed_brine: str, degrees: str) -> None:
    """Extension material on brines."""
    assert agrees(float(salometer(float(printed_brine))), degrees)


@pytest.mark.parametrize(
    ("sodium_g", "water_g", "printed"),
    # USDA Standard Reference 26, NDB 19002 and 13350; salt is 2.542 times sodium; ratio by own arithmetic
    [(2.081, 23.36, "18.5"), (2.790, 53.80, "11.6")],
)
def test_brine_in_dried_meat(sodium_g: float, water_g: float, printed: str) -> None:
    assert agrees(float(brine_percent(2.542 * sodium_g, water_g)), printed)


# home curing threads: what a quarter cup of different salts weighs, g
QUARTER_CUPS_G = ("76.0", "74.0", "66.8", "64.8", "62.0", "45.2", "33.2")


@pytest.mark.parametrize("printed", QUARTER_CUPS_G)
def test_a_quarter_cup_of_salt(printed: str) -> None:
    """What our spoon arithmetic makes of a quarter cup at the density the printed weight implies for a whole cup."""
    cup_m3 = units.volume_m3("1 cup", "")
    density_kg_m3 = 4 * float(printed) / 1000 / cup_m3
    assert agrees(1000 * spoon_mass(units.volume_m3("1/4 cup", ""), density_kg_m3), printed)


@pytest.mark.parametrize("name", ["salt", "coarse salt", "flake salt"])
def test_our_salts_weigh_what_salts_weigh(name: str) -> None:
    """A quarter cup of each salt of the catalogue lies within the weights printed for salt types."""
    density_kg_m3 = catalogue().find(name).density_kg_m3
    assert density_kg_m3 is not None
    grams = 1000 * spoon_mass(units.volume_m3("1/4 cup", ""), density_kg_m3)
    half_a_digit = 0.05
    assert float(QUARTER_CUPS_G[-1]) - half_a_digit <= grams <= float(QUARTER_CUPS_G[0]) + half_a_digit


def test_the_spread_of_salts_is_a_factor_that_the_cross_check_sees() -> None:
    heaviest, lightest = float(QUARTER_CUPS_G[0]), float(QUARTER_CUPS_G[-1])
    assert agrees(heaviest / lightest, "2.3")
    assert heaviest / lightest > HIDES_FROM


@pytest.mark.parametrize("row", table("weighed_yields.csv"), ids=lambda row: row["id"])
def test_weighed_yields(row: dict[str, str]) -> None:
    (found,) = yields(float(row["after"]), {Base(row["base"]): float(row["before"])})
    assert agrees(found.percent, row["printed_percent"])


def raw_meat(row: dict[str, str]) -> Composition:
    return Composition(**{name: float(row[name]) for name in ("water", "protein", "fat", "ash")})


@pytest.mark.parametrize("row", table("mpr_yields.csv"), ids=lambda row: row["cut"])
def test_yield_at_a_moisture_protein_ratio(row: dict[str, str]) -> None:
    meat = raw_meat(row)
    for column, ratio in RATIOS.items():
        assert agrees(float(mass_at_mpr(meat, ratio)), row[f"at_{column}"])
        with_additives = Composition(carbohydrate=8.0) + meat
        assert agrees(float(mass_at_mpr(with_additives, ratio)), row[f"with_8_at_{column}"])


@pytest.mark.parametrize("row", [row for row in table("mpr_yields.csv") if row["raw_mpr"]], ids=lambda row: row["cut"])
def test_raw_moisture_protein_ratio(row: dict[str, str]) -> None:
    meat = raw_meat(row)
    assert agrees(float(moisture_protein_ratio(meat.water, meat.protein)), row["raw_mpr"])
