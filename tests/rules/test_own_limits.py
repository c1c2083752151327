"""The plant's own critical limits: read from its words, judged where they speak of what goes in."""

from __future__ import annotations

import pytest
from plain_products import a_cure, with_a_silent_bag

from pellicle.product import OwnLimit
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.limits import Bound
from pellicle.rules.own_limits import own_checks, read_limit
from pellicle.rules.verdict import Group, Verdict

CURED = PlanQuantities(
    cure=a_cure(150.0),
    salts_ppm=500.0,
    phosphate_share=0.003,
    pull_known=True,
    aw_at_pull=0.83,
    mpr_at_pull=1.05,
    salt_share=0.051,
    brine_share=0.115,
    pickup_share=0.08,
)


def judged(what: str, value: str, quantities: PlanQuantities = CURED):
    (check,) = own_checks([OwnLimit(what, value)], quantities)
    return check


@pytest.mark.parametrize(
    ("text", "bound", "number", "unit"),
    [
        ("at most 156 ppm", Bound.AT_MOST, 156.0, "ppm"),
        ("<= 200 ppm", Bound.AT_MOST, 200.0, "ppm"),
        ("≤200 ppm", Bound.AT_MOST, 200.0, "ppm"),
        ("max 0.85", Bound.AT_MOST, 0.85, ""),
        ("Max. 0.85", Bound.AT_MOST, 0.85, ""),
        ("0.85 or less", Bound.AT_MOST, 0.85, ""),
        ("no more than  0.75:1", Bound.AT_MOST, 0.75, ""),
        ("at least 10 %", Bound.AT_LEAST, 10.0, "%"),
        ("4% or more", Bound.AT_LEAST, 4.0, "%"),
        ("not less than 2,5 %", Bound.AT_LEAST, 2.5, "%"),
        (">= 4 percent", Bound.AT_LEAST, 4.0, "percent"),
    ],
)
def test_limits_are_read_as_people_write_them(text, bound, number, unit) -> None:
    read = read_limit(text)
    assert read is not None
    assert (read.bound, read.number, read.unit) == (bound, number, unit)


@pytest.mark.parametrize("text", ["at least 60 C for 40 min", "0.85", "as the plan says", "", "1.5 to 2.5 %"])
def test_what_is_not_one_number_with_its_side_is_not_guessed(text: str) -> None:
    assert read_limit(text) is None


@pytest.mark.parametrize(
    ("what", "value", "verdict"),
    [
        ("Ingoing nitrite", "at most 156 ppm", Verdict.MET),
        ("Ingoing nitrite", "at most 150 ppm", Verdict.MET),
        ("Ingoing nitrite", "at most 149.9 ppm", Verdict.NOT_MET),
        ("Ingoing nitrite", "below 150 ppm", Verdict.NOT_MET),
        ("nitrite", "at most 0.0156 %", Verdict.MET),
        ("nitrite", "at least 120 mg/kg", Verdict.MET),
        ("sodium erythorbate", "<= 547 ppm", Verdict.MET),
        ("Phosphate", "max 0.25 %", Verdict.NOT_MET),
    ],
)
def test_what_goes_in_is_judged_on_the_formula(what, value, verdict) -> None:
    assert judged(what, value).verdict is verdict


@pytest.mark.parametrize(
    ("what", "value"),
    [
        ("Water activity", "0.85 or less"),
        ("aw", "max 0.80"),
        ("moisture:protein ratio", "at most 0.75"),
        ("Brine strength", "at least 10 %"),
        ("salt", "at least 4 %"),
        ("pickup", "at most 10 %"),
    ],
)
def test_what_comes_out_waits_for_readings_whatever_the_plan_predicts(what, value) -> None:
    check = judged(what, value)
    assert check.verdict is Verdict.CANNOT_TELL
    assert check.value is not None
    assert "no reading" in str(check.why)


def test_a_plan_that_aims_past_the_plant_s_own_limit_is_told_so() -> None:
    assert "outside" in str(judged("aw", "max 0.80").why)
    assert "outside" not in str(judged("aw", "max 0.85").why)


@pytest.mark.parametrize("what", ["Wet bulb during cooking", "Residual nitrite", "Cooler temperature", "pH"])
def test_what_is_not_computed_is_left_to_the_batch(what: str) -> None:
    check = judged(what, "at most 200 ppm")
    assert (check.verdict, check.value) == (Verdict.CANNOT_TELL, None)
    assert "recorded on the batch" in str(check.why)


def test_a_silent_label_leaves_the_plant_s_nitrite_limit_open() -> None:
    check = judged("nitrite", "at most 200 ppm", PlanQuantities(cure=with_a_silent_bag(10.0)))
    assert check.verdict is Verdict.CANNOT_TELL


def test_own_limits_keep_the_plant_s_words_and_stand_in_their_own_group() -> None:
    limit = OwnLimit("Ingoing nitrite", "at most 156 ppm", "weigh sheet", "every batch")
    (check,) = own_checks([limit], CURED)
    assert check.group is Group.OWN
    assert check.clause == "weigh sheet; every batch"
    assert "at most 156 ppm" in str(check.why)
