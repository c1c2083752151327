"""What a user enters as an ingredient of his own: completed, normalised visibly, or refused in one sentence."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.food.own import own_ingredient
from pellicle.product import OwnIngredient


def refusal(per_100g: dict[str, float]) -> InputError:
    with pytest.raises(InputError) as caught:
        own_ingredient(OwnIngredient("mine", per_100g))
    return caught.value


def test_without_water_the_rest_is_water() -> None:
    made = own_ingredient(OwnIngredient("mine", {"salt": 10, "sucrose": 20}))
    assert made.composition.water == pytest.approx(0.70)
    assert made.normalised is None


def test_meat_that_adds_to_101_takes_water_as_the_balance() -> None:
    made = own_ingredient(OwnIngredient("mine", {"water": 73.0, "protein": 23.0, "fat": 4.0, "ash": 1.0}, group="meat"))
    assert made.composition.protein == pytest.approx(0.23)
    assert made.composition.muscle == pytest.approx(0.23)
    assert made.composition.water == pytest.approx(0.72)
    assert str(made.normalised).startswith("The figures add to 101.00 g per 100 g; water was taken as the balance")


def test_a_dry_thing_that_adds_to_98_is_scaled() -> None:
    made = own_ingredient(OwnIngredient("mine", {"water": 3, "salt": 50, "sucrose": 45}))
    assert made.composition.solute("salt") == pytest.approx(50 / 98)
    assert "each was multiplied by 1.0204" in str(made.normalised)


@given(salt=st.floats(0, 50), sucrose=st.floats(0, 40), protein=st.floats(0, 10))
def test_what_is_entered_stands_in_the_kilogram(salt: float, sucrose: float, protein: float) -> None:
    made = own_ingredient(OwnIngredient("mine", {"salt": salt, "sucrose": sucrose, "protein": protein})).composition
    assert made.total == pytest.approx(1)
    assert made.solute("salt") == pytest.approx(salt / 100, abs=1e-12)
    assert made.protein == pytest.approx(protein / 100, abs=1e-12)


@pytest.mark.parametrize("grams", [-1.0, math.nan, math.inf, 101.0])
def test_a_figure_that_cannot_be_is_refused(grams: float) -> None:
    error = refusal({"water": 50, "fat": grams})
    assert "fat is" in str(error)
    assert "0 to 100 must stand" in str(error)
    assert error.field == "ingredient.mine.fat"


def test_more_than_the_whole_is_refused() -> None:
    assert "the figures add to 115 g per 100 g, more than 102 g" in str(refusal({"water": 75, "protein": 40}))


def test_less_than_the_whole_with_water_is_refused() -> None:
    error = refusal({"water": 60, "sucrose": 20})
    assert "add to only 80 g per 100 g" in str(error)
    assert "leave water out if the rest is water" in str(error)


def test_a_typo_in_a_constituent_gets_near_matches() -> None:
    error = refusal({"protien": 20})
    assert "'protien' is neither a constituent nor a solute. Did you mean protein" in str(error)


def test_sodium_and_sugars_are_explained() -> None:
    assert "sodium times 2.54" in str(refusal({"sodium": 5}))
    assert "Name them: sucrose, glucose" in str(refusal({"sugars": 5}))


def test_a_syrup_of_any_dextrose_equivalent_is_known() -> None:
    made = own_ingredient(OwnIngredient("mine", {"glucose syrup DE 38": 80}))
    assert made.composition.solute("glucose syrup DE 38") == pytest.approx(0.80)


def test_nothing_given_is_refused() -> None:
    assert "says nothing of what it is made of" in str(refusal({}))


def test_a_density_of_nothing_is_refused() -> None:
    with pytest.raises(InputError, match="its density is 0 kg/m3"):
        own_ingredient(OwnIngredient("mine", {"salt": 1}, density_kg_m3=0.0))
