"""The terminal page of a plan: order, width, marks, and what it must never say."""

from __future__ import annotations

import dataclasses
import re

import plans_to_show
import pytest

from pellicle.report.terminal import plan_page

PLANS = sorted(plans_to_show.ALL)
COLOUR = re.compile(r"\x1b\[[0-9;]*m")


def page(name: str, **options: object) -> str:
    return plan_page(plans_to_show.ALL[name](), **options)  # type: ignore[arg-type]


def test_opens_with_the_sentence() -> None:
    lines = page("beef_strips").splitlines()
    assert lines[0].startswith("Pull at 52.3 kg (51.2 to 53.4); ")


@pytest.mark.parametrize("units", ["both", "metric", "us"])
@pytest.mark.parametrize("name", PLANS)
def test_keeps_to_its_width(name: str, units: str) -> None:
    assert max(len(line) for line in page(name, units=units).splitlines()) <= 100


@pytest.mark.parametrize("name", PLANS)
def test_says_nothing_a_program_would(name: str) -> None:
    said = page(name)
    assert not re.search(r"\b(None|nan|NaN|inf|Message|mappingproxy)\b|[{}]", said)


@pytest.mark.parametrize("name", PLANS)
def test_never_parts_a_number_from_its_unit(name: str) -> None:
    parted = re.compile(r"\d\n\s+(kg|lb|ppm|%|g|mm|min|°C)(\s|$)")
    assert not parted.search(page(name))


def test_follows_the_order_of_the_work() -> None:
    said = page("with_like")
    heads = ["FORMULA", "CURE", "HOUSE", "WEIGHT", "PULL", "YIELDS", "Like House", "CHECKS", "ASSUMED", "Rests on"]
    places = [said.index(f"\n{head}") for head in heads]
    assert places == sorted(places)


def test_weighs_the_meat_first_and_calls_it_green_weight() -> None:
    plan = plans_to_show.beef_strips()
    turned = dataclasses.replace(plan, lines=tuple(reversed(plan.lines)))
    lines = plan_page(turned).splitlines()
    first = lines[next(at for at, line in enumerate(lines) if line.startswith("FORMULA")) + 1]
    assert first.startswith("  beef top round, green weight")


def test_aligns_digits_on_the_decimal_point() -> None:
    lines = page("beef_strips").splitlines()
    rows = lines[lines.index(next(line for line in lines if line.startswith("FORMULA"))) + 1 :][:8]
    found = [[match.start() for match in re.finditer(r"(?<=\d)\.(?=\d)", row[30:52])] for row in rows]
    assert len({points[0] for points in found}) == 1
    assert len({points[1] for points in found if len(points) > 1}) == 1  # meat and water have no share at the pull


def test_gives_every_decimal_that_the_checks_were_made_for() -> None:
    said = page("beef_strips")
    assert re.search(r"curing salt, 6.25 % nitrite\s+0.24\s+[\d.]*\s+202 g\s", said)


def test_marks_verdicts_with_plain_characters_and_words() -> None:
    said = page("beef_strips")
    assert "[#] met " in said
    assert "[/] not met " in said
    assert "[:] cannot tell " in said


def test_puts_own_limits_first_and_what_blocks_nothing_last() -> None:
    said = page("beef_strips")
    assert said.index("your own limits") < said.index("  rules\n") < said.index("for information, blocking nothing")


def test_puts_a_caution_where_its_hazard_is() -> None:
    said = page("beef_strips")
    assert said.index("\nCURE") < said.index("! Weigh cure on a scale") < said.index("\nHOUSE")
    assert said.index("\nPULL") < said.index("! Water activity 0.85 stops growth") < said.index("\nYIELDS")


def test_weights_above_the_pull_are_too_wet_and_below_it_are_not() -> None:
    table = page("beef_strips").split("\nWEIGHT")[1].split("\n\n")[0].splitlines()[1:]
    at_pull = next(at for at, line in enumerate(table) if line.startswith("  pull "))
    assert all("too wet" in line for line in table[:at_pull])
    assert not any("too wet" in line for line in table[at_pull:])


def test_shows_at_most_nine_weights_with_every_marked_one() -> None:
    table = page("beef_strips").split("\nWEIGHT")[1].split("\n\n")[0].splitlines()[1:]
    assert 7 <= len(table) <= 9
    assert any("named jerky from here" in line for line in table)


def test_an_aim_is_never_rounded_to_the_wetter_side() -> None:
    plan = plans_to_show.beef_strips()
    pull = dataclasses.replace(plan.pull, batch_mean_aw=0.8289, reading_at_most=0.8219)
    said = plan_page(dataclasses.replace(plan, pull=pull))
    assert "batch mean of aw 0.82." in said
    assert "at most 0.821" in said


def test_says_why_no_weight_can_be_named() -> None:
    assert "No weight can be named for aw 0.50. Even with nearly all water gone" in page("out_of_reach")


def test_says_when_nothing_cures() -> None:
    assert "No nitrite or nitrate is added." in page("without_cure")


def test_a_rack_not_weighed_has_its_percentage_and_no_weight() -> None:
    rack = next(line for line in page("with_racks").splitlines() if line.startswith("  rack 2"))
    assert rack.split()[2:] == ["2.10", "not", "weighed", "-", "-", "49.6"]


def test_refused_shows_the_finding_and_the_largest_lawful_amount() -> None:
    said = page("refused")
    assert "[/] not met: 312.5 ppm of sodium nitrite" in said
    assert "largest lawful amount of this cure for this batch is 268.80 g (9.481 oz)" in said


def test_refused_says_the_largest_lawful_amount_once() -> None:
    plan = plans_to_show.refused()
    refused = plans_to_show.Words("Nothing is weighed out. The most of this cure is 268.80 g (9.481 oz).")
    said = plan_page(dataclasses.replace(plan, refused=refused, sentence=refused))
    assert said.count("268.80 g (9.481 oz)") == 1


def test_refused_shows_no_amount_to_weigh() -> None:
    said = page("refused")
    held_back = ["10.08", "6.72", "2.52", "1.60", "0.202", "84.00", "185.19", "52.3", "105.4", "2.36 %"]
    assert [amount for amount in held_back if amount in said] == []
    assert "FORMULA" not in said
    assert "WEIGHT" not in said


def test_colour_comes_only_when_asked_and_carries_nothing_alone() -> None:
    plain, coloured = page("beef_strips"), page("beef_strips", colour=True)
    assert not COLOUR.search(plain)
    assert COLOUR.search(coloured)
    assert COLOUR.sub("", coloured) == plain


def test_units_choose_the_columns() -> None:
    metric, us = page("beef_strips", units="metric"), page("beef_strips", units="us")
    assert re.search(r"FORMULA\s+% of raw\s+% at pull\s+metric\n", metric)
    assert re.search(r"FORMULA\s+% of raw\s+% at pull\s+US\n", us)


def test_a_name_cannot_repaint_the_terminal() -> None:
    assert "\x1b" not in page("hostile")


def test_counts_the_sources_that_are_to_be_verified() -> None:
    last = page("beef_strips").splitlines()[-1]
    assert last.startswith("Rests on 3 sources, 1 of them from memory or common practice and to be verified")
