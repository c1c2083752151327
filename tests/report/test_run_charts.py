"""The linked charts of a passage: readable in grey, the same each time, whatever the steps and the credit."""

from __future__ import annotations

import dataclasses
import itertools
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
import runs_to_show
from runs_to_show import passage

from pellicle.answers.run_answer import Counted, RunAnswer
from pellicle.report.line_names import spread
from pellicle.report.run_chart import bands_of, pulled_at, run_chart
from pellicle.report.run_panels import axis_end, is_clipped
from pellicle.report.step_bands import NAME_GAP_MM, Band, tiers, wide_mm

LONG = (("warm", 40.0), ("smoke heavy with hickory until it has the colour", 90.0), ("dry", 1500.0), ("rest", 170.0))
SHORT = (*((f"step number {at}", 1.0) for at in range(5)), ("dry", 290.0), ("passed over", 0.0))
SHOWN = {
    "as usual": passage(),
    "pull not reached": runs_to_show.lighter(),
    "withheld": runs_to_show.withheld(),
    "no credit": passage(credit=0.0),
    "far over the target": passage(credit=2121.0),
    "one step": passage((("dry until pulled", 300.0),)),
    "thirty hours": passage(LONG),
    "very short steps": passage(SHORT),
    "many steps": passage(tuple((f"number {at}", 20.0) for at in range(14))),
    "half a minute": passage((("flash", 0.5),)),
    "counted twice": dataclasses.replace(passage(), counted=(Counted(20.0, 60.0), Counted(90.0, 117.0))),
    "never counted": dataclasses.replace(passage(credit=0.0), counted=()),
}  # fmt: skip


def drawn(answer: RunAnswer) -> str:
    return run_chart(answer, 188.0, 150.0).decode()


@pytest.mark.parametrize("name", SHOWN)
def test_is_a_picture_without_gaps(name: str) -> None:
    svg = drawn(SHOWN[name])
    assert ET.fromstring(svg).tag.endswith("svg")
    assert "nan" not in svg.lower()


def test_is_the_same_each_time_and_carries_no_date() -> None:
    first, second = drawn(passage()), drawn(passage())
    assert first == second
    assert "<dc:date>" not in first


def test_wet_bulb_differs_from_air_by_more_than_hue() -> None:
    slate = [path for path in drawn(runs_to_show.lighter()).split("<path") if "stroke: #35506b" in path]
    assert any("stroke-dasharray" in path for path in slate)
    assert any("stroke-dasharray" not in path for path in slate)


def test_what_does_not_count_is_hatched_and_what_counts_is_filled() -> None:
    always = dataclasses.replace(passage(), counted=(Counted(0.0, 350.0),))
    assert "pattern" in drawn(passage())
    assert "pattern" not in drawn(always)
    assert "fill: #dfd3d8" in drawn(always)
    assert "fill: #dfd3d8" not in drawn(runs_to_show.withheld())


def test_the_moment_of_the_pull_is_where_the_weight_comes_down_to_it() -> None:
    answer = passage()
    hour = pulled_at(answer)
    kg = np.array(answer.history.weight_percent_of_raw) * answer.raw_kg / 100
    assert np.interp(hour * 60, answer.history.minutes, kg) == pytest.approx(answer.pull_lightest_kg)
    assert pulled_at(runs_to_show.lighter()) is None


def test_dots_stand_on_the_curves_that_the_pull_decides() -> None:
    marker = re.search(r'<path id="(\w+)" d="M 0 2.5', drawn(passage()))
    assert drawn(passage()).count(f'"#{marker[1]}"') == 2  # weight, and mean water activity
    assert "M 0 2.5" not in drawn(runs_to_show.lighter())


def test_much_credit_ends_the_axis_at_three_times_the_target_and_is_said_to() -> None:
    much, some = passage(credit=2121.0), passage()
    assert (axis_end(much), is_clipped(much)) == (15.0, True)
    assert axis_end(some) > 13.9
    assert not is_clipped(some)
    assert axis_end(passage(credit=0.0)) > 5.0


def test_bands_follow_each_other_and_fill_the_time() -> None:
    bands = bands_of(passage())
    assert [band.name for band in bands] == ["warm", "moist cook", "smoke", "dry"]
    assert all(one.ended == two.began for one, two in itertools.pairwise(bands))
    assert bands[-1].ended == pytest.approx(350 / 60)


@pytest.mark.parametrize("steps", [LONG, SHORT, tuple((f"number {at}", 20.0) for at in range(14))])
def test_no_two_names_on_one_tier_touch(steps: tuple[tuple[str, float], ...]) -> None:
    bands = bands_of(passage(steps))
    hours = bands[-1].ended
    rows = tiers(bands, 140.0, hours, 178.0)
    for tier in set(rows):
        at = [band for band, row in zip(bands, rows, strict=True) if row == tier]
        for one, two in itertools.pairwise(at):
            assert two.began / hours * 140.0 - one.began / hours * 140.0 >= wide_mm(one.name) + NAME_GAP_MM - 1e-9


def test_names_that_fit_beside_each_other_stand_on_one_tier() -> None:
    assert tiers([Band("warm", 0.0, 2.0), Band("cook", 2.0, 4.0), Band("dry", 4.0, 8.0)], 140.0, 8.0, 178.0) == [
        0,
        0,
        0,
    ]


def test_labels_that_would_touch_move_apart_and_stay_inside() -> None:
    moved = spread([0.0, 0.2, 0.1, 30.0], 4.0, 1.0, 30.0)
    assert sorted(range(4), key=lambda at: moved[at]) == [0, 2, 1, 3]
    assert min(two - one for one, two in itertools.pairwise(sorted(moved))) >= 4.0 - 1e-9
    assert min(moved) >= 1.0
    assert max(moved) <= 30.0
