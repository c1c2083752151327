"""Every official figure for cure that goes in, from a formula and from plain weights."""

from __future__ import annotations

import pytest

from invented import line, product
from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue
from pellicle.formula.cure_figures import CureFigures, from_formula, from_numbers
from pellicle.formula.cure_limit import largest_lawful_kg
from pellicle.formula.ions import As
from pellicle.formula.resolve import resolve
from pellicle.formula.rounding import with_kg
from pellicle.product import Bag, CureMethod, MixtureLine, Product, Uptake

CURE = line("curing salt", "0.25 %", nitrite="6.25 %")


def figures(made: Product, method: CureMethod | None, finished_kg: float | None = None) -> CureFigures:
    return from_formula(resolve(made, catalogue()), method, made.uptake, finished_kg)


def test_a_rub_counts_on_the_green_weight() -> None:
    found = figures(product(line("salt", "2 %"), CURE), CureMethod.RUBBED)
    assert found.nitrite.ingoing_ppm == pytest.approx(156.25)
    assert found.nitrite.worst_case_ppm == pytest.approx(156.25)
    assert not found.liquids


def test_a_rub_with_liquid_names_it() -> None:
    found = figures(product(line("water", "5 %"), line("honey", "2 %"), line("black pepper", "1 %"), CURE), None)
    assert found.liquids == ("water", "honey")


def test_a_tumbled_cure_counts_in_full_while_the_uptake_is_unknown() -> None:
    found = figures(product(line("water", "10 %"), CURE), CureMethod.TUMBLED)
    assert found.nitrite.ingoing_ppm == pytest.approx(156.25)
    assert not found.pickup_known


@pytest.mark.parametrize("uptake", [Uptake(taken_share=0.8), Uptake(marinated_share=1 + 0.8 * 0.1025)])
def test_a_tumbled_cure_counts_what_was_taken_up_once_it_is_known(uptake: Uptake) -> None:
    found = figures(product(line("water", "10 %"), CURE, uptake=uptake), CureMethod.TUMBLED)
    assert found.nitrite.ingoing_ppm == pytest.approx(125.0)
    assert found.nitrite.worst_case_ppm == pytest.approx(156.25)


def test_an_immersion_shows_both_official_answers_and_the_worst_case() -> None:
    made = product(line("water", "47 %"), line("salt", "2 %"), line("curing salt", "1 %", nitrite="6.25 %"))
    found = from_formula(resolve(made, catalogue()), CureMethod.IMMERSION_PICKUP, Uptake(pickup_share=0.08))
    assert found.nitrite.ingoing_ppm == pytest.approx(625 * 0.08 / 0.5)
    assert found.nitrite.other_official_ppm == pytest.approx(625 / 1.5)
    assert found.nitrite.worst_case_ppm == pytest.approx(625)


def test_an_immersion_of_unknown_pickup_has_no_figure_by_pickup() -> None:
    made = product(line("water", "47 %"), line("curing salt", "1 %", nitrite="6.25 %"))
    found = figures(made, CureMethod.IMMERSION_PICKUP).nitrite
    assert found.ingoing_ppm is None
    assert found.other_official_ppm == pytest.approx(625 / 1.48)
    assert "cannot be made" in str(found.why_unknown)


def test_all_sources_of_nitrite_count() -> None:
    bag = Bag("smoky bag", 0.1, 10.0, 0.005, None, {"carbohydrate": 40.0, "sodium": 15.0}, ("salt", "sugar"))
    made = product(
        CURE,
        line("smoky bag", "1 %"),
        line("house cure", "0.5 %"),
        bags={"smoky bag": bag},
        mixtures={"house cure": (MixtureLine("salt", 0.9), MixtureLine("cure #2", 0.1, 0.0625, 0.04))},
    )
    found = figures(made, CureMethod.RUBBED)
    assert found.nitrite.ingoing_ppm == pytest.approx(156.25 + 50.0 + 31.25)
    assert found.nitrate.ingoing_ppm == pytest.approx(20.0)


def test_a_silent_label_makes_the_ingoing_nitrite_unknown() -> None:
    bag = Bag("smoky bag", 0.1, 10.0, None, None, {"carbohydrate": 40.0, "sodium": 15.0}, ("salt", "sugar"))
    found = figures(product(CURE, line("smoky bag", "1 %"), bags={"smoky bag": bag}), CureMethod.RUBBED).nitrite
    assert found.ingoing_ppm is None
    assert found.at_least_ppm == pytest.approx(156.25)
    assert "smoky bag" in str(found.why_unknown)


def test_vegetable_powder_of_unknown_nitrite_cannot_be_told() -> None:
    found = figures(product(line("celery powder", "0.4 %")), CureMethod.RUBBED)
    assert found.nitrite.ingoing_ppm is None


def test_the_undepleted_finished_figure_is_the_ingoing_one_on_less_weight() -> None:
    found = figures(product(CURE), CureMethod.RUBBED, finished_kg=5.0)
    assert found.nitrite.finished_ppm == pytest.approx(312.5)


def test_potassium_nitrite_is_expressed_as_sodium_and_as_the_ion() -> None:
    """KNO2 over NaNO2 is 1.2335, NO2 over KNO2 0.5406 (own arithmetic from molar masses)."""
    found = from_numbers(CureMethod.RUBBED, 100.0, 0.25, 0.0625, potassium=True).nitrite
    assert found.expressed(found.ingoing_ppm, As.WEIGHED) == pytest.approx(156.25)
    assert found.expressed(found.ingoing_ppm, As.SODIUM) == pytest.approx(156.25 / 1.2335, rel=1e-4)
    assert found.expressed(found.ingoing_ppm, As.ION) == pytest.approx(156.25 * 0.5406, rel=1e-4)


def test_the_arithmetic_stands_in_words() -> None:
    found = from_numbers(CureMethod.RUBBED, 100.0, 0.25, 0.0625, show=lambda kg: f"{kg:g} lb").nitrite
    assert [str(each) for each in found.arithmetic] == [
        "0.25 lb of cure at 6.25 % is 0.015625 lb of nitrite.",
        "0.015625 lb of nitrite over 100 lb of green weight = 156.25 ppm.",
    ]


@pytest.mark.parametrize(
    ("numbers", "field"),
    [
        ({"green_kg": 0.0}, "--meat"),
        ({"cure_kg": -1.0}, "--cure"),
        ({"nitrite_share": 6.25}, "--nitrite"),
        ({"method": CureMethod.IMMERSION_WHOLE}, "--pickle"),
        ({"pickle_kg": 0.1}, "--pickle"),
        ({"pickle_kg": 50.0, "pickup_share": 0.8}, "--pickup"),
    ],
)
def test_weights_that_cannot_be_are_refused(numbers: dict, field: str) -> None:
    good = {"method": CureMethod.INJECTED, "green_kg": 100.0, "cure_kg": 2.0, "nitrite_share": 0.0625}
    if "method" not in numbers:
        good["pickle_kg"] = 50.0
    with pytest.raises(InputError) as caught:
        from_numbers(**{**good, **numbers})
    assert caught.value.field == field
    assert str(caught.value)


@pytest.mark.parametrize(
    ("method", "uptake"),
    [
        (CureMethod.RUBBED, Uptake()),
        (CureMethod.TUMBLED, Uptake(taken_share=0.9)),
        (CureMethod.INJECTED, Uptake(pickup_share=0.15)),
        (CureMethod.IMMERSION_PICKUP, Uptake(pickup_share=0.10)),
        (CureMethod.IMMERSION_WHOLE, Uptake()),
    ],
)
def test_the_largest_lawful_amount_meets_the_limit_exactly(method: CureMethod, uptake: Uptake) -> None:
    made = product(line("water", "20 %"), line("curing salt", "4 %", nitrite="6.25 %"), uptake=uptake)
    formula = resolve(made, catalogue())
    before = from_formula(formula, method, uptake)
    most = largest_lawful_kg(before, before.sources[0], 200.0)
    assert most is not None
    after = from_formula(with_kg(formula, [formula.parts[0].kg, most]), method, uptake)
    assert after.nitrite.ingoing_ppm == pytest.approx(200.0)
