"""Unit bags of undisclosed seasoning, read off their label: balances, what stays open, and what contradicts itself."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue, cure_ingredient
from pellicle.food.label import bag_ingredient
from pellicle.food.label_order import expected_share
from pellicle.product import Bag

PANEL = {"protein": 3.0, "fat": 1.0, "carbohydrate": 55.0, "sugars": 48.0, "fibre": 3.0, "sodium": 13.0}
ORDER = ("sugar", "salt", "spices", "garlic powder", "sodium nitrite")
BAG = Bag("smoky bag", 1.0, 20.0, 0.005, None, PANEL, ORDER)
SODIUM, SALT, NITRITE = 22.98977, 58.443, 68.995  # g/mol


def remarks(bag: Bag) -> str:
    return " ".join(str(remark) for remark in bag_ingredient(bag).remarks)


@given(
    sodium=st.floats(2, 15),
    sugars=st.floats(0, 30),
    starch=st.floats(0, 15),
    nitrite=st.one_of(st.just(0.0), st.floats(0.0004, 0.02)),
    protein=st.floats(0, 5),
)
def test_the_bag_adds_up_and_the_panels_sodium_is_all_there(
    sodium: float, sugars: float, starch: float, nitrite: float, protein: float
) -> None:
    panel = {"protein": protein, "fat": 0.5, "carbohydrate": sugars + starch, "sugars": sugars, "sodium": sodium}
    made = bag_ingredient(replace(BAG, per_100g=panel, nitrite_share=nitrite)).composition
    held = made.solute("salt") / SALT * SODIUM + made.solute("sodium nitrite") / NITRITE * SODIUM
    assert made.total == pytest.approx(1)
    assert held == pytest.approx(sodium / 100, rel=1e-4)
    assert made.solute("sucrose") + made.carbohydrate == pytest.approx((sugars + starch) / 100)


def test_declared_nitrite_is_in_it_and_known() -> None:
    made = bag_ingredient(BAG)
    assert made.composition.solute("sodium nitrite") == pytest.approx(0.005)
    assert (made.nitrite_known, made.nitrate_known) == (True, True)
    assert made.label == "sugar, salt, spices, garlic powder, sodium nitrite"


def test_a_silent_label_leaves_the_cure_open() -> None:
    silent = replace(BAG, nitrite_share=None)
    assert not bag_ingredient(silent).nitrite_known
    assert "the cure cannot be judged" in remarks(silent)


def test_no_nitrite_beside_a_list_that_names_it_leaves_the_cure_open() -> None:
    none = replace(BAG, nitrite_share=0.0)
    assert not bag_ingredient(none).nitrite_known
    assert "its list names a source of it" in remarks(none)


def test_no_nitrite_beside_a_list_without_it_is_known() -> None:
    plain = replace(BAG, nitrite_share=0.0, order=("sugar", "salt", "spices"))
    assert bag_ingredient(plain).nitrite_known


def test_vegetable_powder_leaves_nitrate_open() -> None:
    natural = replace(BAG, order=("sugar", "salt", "cultured celery powder"))
    assert not bag_ingredient(natural).nitrate_known
    assert bag_ingredient(natural).allergens == ("celery",)


def test_a_line_can_state_what_the_label_did_not() -> None:
    shelf = catalogue().with_bags(replace(BAG, nitrite_share=None))
    stated = cure_ingredient(shelf.find("smoky bag"), 0.004)
    assert stated.nitrite_known
    assert stated.composition.solute("sodium nitrite") == pytest.approx(0.004)
    assert stated.composition.total == pytest.approx(1)


def test_sugars_that_the_list_names_are_divided_by_its_order() -> None:
    two = bag_ingredient(replace(BAG, order=("sugar", "salt", "dextrose", "spices")))
    assert two.composition.solute("sucrose") == pytest.approx(0.75 * 0.48)
    assert two.composition.solute("glucose") == pytest.approx(0.25 * 0.48)
    assert "36 g sucrose, 12 g glucose" in str(two.remarks[0])


def test_the_less_a_label_says_the_wider_its_spread() -> None:
    one = bag_ingredient(BAG).spread["sucrose"]
    two = bag_ingredient(replace(BAG, order=("sugar", "salt", "dextrose"))).spread["sucrose"]
    none = bag_ingredient(replace(BAG, order=("seasoning", "salt"))).spread["sucrose"]
    unpanelled = bag_ingredient(replace(BAG, per_100g={"protein": 3.0, "fat": 1.0, "sodium": 13.0}))
    assert 0 < one < two < none < unpanelled.spread["sucrose"]
    assert unpanelled.spread["salt"] == one


def test_without_sodium_salt_is_taken_from_the_order_and_said() -> None:
    bag = replace(BAG, per_100g={"protein": 3.0, "fat": 1.0, "carbohydrate": 55.0, "sugars": 48.0})
    made = bag_ingredient(bag)
    assert made.composition.solute("salt") == pytest.approx(expected_share(1, 5), rel=0.02)
    assert made.spread["salt"] == 0.5
    assert "lacks sodium" in remarks(bag)


def test_a_bag_that_says_nothing_is_refused() -> None:
    with pytest.raises(InputError, match=r"gives neither sodium .* nor an ingredient list"):
        bag_ingredient(replace(BAG, per_100g={"protein": 3.0}, order=()))


def test_syrup_solids_dissolve_and_starch_does_not() -> None:
    syrup = bag_ingredient(replace(BAG, order=("sugar", "salt", "corn syrup solids")))
    assert syrup.composition.solute("glucose syrup DE 28") == pytest.approx(0.04)
    assert syrup.composition.carbohydrate == pytest.approx(0.03)
    assert bag_ingredient(BAG).composition.carbohydrate == pytest.approx(0.07)


def test_what_no_line_explains_binds_no_water_and_is_said() -> None:
    bag = replace(BAG, per_100g={**PANEL, "carbohydrate": 20.0, "sugars": 15.0})
    assert bag_ingredient(bag).composition.ash > 0.3
    assert "stand in no line of its panel" in remarks(bag)


@pytest.mark.parametrize(
    ("order", "sugars", "said"),
    [
        (("sugar", "salt"), 48.0, False),
        (("sugar", "salt"), 20.0, True),
        (("salt", "sugar"), 48.0, True),
        (("salt", "sugar"), 20.0, False),
        (("salt", "sugar", "dextrose"), 48.0, False),
    ],
)
def test_an_order_that_contradicts_the_panel_is_said(order: tuple[str, ...], sugars: float, said: bool) -> None:
    bag = replace(BAG, nitrite_share=0.0, order=order, per_100g={**PANEL, "sugars": sugars})
    assert ("Read the label again" in remarks(bag)) == said


def test_salt_on_the_panel_is_as_good_as_sodium() -> None:
    salt = {**{line: grams for line, grams in PANEL.items() if line != "sodium"}, "salt": 13.0 * SALT / SODIUM}
    assert bag_ingredient(replace(BAG, per_100g=salt)).composition.solute("salt") == pytest.approx(
        bag_ingredient(BAG).composition.solute("salt")
    )


def test_names_of_sodium_salts_are_said() -> None:
    bag = replace(BAG, order=("salt", "monosodium glutamate", "sugar"))
    assert "names monosodium glutamate; their sodium counts as salt" in remarks(bag)


@pytest.mark.parametrize(
    ("panel", "sentence"),
    [
        ({"sodium": 13000.0}, "sodium is 13000 g per 100 g, but pure salt holds 39.3 g. Panels print mg"),
        ({"carbohydrates": 20.0, "sugars": 30.0}, "sugars are 30 g, more than the 20 g of carbohydrate"),
        ({"salt": 30.0, "sodium": 2.0}, "salt is 30 g, but 2 g of sodium make 5.08 g of salt"),
        ({"protien": 3.0}, "'protien' is no line of a nutrition panel. Did you mean protein?"),
        ({"fat": -1.0}, "fat is -1 g per 100 g"),
        ({"protein": 60.0, "carbohydrate": 60.0, "salt": 0.0}, "adds to 120"),
    ],
)
def test_a_panel_that_cannot_be_is_refused(panel: dict[str, float], sentence: str) -> None:
    with pytest.raises(InputError, match=sentence) as caught:
        bag_ingredient(replace(BAG, per_100g=panel, nitrite_share=0.0, order=()))
    assert caught.value.field.startswith("bag.smoky bag")


def test_the_shares_of_a_list_in_falling_order_add_to_the_whole() -> None:
    shares = [expected_share(place, 7) for place in range(7)]
    assert sum(shares) == pytest.approx(1)
    assert shares == sorted(shares, reverse=True)
