"""Nothing appears and nothing is lost: meat and solution are what is on the rack and what is poured away."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from invented import line, product
from pellicle.food.composition import CONSTITUENTS
from pellicle.food.ingredients import catalogue
from pellicle.formula.cure_figures import from_formula
from pellicle.formula.parts import Formula
from pellicle.formula.resolve import resolve
from pellicle.formula.rounding import limited, round_to_scale
from pellicle.formula.uptake import marinate
from pellicle.product import CureMethod, Uptake

shares = st.floats(0.0005, 0.4)


@st.composite
def formulas(draw: st.DrawFn) -> Formula:
    made = product(
        line("water", f"{100 * draw(shares):.6f} % of raw"),
        line("soy sauce", f"{100 * draw(shares):.6f} % of total"),
        line("brown sugar", f"{100 * draw(shares):.6f} % of solution"),
        line("curing salt", f"{100 * draw(shares):.6f} % of raw", nitrite="6.25 %"),
    )
    return resolve(made, catalogue(), raw_kg=draw(st.floats(0.1, 2000)))


@given(formulas())
def test_lines_and_meat_add_up_to_the_total(formula: Formula) -> None:
    assert sum(part.kg for part in formula.parts) == pytest.approx(formula.solution_kg)
    assert formula.raw_kg + formula.solution_kg == pytest.approx(formula.total_kg)
    assert formula.solution.total == pytest.approx(formula.solution_kg)


@given(formulas(), st.floats(0, 1))
def test_every_constituent_is_on_the_rack_or_poured_away(formula: Formula, taken: float) -> None:
    found = marinate(formula, Uptake(taken_share=taken))
    put_in = formula.meat.composition * formula.raw_kg + formula.solution
    after = found.composition + found.discarded
    for name in CONSTITUENTS:
        assert getattr(after, name) == pytest.approx(getattr(put_in, name))
    for name in put_in.solutes:
        assert after.solute(name) == pytest.approx(put_in.solute(name))


@given(formulas(), st.floats(0, 1))
def test_the_marinated_weight_is_the_weight_of_what_it_is_made_of(formula: Formula, taken: float) -> None:
    found = marinate(formula, Uptake(taken_share=taken))
    assert found.composition.total == pytest.approx(found.kg)
    assert found.low_kg <= found.kg <= found.high_kg


@given(formulas(), st.floats(0.01, 1))
def test_no_official_figure_passes_the_worst_case(formula: Formula, taken: float) -> None:
    pickup = taken * formula.solution_kg / formula.raw_kg
    for method in CureMethod:
        found = from_formula(formula, method, Uptake(pickup_share=pickup)).nitrite
        assert found.ingoing_ppm is not None
        assert found.worst_case_ppm is not None
        assert found.ingoing_ppm <= found.worst_case_ppm * (1 + 1e-9)


@given(formulas(), st.floats(0.01, 1))
def test_by_pickup_and_by_taken_share_are_one_sum(formula: Formula, taken: float) -> None:
    pickup = taken * formula.solution_kg / formula.raw_kg
    one = from_formula(formula, CureMethod.TUMBLED, Uptake(pickup_share=pickup)).nitrite.ingoing_ppm
    other = from_formula(formula, CureMethod.TUMBLED, Uptake(taken_share=taken)).nitrite.ingoing_ppm
    assert one == pytest.approx(other)


@given(formulas(), st.sampled_from([0.0001, 0.001, 0.005]))
def test_rounding_moves_a_line_by_half_a_division_and_never_lifts_a_limited_one(
    formula: Formula, division: float
) -> None:
    assume(all(part.kg >= division for part in formula.parts))  # a line that rounds to nothing is refused
    rounded = round_to_scale(formula, division).formula
    for exact, shown in zip(formula.parts, rounded.parts, strict=True):
        moved = shown.kg - exact.kg
        low, high = (-division, 0.0) if limited(exact) else (-division / 2, division / 2)
        dust = 1e-9 * exact.kg  # a mass this near a division counts as being on it
        assert low - dust - 1e-6 * division <= moved <= high + dust + 1e-6 * division
    assert rounded.total_kg == pytest.approx(rounded.raw_kg + sum(part.kg for part in rounded.parts))
    assert rounded.raw_kg == formula.raw_kg
