"""The catalogue against the composition table it was taken from, and against readings of other releases and labels.

``usda_sr28_rows.csv`` beside this file: USDA National Nutrient Database for Standard Reference, Release 28.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from agreement import agrees
from pellicle.food.ingredients import catalogue, printed
from pellicle.food.water_activity import estimate
from pellicle.table import rows

LINES = (Path(__file__).parent / "usda_sr28_rows.csv").read_text("utf-8").splitlines()
TABLE = {row["ndb"]: row for row in csv.DictReader(line for line in LINES if not line.startswith("#"))}
CATALOGUE = {row["name"]: row for row in rows("food/data/ingredients.csv")}
FROM_TABLE = [name for name, row in CATALOGUE.items() if row["locator"].startswith("SR28") and row["checked"] != "no"]
MEATS = [name for name in FROM_TABLE if CATALOGUE[name]["group"] == "meat"]
# what is dissolved in sauces from fermented protein counts as small molecules, not as protein
DISSOLVED = "other osmoles"
SALT_PER_SODIUM = 2.542  # g/g


def source(name: str) -> dict[str, str]:
    return TABLE[CATALOGUE[name]["locator"].removeprefix("SR28 NDB ")]


@pytest.mark.parametrize("name", FROM_TABLE)
def test_water_protein_and_fat_are_the_tables(name: str) -> None:
    ours, theirs = printed(CATALOGUE[name]), source(name)
    protein = float(ours.protein) if DISSOLVED not in ours.solutes else None
    assert agrees(float(ours.water), theirs["water_g"])
    assert agrees(float(ours.fat), theirs["fat_g"])
    assert protein is None or agrees(protein, theirs["protein_g"])


@pytest.mark.parametrize("name", FROM_TABLE)
def test_every_gram_of_the_row_is_somewhere(name: str) -> None:
    """Ash and salt, sugars and carbohydrate: divided by species, the sum stays; acids and alcohol may come on top."""
    ours, theirs = printed(CATALOGUE[name]), source(name)
    sodium_salt = float(ours.solute("salt"))
    ash = max(float(theirs["ash_g"]), sodium_salt)
    sums = [float(theirs[column]) for column in ("water_g", "protein_g", "fat_g", "carbohydrate_g")]
    unlisted = max(0.0, 100 - sum(sums) - float(theirs["ash_g"]))
    on_top = float(ours.total) - sum(sums) - ash
    assert -0.02 <= on_top <= max(unlisted + 0.02, 0.07)


@pytest.mark.parametrize("name", [name for name in FROM_TABLE if CATALOGUE[name]["group"] not in ("meat", "salt")])
def test_salt_is_the_tables_sodium(name: str) -> None:
    """Sodium below 100 mg per 100 g stays in the ash."""
    sodium_g = float(source(name)["sodium_mg"] or 0) / 1000
    expected = SALT_PER_SODIUM * sodium_g if sodium_g >= 0.1 else 0.0
    assert float(printed(CATALOGUE[name]).solute("salt")) == pytest.approx(expected, abs=0.006)


@pytest.mark.parametrize("name", MEATS)
def test_meat_keeps_protein_and_fat_and_lets_water_give(name: str) -> None:
    made, theirs = catalogue().find(name).composition, source(name)
    assert agrees(100 * float(made.protein), theirs["protein_g"])
    assert agrees(100 * float(made.fat), theirs["fat_g"])
    others = float(made.protein) + float(made.fat) + float(made.ash) + float(made.carbohydrate)
    assert 100 * float(made.water) == pytest.approx(100 - 100 * others)


# Release 26 of the same database, read from its own pages: water, protein, fat, ash.
RELEASE_26 = [
    ("beef eye of round", "73.43", "22.60", "3.00", "1.08"),
    ("beef top round", "72.96", "23.59", "2.94", "1.12"),
    ("beef bottom round", "72.58", "22.19", "4.31", "1.09"),
    ("beef flank", "72.08", "21.57", "5.47", "1.02"),
    ("beef brisket flat", "72.70", "21.47", "5.11", "1.03"),
    ("pork leg", "72.90", "20.48", "5.41", "1.05"),
    ("pork leg rump half", "74.78", "21.81", "2.93", "1.12"),
    ("pork sirloin tip", "75.88", "22.88", "1.71", "1.11"),
    ("pork loin", "73.62", "21.99", "3.71", "1.01"),
    ("pork tenderloin", "74.97", "20.65", "3.53", "1.01"),
    ("turkey breast", "74.66", "23.34", "2.33", "1.06"),
    ("chicken breast", "73.90", "22.50", "2.62", "1.13"),
    ("venison", "73.57", "22.96", "2.42", "1.16"),
    ("bison", "74.57", "21.62", "1.84", "1.20"),
    ("elk", "74.38", "22.95", "1.45", "1.00"),
    ("moose", "75.55", "22.24", "0.74", "1.13"),
]


@pytest.mark.parametrize(("name", "water", "protein", "fat", "ash"), RELEASE_26)
def test_an_earlier_release_prints_the_same(name: str, water: str, protein: str, fat: str, ash: str) -> None:
    ours = printed(CATALOGUE[name])
    assert agrees(float(ours.water), water)
    assert agrees(float(ours.protein), protein)
    assert agrees(float(ours.fat), fat)
    assert agrees(float(ours.ash), ash)


SUGARS = ("sucrose", "glucose", "fructose", "maltose", "lactose", "glucose syrup DE 36")


@pytest.mark.parametrize(("name", "sugars"), [("honey", "82.12"), ("brown sugar", "97.02"), ("molasses", "74.72")])
def test_sugars_by_species_add_to_the_printed_sugars(name: str, sugars: str) -> None:
    """NDB 19296, 19334 and 19304, release 28. The split is ours, the total is the table's."""
    assert agrees(float(printed(CATALOGUE[name]).solute(*SUGARS)), sugars)


def test_soy_sauce_salt_by_the_spoon() -> None:
    """A label in the trade: 960 mg sodium in 15 ml, 2.4 g salt in a tablespoon; brands differ by a tenth."""
    soy = catalogue().find("soy sauce")
    assert soy.density_kg_m3 is not None
    grams = float(soy.composition.solute("salt")) * soy.density_kg_m3 * 15e-6 * 1000
    assert agrees(grams, "2.4", within=0.24)


def test_soy_sauce_reads_between_two_meters() -> None:
    """A collaborative study (abstract): 0.838 by an electric meter, 0.911 by a fibre one, which volatiles upset."""
    assert 0.838 <= float(estimate(catalogue().find("soy sauce").composition).aw) <= 0.911


def test_whisky_holds_the_alcohol_of_its_proof() -> None:
    """86 proof is 43 % by volume: 43 x 0.789 / 0.940 g per 100 g (densities of ethanol and of the mixture, memory)."""
    assert agrees(100 * float(catalogue().find("whisky").composition.solute("ethanol")), "36.1", within=0.2)
