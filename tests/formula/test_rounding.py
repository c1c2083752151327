"""Amounts as the scale shows them, and the scale that is too coarse."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from invented import line, product
from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue
from pellicle.formula.parts import Formula
from pellicle.formula.resolve import resolve
from pellicle.formula.rounding import fitting_division_kg, round_down_kg, round_kg, round_to_scale
from pellicle.units.kinds import OUNCE_KG


def cured(raw: str = "10 kg") -> Formula:
    made = product(
        line("water", "10 %"), line("salt", "2 %"), line("curing salt", "0.253 %", nitrite="6.25 %"), raw=raw
    )
    return resolve(made, catalogue())


def test_the_printed_amounts_are_the_formula_that_is_checked() -> None:
    rounded = round_to_scale(cured(), 0.001)
    assert [part.kg for part in rounded.formula.parts] == pytest.approx([1.0, 0.2, 0.025])
    assert rounded.formula.solution_kg == pytest.approx(1.225)
    assert rounded.formula.total_kg == pytest.approx(11.225)


def test_a_coarse_scale_is_named_with_one_that_would_do() -> None:
    (cure,) = round_to_scale(cured(), 0.005).too_coarse
    assert cure.part.ingredient.name == "curing salt"
    assert cure.division_kg == 0.001
    assert "half a step is 9.9 % of it" in str(cure.message)
    assert "steps of 1 g would do" in str(cure.message)


def test_the_division_that_would_do_does() -> None:
    (cure,) = round_to_scale(cured(), 0.005).too_coarse
    assert not round_to_scale(cured(), cure.division_kg).too_coarse


def test_an_unknown_scale_rounds_nothing() -> None:
    formula = cured()
    assert round_to_scale(formula, None).formula is formula


@pytest.mark.parametrize("division", [0.0, -0.001, float("nan")])
def test_an_impossible_division_is_refused(division: float) -> None:
    with pytest.raises(InputError, match="must be a weight above zero"):
        round_to_scale(cured(), division)


def test_four_ounces_on_an_ounce_scale_stay_four_ounces() -> None:
    """They once lost the last digits of the ounce (28.349523125 g, its definition) and were printed as 3.99 oz."""
    assert round_kg(4 * OUNCE_KG, OUNCE_KG / 10) == pytest.approx(4 * OUNCE_KG, rel=1e-11)
    assert round_down_kg(4.04 * OUNCE_KG, OUNCE_KG / 10) == pytest.approx(4 * OUNCE_KG, rel=1e-11)


@given(st.floats(0, 1000), st.sampled_from([0.0001, 0.001, 0.002, 0.005, 0.01, 0.1, 0.02835]))
def test_rounding_moves_a_mass_by_half_a_division_at_most(kg: float, division: float) -> None:
    assert abs(round_kg(kg, division) - kg) <= division / 2 * (1 + 1e-6) + 1e-9 * kg


@given(st.floats(1e-6, 1000), st.sampled_from([0.02, 0.05]))
def test_the_fitting_division_is_the_largest_that_fits(kg: float, tolerance: float) -> None:
    division = fitting_division_kg(kg, tolerance)
    assert division / 2 <= tolerance * kg * (1 + 1e-6)
    assert division * 2.5 / 2 >= tolerance * kg * (1 - 1e-6)


def test_a_line_that_would_be_rounded_to_nothing_is_refused() -> None:
    with pytest.raises(InputError, match=r"steps of 300 g cannot weigh 25\.3 g of curing salt: it rounds to nothing"):
        round_to_scale(cured(), 0.3)
