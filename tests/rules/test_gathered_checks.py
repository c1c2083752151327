"""All checks of a plan together: their order, and what they allow to be weighed."""

from __future__ import annotations

import pytest
from plain_products import TODAY, a_cure, a_product

from pellicle.errors import InputError
from pellicle.product import CureMethod, OwnLimit, PlantPlan, Storage
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.gather import blocks_weighing, checks, refuse_over_twice
from pellicle.rules.situation import situation_of
from pellicle.rules.verdict import Group, Verdict

OWN = PlantPlan(
    limits=(OwnLimit("Ingoing nitrite", "at most 156 ppm"), OwnLimit("Wet bulb", "at least 60 C for 40 min"))
)


def found(ppm: float, product=None, **quantities):
    given = PlanQuantities(cure=a_cure(ppm), pull_known=True, aw_at_pull=0.83, mpr_at_pull=1.0, **quantities)
    return checks(product or a_product(plan=OWN, name_class="jerky"), given, TODAY)


def test_the_plant_s_own_limits_stand_first_and_information_last() -> None:
    groups = [check.group for check in found(150.0)]
    assert groups[0] is Group.OWN
    assert groups == sorted(groups, key=list(Group).index)


def test_in_a_group_what_is_not_met_stands_first() -> None:
    rules = [check.verdict for check in found(250.0) if check.group is Group.RULE]
    assert rules == sorted(rules, key=list(Verdict).index)
    assert rules[0] is Verdict.NOT_MET


def test_a_plan_never_meets_everything_from_predictions() -> None:
    waiting = {check.id for check in found(150.0) if check.verdict is Verdict.CANNOT_TELL and check.blocking}
    assert {"aw.limit", "lethality", "own.2"} <= waiting


def test_ids_are_unique() -> None:
    ids = [check.id for check in found(150.0, salts_ppm=400.0, acids_ppm=400.0, phosphate_share=0.01)]
    assert len(ids) == len(set(ids))


def test_over_a_cure_limit_nothing_is_to_be_weighed_and_the_sentence_names_it() -> None:
    assert blocks_weighing(found(200.0)) is None
    refused = blocks_weighing(found(201.0))
    assert refused is not None
    assert "Nitrite that goes in" in str(refused)


def test_too_much_phosphate_blocks_and_too_little_nitrite_does_not() -> None:
    assert blocks_weighing(found(150.0, phosphate_share=0.006)) is not None
    cold = a_product(storage=Storage.REFRIGERATED)
    below = found(100.0, cold)
    assert any(check.id == "cure.nitrite_minimum" and check.verdict is Verdict.NOT_MET for check in below)
    assert blocks_weighing(below) is None


def test_what_cannot_be_told_does_not_block_weighing() -> None:
    assert blocks_weighing(found(150.0, a_product(jurisdiction="jp"))) is None


def test_rubbed_meat_with_any_liquid_is_judged_as_in_solution() -> None:
    product = a_product(cure_method=CureMethod.RUBBED)
    wet = PlanQuantities(cure=a_cure(400.0, CureMethod.RUBBED, pickle_kg=8.0))
    dry = PlanQuantities(cure=a_cure(400.0, CureMethod.RUBBED))
    assert blocks_weighing(checks(product, wet, TODAY)) is not None
    assert blocks_weighing(checks(product, dry, TODAY)) is None


def test_twice_the_limit_is_refused_before_anything_is_said() -> None:
    situation = situation_of(a_product(), TODAY, added_liquid=False)
    with pytest.raises(InputError, match="more than twice"):
        refuse_over_twice(situation, PlanQuantities(cure=a_cure(1500.0)))
    refuse_over_twice(situation, PlanQuantities())


def test_the_same_product_on_another_day_meets_other_rules() -> None:
    product = a_product(jurisdiction="eu")
    given = PlanQuantities(cure=a_cure(130.0))
    assert blocks_weighing(checks(product, given, TODAY.replace(year=2025))) is None
    assert blocks_weighing(checks(product, given, TODAY)) is not None
