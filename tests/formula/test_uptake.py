"""What goes into the meat, what is poured away, and what is not known of it."""

from __future__ import annotations

import numpy as np
import pytest

from invented import line, product
from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue
from pellicle.formula.parts import Formula
from pellicle.formula.resolve import resolve
from pellicle.formula.uptake import composition_at, marinate
from pellicle.product import CureMethod, Uptake


def marinade() -> Formula:
    return resolve(product(line("water", "16 %"), line("salt", "2 %"), line("sucrose", "2 %")), catalogue())


def rub() -> Formula:
    return resolve(product(line("salt", "2 %"), line("black pepper", "1 %")), catalogue())


@pytest.mark.parametrize("uptake", [Uptake(marinated_share=1.15), Uptake(pickup_share=0.15), Uptake(taken_share=0.75)])
def test_weighed_stated_and_taken_are_three_ways_to_say_the_same(uptake: Uptake) -> None:
    found = marinate(marinade(), uptake)
    assert found.taken_share == pytest.approx(0.75)
    assert found.kg == pytest.approx(11.5)
    assert found.known


def test_what_is_poured_away_leaves_with_its_solutes() -> None:
    found = marinate(marinade(), Uptake(taken_share=0.75))
    assert found.discarded.solute("salt") == pytest.approx(0.25 * marinade().salt_kg)
    assert found.discarded.total == pytest.approx(0.5)


def test_the_doubt_of_a_weighing_is_a_share_of_the_green_weight() -> None:
    """Own arithmetic: 1 % of 10 kg over 2 kg of solution is 5 % of the solution."""
    assert marinate(marinade(), Uptake(pickup_share=0.15)).sd == pytest.approx(0.05)


def test_an_unknown_uptake_is_a_range() -> None:
    found = marinate(marinade(), Uptake(), overrides={"unknown_taken_low": 0.6})
    assert (found.low, found.high, found.known) == (0.6, 1.0, False)
    assert found.low_kg == pytest.approx(11.2)
    assert "from 60 % to 100 %" in str(found.how)


def test_an_unknown_immersion_takes_up_a_share_of_the_meat() -> None:
    made = product(line("water", "90 %"), line("salt", "10 %"))
    found = marinate(resolve(made, catalogue()), Uptake(), CureMethod.IMMERSION_WHOLE)
    assert (found.low, found.high, found.known) == (pytest.approx(0.02), pytest.approx(0.20), False)


def test_an_immersion_says_what_it_leaves_out() -> None:
    (note,) = marinate(marinade(), Uptake(pickup_share=0.1), CureMethod.IMMERSION_WHOLE).notes
    assert "holds more of them" in str(note)
    assert not marinate(marinade(), Uptake(pickup_share=0.1), CureMethod.TUMBLED).notes


def test_a_rub_is_all_taken_up() -> None:
    found = marinate(rub(), Uptake(), CureMethod.RUBBED)
    assert (found.taken_share, found.sd, found.known) == (1.0, 0.0, True)


def test_meat_without_anything_added_stays_what_it_is() -> None:
    found = marinate(resolve(product(), catalogue()), Uptake(marinated_share=1.0))
    assert found.kg == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("uptake", "field", "sentence"),
    [
        (Uptake(pickup_share=0.30), "uptake.pickup", "but only 20 % of raw is added"),
        (Uptake(marinated_share=1.30), "uptake.marinated", "reads 130 % of raw"),
        (Uptake(marinated_share=0.95), "uptake.marinated", "less than it weighed raw"),
        (Uptake(pickup_share=-0.05), "uptake.pickup", "cannot take up less than nothing"),
        (Uptake(taken_share=1.2), "uptake.taken_up", "between 0 % and 100 %"),
        (Uptake(pickup_share=float("nan")), "uptake.pickup", "cannot take up less than nothing"),
    ],
)
def test_an_uptake_that_cannot_be_is_refused(uptake: Uptake, field: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        marinate(marinade(), uptake)
    assert caught.value.field == field
    assert sentence in str(caught.value)


def test_a_scale_that_reads_a_little_over_everything_is_believed() -> None:
    assert marinate(marinade(), Uptake(marinated_share=1.205)).taken_share == 1.0


def test_draws_come_out_as_single_numbers_do() -> None:
    formula, shares = marinade(), np.array([0.5, 0.8, 1.0])
    together = composition_at(formula, formula.meat.composition, shares)
    one_by_one = [composition_at(formula, formula.meat.composition, share) for share in shares]
    np.testing.assert_allclose(together.water, [each.water for each in one_by_one])
    np.testing.assert_allclose(together.solute("salt"), [each.solute("salt") for each in one_by_one])
