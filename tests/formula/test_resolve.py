"""Lines on their bases become masses, for any green weight or any total."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from invented import line, product
from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue
from pellicle.formula.resolve import Formula, resolve
from pellicle.product import Bag, CureMethod, Meat, MixtureLine, Product, Uptake


def weighed(made: Product, **weights: float) -> tuple[Formula, dict[str, float]]:
    formula = resolve(made, catalogue(), **weights)
    return formula, {each.line.ingredient: each.kg for each in formula.lines}


def refusal(made: Product, **weights: float) -> InputError:
    with pytest.raises(InputError) as caught:
        resolve(made, catalogue(), **weights)
    return caught.value


def test_lines_on_total_and_on_solution_are_solved_together() -> None:
    made = product(line("water", "10 % of raw"), line("salt", "2 % of total"), line("sucrose", "20 % of solution"))
    formula, kg = weighed(made)
    assert kg["water"] == pytest.approx(1.0)
    assert kg["salt"] == pytest.approx(0.02 * formula.total_kg)
    assert kg["sucrose"] == pytest.approx(0.20 * formula.solution_kg)


def test_a_weight_stands_for_the_green_weight_of_the_file() -> None:
    made = product(line("salt", "150 g"), line("water", "1 kg"), raw="10 kg")
    _, kg = weighed(made, raw_kg=40.0)
    assert kg == pytest.approx({"salt": 0.6, "water": 4.0})


def test_a_total_is_met_by_solving_for_the_meat() -> None:
    made = product(line("water", "10 % of raw"), line("salt", "2 % of total"))
    formula, kg = weighed(made, total_kg=50.0)
    assert formula.total_kg == pytest.approx(50.0)
    assert kg["salt"] == pytest.approx(1.0)
    assert formula.raw_kg == pytest.approx((50.0 - 1.0) / 1.1)


def test_a_cure_by_target_is_solved_from_its_strength() -> None:
    _, kg = weighed(product(line("curing salt", "150 ppm nitrite of raw", nitrite="6.25 %"), raw="100 kg"))
    assert kg["curing salt"] == pytest.approx(0.24)


def test_a_cure_by_target_that_is_tumbled_never_exceeds_it_however_much_is_taken_up() -> None:
    made = product(
        line("water", "10 %"),
        line("curing salt", "150 ppm nitrite of raw", nitrite="6.25 %"),
        raw="100 kg",
        cure_method=CureMethod.TUMBLED,
        uptake=Uptake(taken_share=0.9),
    )
    _, kg = weighed(made)
    assert kg["curing salt"] == pytest.approx(0.24)


def test_a_cure_by_target_that_is_injected_counts_the_pump() -> None:
    made = product(
        line("water", "19 %"),
        line("curing salt", "150 ppm nitrite of raw", nitrite="6.25 %"),
        cure_method=CureMethod.INJECTED,
        uptake=Uptake(pickup_share=0.15),
    )
    formula, kg = weighed(made)
    assert kg["curing salt"] * 0.0625 * 0.15 / formula.solution_kg == pytest.approx(150e-6)


def test_a_cure_by_target_in_a_pickle_counts_the_pickup() -> None:
    made = product(
        line("water", "40 % of raw"),
        line("curing salt", "120 ppm nitrite of raw", nitrite="6.25 %"),
        raw="100 kg",
        cure_method=CureMethod.IMMERSION_PICKUP,
        uptake=Uptake(pickup_share=0.10),
    )
    formula, kg = weighed(made)
    assert kg["curing salt"] * 0.0625 * 0.10 / formula.solution_kg == pytest.approx(120e-6)


def test_a_cure_by_target_in_a_long_immersion_counts_the_whole_system() -> None:
    made = product(
        line("water", "50 % of raw"),
        line("curing salt", "150 ppm nitrite of raw", nitrite="6.25 %"),
        cure_method=CureMethod.IMMERSION_WHOLE,
    )
    formula, kg = weighed(made)
    assert kg["curing salt"] * 0.0625 / formula.total_kg == pytest.approx(150e-6)


def test_a_target_in_a_pickle_of_unknown_pickup_is_refused() -> None:
    made = product(
        line("water", "40 % of raw"),
        line("curing salt", "120 ppm nitrite of raw", nitrite="6.25 %"),
        cure_method=CureMethod.IMMERSION_PICKUP,
    )
    assert "Give pickup or marinated under [uptake]" in str(refusal(made))


def test_a_mixture_opens_into_its_ingredients_with_the_cure_in_it() -> None:
    mixture = (MixtureLine("salt", 0.9), MixtureLine("curing salt", 0.1, nitrite_share=0.0625))
    made = product(line("house cure", "2.5 % of raw"), mixtures={"house cure": mixture}, raw="100 kg")
    formula, _ = weighed(made)
    assert [(part.ingredient.name, part.of_mixture) for part in formula.parts] == [
        ("salt", "house cure"),
        ("curing salt", "house cure"),
    ]
    assert formula.solution.solute("sodium nitrite") == pytest.approx(100 * 0.025 * 0.1 * 0.0625)


def test_mixtures_may_hold_mixtures() -> None:
    mixtures = {
        "inner": (MixtureLine("salt", 0.5), MixtureLine("sucrose", 0.5)),
        "outer": (MixtureLine("inner", 0.4), MixtureLine("black pepper", 0.6)),
    }
    formula, _ = weighed(product(line("outer", "10 % of raw"), mixtures=mixtures))
    assert [part.kg for part in formula.parts] == pytest.approx([0.2, 0.2, 0.6])


def test_a_mixture_may_be_weighed_by_the_nitrite_in_it() -> None:
    mixture = (MixtureLine("salt", 0.9), MixtureLine("curing salt", 0.1, nitrite_share=0.0625))
    made = product(line("house cure", "125 ppm nitrite of raw"), mixtures={"house cure": mixture}, raw="100 kg")
    formula, kg = weighed(made)
    assert kg["house cure"] == pytest.approx(2.0)
    assert formula.solution_kg == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("mixtures", "sentence"),
    [
        ({"a": (MixtureLine("b", 1.0),), "b": (MixtureLine("a", 1.0),)}, "leads back to itself: a -> b -> a"),
        ({"a": (MixtureLine("salt", 0.6), MixtureLine("sucrose", 0.3))}, "come to 90 %. They must come to 100 %"),
        ({"a": (MixtureLine("salt", 0.5), MixtureLine("table salt", 0.5))}, "salt stands twice in the mixture a"),
        ({"a": (MixtureLine("salt", 1.5), MixtureLine("sucrose", -0.5))}, "between 0 % and 100 %"),
        ({"a": ()}, "come to 0 %"),
    ],
)
def test_mixtures_that_cannot_be_made_are_refused(mixtures: dict[str, tuple[MixtureLine, ...]], sentence: str) -> None:
    assert sentence in str(refusal(product(line("a", "5 % of raw"), mixtures=mixtures)))


def test_bags_are_counted_by_the_meat_they_are_for() -> None:
    bag = Bag("smoky bag", 0.5, 10.0, 0.0, None, {"carbohydrate": 40.0, "sodium": 15.0}, ("salt", "sugar"))
    _, kg = weighed(product(line("smoky bag", "1 bag per 10 kg"), raw="40 kg", bags={"smoky bag": bag}))
    assert kg["smoky bag"] == pytest.approx(2.0)


def test_a_bag_without_its_weight_is_refused() -> None:
    bag = Bag("smoky bag", None, None, 0.0, None, {"carbohydrate": 40.0, "sodium": 15.0}, ("salt", "sugar"))
    error = refusal(product(line("smoky bag", "2 bags"), bags={"smoky bag": bag}))
    assert error.field == "bag.smoky bag.weight"
    assert "has no weight" in str(error)


def test_bags_of_something_that_is_no_bag_are_refused() -> None:
    assert "there is no [bag.salt]" in str(refusal(product(line("salt", "2 bags"))))


def test_an_inline_composition_is_meat() -> None:
    meat = Meat("house trim", 10.0, {"water": 70.0, "protein": 20.0, "fat": 9.0, "ash": 1.0})
    formula, _ = weighed(product(line("salt", "2 % of raw"), meat=meat))
    assert formula.meat.composition.muscle == pytest.approx(0.20)


@pytest.mark.parametrize(
    ("lines", "sentence"),
    [
        ((line("salt", "60 % of total"), line("water", "40 % of solution")), "come to 100 % together"),
        ((line("salt", "10 % of solution"),), "no other line says how much solution there is"),
        ((line("salt", "1 %"), line("table salt", "1 %")), "stands on line 1 and again on line 2"),
        ((line("salt", "150 ppm nitrite of raw"),), "it holds none by what is stated"),
        ((line("water", "31 kg"),), "water comes to 310 % of the meat's weight"),
    ],
)
def test_lines_that_cannot_be_weighed_out_are_refused(lines: tuple, sentence: str) -> None:
    assert sentence in str(refusal(product(*lines)))


def test_a_cure_without_its_strength_is_refused() -> None:
    error = refusal(product(line("salt", "2 %"), line("curing salt", "0.25 %", line=12)))
    assert (error.field, error.line) == ("formula[2].nitrite", 12)


def test_an_unknown_ingredient_is_refused_at_its_line() -> None:
    error = refusal(product(line("black peper", "1 %", line=7)))
    assert (error.field, error.line) == ("formula[1].ingredient", 7)
    assert "black pepper" in str(error)


def test_no_green_weight_asks_for_one() -> None:
    assert '--raw "40 lb"' in str(refusal(product(line("salt", "2 %"), raw=None)))


def test_a_weight_without_a_green_weight_asks_for_one() -> None:
    assert "for how much it is meant" in str(refusal(product(line("salt", "200 g"), raw=None), total_kg=5.0))


def test_two_weights_are_one_too_many() -> None:
    assert "Give one of them" in str(refusal(product(line("salt", "2 %")), raw_kg=1.0, total_kg=2.0))


@pytest.mark.parametrize("kg", [0.0, -1.0, float("nan"), float("inf")])
def test_an_impossible_weight_is_refused(kg: float) -> None:
    assert "cannot be weighed" in str(refusal(product(line("salt", "2 %")), raw_kg=kg))


def test_brine_strength_counts_hidden_salt() -> None:
    """Own arithmetic: 0.9375 of the cure is salt; 0.875 + 0.125 kg in 9 kg of water is a 10 % brine."""
    made = product(
        line("water", "9 kg"),
        line("salt", "0.875 kg"),
        line("curing salt", "0.1333333333 kg", nitrite="6.25 %"),
        raw="50 kg",
    )
    formula, _ = weighed(made)
    # table salt is 99.8 % sodium chloride
    assert formula.salt_kg == pytest.approx(1.0, rel=0.002)
    assert formula.hidden_salt_kg == pytest.approx(0.125)
    assert formula.brine_percent == pytest.approx(10.0, rel=0.002)


@given(
    st.floats(1.0, 5000), st.floats(0.0001, 0.5), st.floats(0.0001, 0.45), st.floats(0.0001, 0.45), st.floats(0.02, 100)
)
def test_scaling_keeps_every_share(
    raw: float, of_raw: float, of_total: float, of_solution: float, factor: float
) -> None:
    made = product(
        line("water", f"{100 * of_raw:.9f} % of raw"),
        line("salt", f"{100 * of_total:.9f} % of total"),
        line("sucrose", f"{100 * of_solution:.9f} % of solution"),
    )
    per_raw = (of_raw + of_total) / (1 - of_total - of_solution)
    if per_raw > 2.9:
        return
    one, many = resolve(made, catalogue(), raw_kg=raw), resolve(made, catalogue(), raw_kg=raw * factor)
    assert [part.kg * factor for part in one.parts] == pytest.approx([part.kg for part in many.parts])
    back = resolve(made, catalogue(), total_kg=one.total_kg)
    assert back.raw_kg == pytest.approx(raw)
