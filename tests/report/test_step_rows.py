"""The steps of a schedule on paper and on the terminal: both units, and blanks to write in where there is room."""

from __future__ import annotations

import dataclasses
import re

import plans_to_show
import pytest
from test_sheet import read_back

from pellicle.answers.plan_answer import PlanAnswer
from pellicle.answers.schedule_rows import ScheduleRow
from pellicle.report.document import plan_document
from pellicle.report.sheet import plan_pdf
from pellicle.report.step_rows import step_rows
from pellicle.report.terminal import plan_page

SCHEDULE = (
    ScheduleRow(
        "moist cook",
        62.0,
        plans_to_show.Words("wet bulb 57.5 °C / 135.5 °F"),
        plans_to_show.Words("reached over 10 min"),
        False,
        plans_to_show.Words("core at 60.0 °C / 140.0 °F"),
        plans_to_show.Words("at most 3 h"),
    ),
    ScheduleRow(
        "smoke", 66.0, plans_to_show.Words("damper 40 % open"), None, True, plans_to_show.Words("after 2 h"), None
    ),
)


def scheduled() -> PlanAnswer:
    return dataclasses.replace(plans_to_show.beef_strips(), schedule=SCHEDULE)


def test_a_step_says_air_humidity_smoke_and_end() -> None:
    first, second = step_rows(SCHEDULE)

    assert (first.celsius, first.fahrenheit) == ("62.0", "143.6")  # 62 x 9 / 5 + 32
    assert first.humidity == "wet bulb 57.5 °C / 135.5 °F; reached over 10 min"
    assert first.ends == "core at 60.0 °C / 140.0 °F, at most 3 h"
    assert (first.smoke, second.smoke) == ("no", "yes")


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_sheet_holds_the_steps_in_both_units(paper: str) -> None:
    said = read_back(plan_pdf(scheduled(), paper))

    assert re.search(r"moist cook\s+62.0\s+143.6\s", said)
    assert "wet bulb 57.5 °C / 135.5 °F" in " ".join(said.split())
    assert re.search(r"smoke\s+66.0\s+150.8\s+damper 40 % open\s+yes\s+after 2 h", said)


def test_the_sheet_has_room_to_write_when_steps_began_and_ended() -> None:
    assert re.search(r"ends\s+began\s+ended", read_back(plan_pdf(scheduled())))
    assert "began" not in read_back(plan_pdf(plans_to_show.beef_strips()))


def test_page_and_document_hold_the_steps_too() -> None:
    assert re.search(r"moist cook\s+62.0\s+143.6\s+wet bulb", plan_page(scheduled()))
    assert [step["name"] for step in plan_document(scheduled())["schedule"]] == ["moist cook", "smoke"]


def test_a_refused_plan_shows_no_weight_at_which_a_step_ends() -> None:
    refused = dataclasses.replace(plans_to_show.refused(), schedule=SCHEDULE)

    assert plan_document(refused)["schedule"] == []
    assert "moist cook" not in plan_page(refused)
