"""Our cuts against the statistics of 317 lean raw rows of the USDA database, release 28 (computed over the whole file).

Mean and standard deviation of the ratio water to protein, of water and of protein, by kind of meat; fat below 8 g and
protein above 17 g per 100 g.
"""

from __future__ import annotations

import pytest

from pellicle.food.ingredient import Ingredient
from pellicle.food.ingredients import catalogue, printed
from pellicle.table import rows

MEATS = {name: found for name, found in catalogue().ingredients.items() if found.group == "meat"}
GAME = {"venison", "elk", "moose", "bison", "game", "wild boar", "rabbit"}
# kind: mean, sd of water over protein
RATIO = {
    "beef": (3.31, 0.15),
    "round": (3.27, 0.18),
    "pork": (3.43, 0.18),
    "game": (3.37, 0.20),
    "turkey": (3.53, 0.36),
    "veal": (3.75, 0.19),
}
WATER, PROTEIN = (72.97, 1.64), (21.58, 1.18)
# Cuts whose own printed row lies outside two standard deviations, as one row in twenty does.
RATIO_OUTSIDE = {"pork shoulder butt"}
LEAN = {name: found for name, found in MEATS.items() if found.composition.fat < 0.08 and found.species != "fish"}


def kind(found: Ingredient) -> str:
    if "round" in found.name and found.species == "beef" and "ground" not in found.name:
        return "round"
    return "game" if found.species in GAME else found.species


JUDGED = sorted(name for name, found in LEAN.items() if kind(found) in RATIO)


@pytest.mark.parametrize("name", JUDGED)
def test_water_to_protein_is_that_of_its_kind(name: str) -> None:
    found = MEATS[name]
    mean, sd = RATIO[kind(found)]
    inside = abs(found.composition.water / found.composition.protein - mean) <= 2 * sd
    assert inside == (name not in RATIO_OUTSIDE)


def test_water_and_protein_lie_where_lean_raw_meat_lies() -> None:
    """Within two standard deviations nineteen times in twenty, and never beyond three."""
    off = [
        (name, abs(100 * float(mass) - mean) / sd)
        for name in JUDGED
        for mass, (mean, sd) in (
            (MEATS[name].composition.water, WATER),
            (MEATS[name].composition.protein, PROTEIN),
        )
    ]
    assert [entry for entry in off if entry[1] > 3] == []
    assert sum(beyond > 2 for _, beyond in off) <= len(off) / 20


def test_printed_sums_run_from_98_5_to_102() -> None:
    """Water, protein, fat and ash of beef, pork, game, turkey, lamb and veal; the printed wild boar adds to 98.35."""
    table = {row["name"]: printed(row) for row in rows("food/data/ingredients.csv")}
    sums = {
        name: float(table[name].water + table[name].protein + table[name].fat + table[name].ash)
        for name, found in MEATS.items()
        if found.species in {"beef", "veal", "pork", "lamb", "goat", "turkey", *GAME}
    }
    assert {name for name, total in sums.items() if not 98.5 <= total <= 102} == {"wild boar"}
    assert sums["wild boar"] == pytest.approx(98.35)


def test_fatter_meat_is_drier_as_the_file_says() -> None:
    """Water = 76.47 - 0.735 fat, root mean square 1.10 g."""
    misses = [
        100 * float(MEATS[name].composition.water) - (76.47 - 0.735 * 100 * float(MEATS[name].composition.fat))
        for name in JUDGED
    ]
    assert (sum(miss**2 for miss in misses) / len(misses)) ** 0.5 <= 1.10 * 1.25
