"""The catalogue: what it must hold, finding by what people type, own ingredients, filtering."""

from __future__ import annotations

import pytest

from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue, printed
from pellicle.food.names import key
from pellicle.food.solutes import solute
from pellicle.product import SPECIES, OwnIngredient
from pellicle.source import sources
from pellicle.table import rows

EVERY = sorted(catalogue().ingredients)
PROMISED = (
    "beef top round",
    "beef eye of round",
    "pork loin",
    "turkey breast",
    "venison",
    "water",
    "salt",
    "brown sugar",
    "sucrose",
    "glucose",
    "glycerol",
    "curing salt",
)


def test_it_holds_what_the_product_file_promises() -> None:
    assert set(PROMISED) <= set(EVERY)
    assert len(EVERY) >= 120


@pytest.mark.parametrize("name", EVERY)
def test_a_kilogram_is_made_of_a_kilogram(name: str) -> None:
    composition = catalogue().ingredients[name].composition
    parts = [composition.water, composition.protein, composition.fat, composition.ash, composition.carbohydrate]
    assert composition.total == pytest.approx(1, abs=1e-12)
    assert min([*parts, *composition.solutes.values()]) >= 0


@pytest.mark.parametrize("name", EVERY)
def test_solutes_and_sources_are_registered(name: str) -> None:
    found = catalogue().ingredients[name]
    assert [solute(entry).name for entry in found.composition.solutes] == list(found.composition.solutes)
    assert set(found.sources) <= set(sources())


def test_only_meat_brings_muscle_and_every_meat_has_a_species() -> None:
    for found in catalogue().ingredients.values():
        meat = found.group == "meat"
        assert found.composition.muscle == (found.composition.protein if meat else 0)
        assert (found.species in SPECIES) == meat


def test_no_spelling_leads_to_two_ingredients() -> None:
    led: dict[str, str] = {}
    for found in catalogue().ingredients.values():
        for spelling in (found.name, *found.aliases):
            assert led.setdefault(key(spelling), found.name) == found.name


def test_a_row_that_does_not_add_up_says_what_was_done() -> None:
    for row in rows("food/data/ingredients.csv"):
        off = abs(float(printed(row).total) - 100)
        assert (catalogue().ingredients[row["name"]].normalised is not None) == (off >= 0.045), row["name"]


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("Beef  Top-Round", "beef top round"),
        ("inside rounds", "beef top round"),
        ("white sugar", "sucrose"),
        ("DEXTROSE", "glucose"),
        ("vegetable glycerine", "glycerol"),
        ("bay leaves", "bay leaf"),
        ("clove", "cloves"),
        ("MSG", "monosodium glutamate"),
    ],
)
def test_it_is_found_by_what_people_type(typed: str, name: str) -> None:
    assert catalogue().find(typed).name == name


@pytest.mark.parametrize(
    ("typed", "meant"), [("beef topround", "beef top round"), ("brwn sugar", "brown sugar"), ("glicerin", "glycerol")]
)
def test_a_typo_gets_near_matches(typed: str, meant: str) -> None:
    with pytest.raises(InputError, match=f"There is no ingredient called '{typed}'. Did you mean .*{meant}") as caught:
        catalogue().find(typed, "formula[2].ingredient")
    assert caught.value.field == "formula[2].ingredient"


def test_a_word_like_nothing_else_is_sent_to_the_list() -> None:
    with pytest.raises(InputError, match="`pellicle ingredients` lists every name"):
        catalogue().find("qqqq")


def test_no_name_at_all_is_refused() -> None:
    with pytest.raises(InputError, match="An ingredient has no name"):
        catalogue().find("  ", "meat.ingredient")


def test_a_filter_looks_at_names_groups_and_species() -> None:
    assert {found.group for found in catalogue().matching("vinegar")} >= {"vinegar"}
    assert {found.species for found in catalogue().matching("pork")} == {"pork"}
    assert len(catalogue().matching("")) == len(EVERY)


def test_an_own_ingredient_is_added() -> None:
    own = OwnIngredient("plum glaze", {"sucrose": 40, "citric acid": 1}, allergens=("sulphites",), source="recipe card")
    found = catalogue().with_own(own).find("Plum glaze")
    assert found.composition.solute("sucrose") == pytest.approx(0.40)
    assert found.composition.water == pytest.approx(0.59)
    assert (found.allergens, found.note) == (("sulphites",), "recipe card")
    assert "plum glaze" not in catalogue().ingredients


def test_an_own_row_for_a_cut_keeps_species_and_muscle() -> None:
    own = OwnIngredient("Beef Top Round", {"water": 74.0, "protein": 22.0, "fat": 2.9, "ash": 1.1})
    shelf = catalogue().with_own(own)
    found = shelf.find("inside round")
    assert (found.species, found.group, found.composition.muscle) == ("beef", "meat", pytest.approx(0.22))
    assert len(shelf.ingredients) == len(EVERY)


def test_an_own_name_that_was_an_alias_leaves_the_ingredient_it_pointed_to() -> None:
    shelf = catalogue().with_own(OwnIngredient("cure", {"salt": 99, "sodium nitrite": 1}))
    assert shelf.find("cure").composition.solute("sodium nitrite") == pytest.approx(0.01)
    assert shelf.find("curing salt").name == "curing salt"
