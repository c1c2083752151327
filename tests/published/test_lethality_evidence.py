"""Worked examples of the 2021 cooking guideline on challenge studies and repeated cooks."""

from __future__ import annotations

from agreement import agrees
from pellicle.rules.lethality_check import MOST_COME_UP_S
from pellicle.rules.lethality_evidence import challenge_bound_log, warming_hours


def test_the_strongest_rule_on_a_challenge_study() -> None:
    """Mean 6.2, SD 0.5, target 5: 5.23."""
    assert agrees(challenge_bound_log(6.2, 0.5), "5.23")


def test_a_failed_cook_and_its_repetition_add_up() -> None:
    """2 h and 4.5 h between 50 and 130 F are 6.5 h, over six; if the first was lethal only 4.5 h count."""
    assert warming_hours([(2.0, False), (4.5, True)]) * 3600 > MOST_COME_UP_S
    assert warming_hours([(2.0, True), (4.5, True)]) * 3600 <= MOST_COME_UP_S
