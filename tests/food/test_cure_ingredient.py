"""A cure's strength comes from its label, through its line, and from nowhere else."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.food.ingredients import can_carry_nitrite, catalogue, cure_ingredient, is_cure, needs_strength
from pellicle.product import OwnIngredient

CURE = catalogue().find("curing salt")
SLOW_CURE = catalogue().find("curing salt with nitrate")
CELERY = catalogue().find("celery powder")


def test_a_curing_salt_is_salt_but_for_its_nitrite() -> None:
    """Ordinary US strength: 93.75 % salt, 6.25 % sodium nitrite, as labels print it."""
    made = cure_ingredient(CURE, 0.0625).composition
    assert made.solutes == {"salt": pytest.approx(0.9375), "sodium nitrite": pytest.approx(0.0625)}


def test_a_slow_cure_holds_both() -> None:
    """89.75 % salt, 6.25 % sodium nitrite, 4 % sodium nitrate, as labels print it."""
    made = cure_ingredient(SLOW_CURE, 0.0625, 0.04).composition
    assert made.solute("salt") == pytest.approx(0.8975)
    assert made.solute("sodium nitrate") == pytest.approx(0.04)


def test_potassium_salts_stand_under_their_own_names() -> None:
    made = cure_ingredient(CURE, 0.005, potassium=True).composition
    assert made.solute("potassium nitrite") == pytest.approx(0.005)
    assert made.solute("sodium nitrite") == 0


@given(nitrite=st.floats(0.002, 0.5), nitrate=st.floats(0, 0.5))
def test_it_stays_a_kilogram(nitrite: float, nitrate: float) -> None:
    made = cure_ingredient(SLOW_CURE, nitrite, nitrate).composition
    assert made.total == pytest.approx(1)
    assert made.solute("sodium nitrite") == pytest.approx(nitrite)


@pytest.mark.parametrize("name", ["curing salt", "curing salt with nitrate", "cultured celery powder"])
def test_no_cure_comes_with_a_strength_of_our_own(name: str) -> None:
    found = catalogue().find(name)
    assert is_cure(found)
    assert needs_strength(found)
    with pytest.raises(InputError, match=r"stands without its strength.*it is never assumed"):
        cure_ingredient(found, None, field="formula[2].nitrite")


def test_a_slow_cure_must_state_its_nitrate_too() -> None:
    with pytest.raises(InputError, match=r"Give the percentage of nitrate on its label"):
        cure_ingredient(SLOW_CURE, 0.0625)


def test_a_cure_that_states_only_nitrate_is_asked_for_its_nitrite() -> None:
    with pytest.raises(InputError, match=r"Give the percentage of nitrite on its label"):
        cure_ingredient(CURE, None, 0.04)


def test_shares_over_the_whole_are_refused() -> None:
    with pytest.raises(InputError, match=r"nitrite and nitrate together are more than the whole"):
        cure_ingredient(SLOW_CURE, 0.6, 0.6)
    with pytest.raises(InputError, match=r"its share of nitrite is 6.25 kg per kg"):
        cure_ingredient(CURE, 6.25)


def test_a_percentage_typed_as_a_fraction_is_caught() -> None:
    """0.0625 % would let a hundred times the cure pass under the limit."""
    with pytest.raises(InputError, match=r"0.0625 % is far less than any curing salt holds"):
        cure_ingredient(CURE, 0.000625)


def test_a_pure_agent_takes_no_strength() -> None:
    pure = catalogue().find("sodium nitrite")
    assert not needs_strength(pure)
    assert cure_ingredient(pure, None) == pure
    with pytest.raises(InputError, match=r"holds 100 % sodium nitrite, but the line says 6.25 % sodium nitrite"):
        cure_ingredient(pure, 0.0625)


def test_an_own_cure_keeps_what_it_says() -> None:
    own = OwnIngredient("our cure", {"salt": 99.4, "sodium nitrite": 0.6}, group="cure")
    found = catalogue().with_own(own).find("our cure")
    assert is_cure(found)
    assert cure_ingredient(found, 0.006).composition == found.composition
    with pytest.raises(InputError, match=r"holds 0.6 % sodium nitrite, but the line says 0.9 %"):
        cure_ingredient(found, 0.009)


def test_what_is_no_cure_takes_no_nitrite() -> None:
    assert not can_carry_nitrite(catalogue().find("brown sugar"))
    with pytest.raises(InputError, match=r"'salt' is not a cure"):
        cure_ingredient(catalogue().find("salt"), 0.006)


def test_celery_powder_is_not_judged_until_its_line_says_what_it_holds() -> None:
    assert can_carry_nitrite(CELERY)
    assert (CELERY.nitrite_known, CELERY.nitrate_known) == (False, False)
    stated = cure_ingredient(CELERY, 0.0, 0.025)
    assert stated.nitrite_known
    assert stated.nitrate_known
    assert stated.composition.protein == pytest.approx(0.975 * CELERY.composition.protein)
