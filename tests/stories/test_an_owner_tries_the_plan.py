"""What the owner of a small plant found on trying the plan: each was believed, and each could have done harm."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from pellicle.answers.plan import plan
from pellicle.answers.plan_answer import PlanAnswer
from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text, read_product

DAY = date(2026, 11, 25)
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
PLAIN = (EXAMPLES / "plain-pepper-strips.toml").read_text("utf-8")
BAG = (EXAMPLES / "ridge-venison-strips.toml").read_text("utf-8")


def planned(text: str, **how: float) -> PlanAnswer:
    return plan(product_from_text(text, "strips.toml", EXAMPLES), on=DAY, **how)


def changed(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new, 1)


def test_turkey_filed_as_beef_is_refused() -> None:
    """It was planned, and judged by the table for beef, which is too short for poultry."""
    with pytest.raises(InputError, match="the meat is turkey breast, which is turkey"):
        planned(changed(PLAIN, "beef top round", "turkey breast"))


def test_poultry_in_the_formula_makes_all_of_it_poultry() -> None:
    with_turkey = PLAIN + '\n[[formula]]\ningredient = "turkey breast"\namount = "5 % of raw"\n'
    with pytest.raises(InputError, match="Any poultry puts the whole product"):
        planned(with_turkey)


def test_the_plants_own_stricter_limit_moves_the_pull_weight() -> None:
    """The plan went on pulling for 0.85 and called it inside the plant's 0.80."""
    strict = planned(changed(PLAIN, 'value = "at most 0.85"', 'value = "at most 0.80"'))
    assert strict.pull.aw == 0.80
    assert strict.pull.kg < planned(PLAIN).pull.kg
    assert any("the plant's own limit" in str(fact) for fact in strict.facts)


def test_an_own_limit_on_something_else_does_not() -> None:
    other = changed(PLAIN, 'what = "water activity"\nvalue = "at most 0.85"', 'what = "MPR"\nvalue = "at most 0.75"')
    assert planned(other).pull.aw == 0.85


def test_a_bag_silent_on_nitrite_comes_before_any_weight() -> None:
    """It read 0.0 ppm in bold, under a headline that named a weight."""
    answer = planned(changed(BAG, 'nitrite = "0.3 %"\n', "").replace(', "sodium nitrite"', ""))
    assert str(answer.sentence).startswith("Weigh nothing out yet")
    assert answer.cure is None or answer.cure.ingoing_ppm is None


def test_rounding_to_the_scale_never_lifts_a_limited_ingredient() -> None:
    """7/8 oz of erythorbate per 100 lb, the lawful most, was rounded up over its limit and refused."""
    text = changed(PLAIN, 'raw = "84 kg"', 'raw = "100 lb"')
    text = changed(text, 'amount = "500 ppm of raw"', 'amount = "0.875 oz per 100 lb"')
    text = changed(text, 'division = "1 g"', 'division = "0.1 oz"')
    answer = planned(text)
    assert answer.refused is None
    assert next(line.kg for line in answer.lines if line.ingredient == "sodium erythorbate") < 0.875 * 0.0283495


def test_too_much_erythorbate_names_the_most_erythorbate() -> None:
    answer = planned(changed(PLAIN, 'amount = "500 ppm of raw"', 'amount = "700 ppm of raw"'))
    # 546.875 ppm (7/8 oz per 100 lb) of 84 kg is 45.9 g
    assert "The most of it for this batch is 45.9 g" in str(answer.refused)


def test_racks_of_another_batch_are_not_pulled_by_their_old_loads() -> None:
    answer = planned(PLAIN, raw_kg=18.0)
    assert all(rack.pull_kg is None and rack.loaded_kg is None for rack in answer.pull.racks)


def test_a_pickup_that_leaves_most_of_the_mix_is_questioned() -> None:
    """A mistyped amount made the cure look weaker, and nothing was said."""
    text = changed(PLAIN, 'taken_up = "96 %"', 'pickup = "4 % of raw"')
    assert any("mistyped" in str(fact) for fact in planned(text).facts)


def test_the_largest_lawful_cure_does_not_lean_on_a_stated_uptake() -> None:
    answer = planned(changed(PLAIN, 'amount = "150 ppm nitrite of raw"', 'amount = "0.38 % of raw"'))
    # 200 ppm of 84 kg at 6.25 % is 268.8 g, whatever share is said to be taken up
    assert answer.cure.largest_lawful_kg == pytest.approx(0.2688)


def test_amounts_that_do_not_settle_are_not_given() -> None:
    fixed = changed(PLAIN, 'taken_up = "96 %"', 'pickup = "14 % of raw"')
    other = read_product(EXAMPLES / "orchard-soft-strips.toml")
    found = plan(product_from_text(fixed, "strips.toml", EXAMPLES), on=DAY, like=other).like
    assert found.lines == ()
    assert any("did not settle" in str(note) for note in found.notes)


def test_a_lot_read_wet_at_the_pull_weight_is_the_first_thing_said() -> None:
    """A lot too far off to learn from was left out, and the same weight was printed again."""
    text = (EXAMPLES / "plain-pepper-strips.toml").read_text("utf-8")
    planned = plan(product_from_text(text, "strips.toml", EXAMPLES))
    lot = f'\n[[reading]]\nlot = "W-1"\nraw = "84 kg"\nout = "{planned.pull.kg:.2f} kg"\naw = [0.90, 0.88, 0.91]\n'

    answer = plan(product_from_text(text + lot + "standard_checked = true\n", "strips.toml", EXAMPLES))

    first = answer.checks[0]
    assert (first.id, first.verdict.value, first.value) == ("readings.wet.W-1", "not met", 0.91)
    assert "blocked" in str(answer.sentence)
    assert "Do not pull by it" in str(first.why)


def test_a_lot_read_under_the_limit_blocks_nothing() -> None:
    answer = plan(read_product(EXAMPLES / "glazed-loin-strips.toml"))

    assert not [check for check in answer.checks if check.id.startswith("readings.wet")]


def test_a_plan_with_a_schedule_asks_to_follow_the_house_first() -> None:
    answer = plan(read_product(EXAMPLES / "plain-pepper-strips.toml"))

    assert "let pellicle run follow the schedule" in str(answer.sentence)
