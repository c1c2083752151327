"""The chart of water activity against weight."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import plans_to_show
import pytest

from pellicle.report.chart import aw_chart

SHOWN = sorted(set(plans_to_show.ALL) - {"refused"})


@pytest.mark.parametrize("name", SHOWN)
def test_is_a_picture_without_gaps(name: str) -> None:
    drawn = aw_chart(plans_to_show.ALL[name]())
    assert ET.fromstring(drawn).tag.endswith("svg")
    assert b"nan" not in drawn.lower()


def test_is_the_same_each_time_and_carries_no_date() -> None:
    first, second = aw_chart(plans_to_show.beef_strips()), aw_chart(plans_to_show.beef_strips())
    assert first == second
    assert b"<dc:date>" not in first


def test_lines_differ_by_style_and_not_by_hue_alone() -> None:
    drawn = aw_chart(plans_to_show.beef_strips()).decode()
    dashed = [line for line in drawn.split("<path") if "stroke-dasharray" in line and "#0f6a6a" in line]
    solid = [line for line in drawn.split("<path") if "stroke-dasharray" not in line and "#0f6a6a" in line]
    assert dashed
    assert solid


def test_has_no_pull_where_there_is_none() -> None:
    with_pull = aw_chart(plans_to_show.beef_strips())
    without = aw_chart(plans_to_show.out_of_reach())
    assert with_pull.count(b"#23201c") > without.count(b"#23201c")
