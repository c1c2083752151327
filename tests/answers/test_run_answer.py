"""The passage through the house: steps, end, credit and spread agree with each other, and a simulation releases
nothing."""

from __future__ import annotations

import itertools
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from pellicle.answers.run import run
from pellicle.answers.run_answer import RunAnswer
from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text, read_product

DAY = date(2026, 11, 25)
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
NAMED = {path.stem: path for path in EXAMPLES}


@cache
def example(name: str, pieces: int = 0) -> RunAnswer:
    return run(read_product(NAMED[name]), pieces=pieces, on=DAY)


@pytest.mark.parametrize("name", NAMED)
def test_every_example_reaches_its_end_and_closes_its_balances(name: str):
    answer = example(name)

    assert answer.problem is None
    assert sum(step.minutes for step in answer.steps) == pytest.approx(60 * answer.end.hours, abs=0.01)
    assert max(abs(miss) for miss in answer.balances.values()) < 1e-9


@pytest.mark.parametrize("name", NAMED)
def test_a_simulation_never_meets_anything(name: str):
    lethal = [check for check in example(name).checks if check.id.startswith(("lethality", "growth"))]

    assert lethal
    assert all(check.verdict != "met" for check in lethal)


def test_water_at_the_end_is_what_the_losses_leave():
    answer = example("plain-pepper-strips")

    water_kg = answer.end.kg * answer.end.moisture_percent / 100
    dry_kg = answer.end.kg - water_kg
    # raw 84 kg of beef top round holds 84 x (23.59 + 2.94 + 1.12) % of dry matter (Release 28, NDB 23354)
    assert dry_kg > 84 * 0.2765
    assert answer.end.kg == pytest.approx(84 * answer.end.percent_of_raw / 100)


def test_the_history_ends_where_the_answer_does():
    answer = example("plain-pepper-strips")

    assert answer.history.minutes[-1] == pytest.approx(60 * answer.end.hours)
    assert answer.history.weight_percent_of_raw[-1] == pytest.approx(answer.end.percent_of_raw)
    assert answer.history.lethality_wet[-1] == pytest.approx(answer.lethality[answer.governing].wet, rel=1e-6)


def test_credit_never_falls_and_the_bound_lies_under_it():
    answer = example("plain-pepper-strips")

    credit = answer.history.lethality_wet
    assert all(before <= after + 1e-12 for before, after in itertools.pairwise(credit))
    assert all(one.wet_lower <= one.wet for one in answer.lethality.values() if one.wet is not None)


def test_a_dry_start_earns_nothing_however_long_it_lasts():
    answer = example("ridge-venison-strips")

    assert answer.lethality["salmonella"].wet == pytest.approx(0.0, abs=0.01)
    assert any(check.id == "lethality.estimate.salmonella" and check.verdict == "not met" for check in answer.checks)


@pytest.mark.parametrize("name", ["heather-lamb-strips", "orchard-soft-strips", "ridge-venison-strips"])
def test_a_dangerous_schedule_runs_and_its_finding_comes_first(name: str):
    first = example(name).checks[0]

    assert first.verdict == "not met"
    assert first.blocking


def test_a_core_target_above_the_wet_surface_is_said_with_its_numbers():
    remarks = [str(remark) for remark in example("heather-lamb-strips").remarks]

    assert any("the core cannot reach" in remark for remark in remarks)


def test_a_home_maker_reads_heat_first_before_anything_else():
    said = [caution.text.id for caution in example("ridge-venison-strips").cautions]

    assert said[0] == "cautions.home_heat_first"
    assert "cautions.dehydrator" in said
    assert said[-1] == "cautions.authority"
    assert len(said) == len(set(said))


def test_a_limit_of_water_activity_is_said_not_to_stand_for_lethality():
    said = [caution.text.id for caution in example("plain-pepper-strips").cautions]

    assert "cautions.aw_is_not_lethality" in said
    assert "cautions.few_readings" in said


def test_drip_of_the_passage_moves_the_pull_weight():
    answer = example("plain-pepper-strips")

    assert answer.drip_percent_of_marinated > 5
    assert answer.pull_kg < answer.pull_kg_without_run


def test_the_spread_is_the_same_every_time_and_holds_its_middle():
    first, second = (run(read_product(NAMED["plain-pepper-strips"]), pieces=30, on=DAY).spread for _ in range(2))

    assert first == second
    assert first.failed == 0
    assert first.pieces >= 30
    for found in (first.hours, first.percent_of_raw, first.aw_mean, first.aw_wettest):
        assert found.low <= found.middle <= found.high
    assert first.aw_wettest.middle >= first.aw_mean.middle


def test_a_product_without_a_piece_says_what_is_missing():
    text = NAMED["plain-pepper-strips"].read_text().replace('thickness = "6.5 mm"\nspread = "0.8 mm"\n', "")

    with pytest.raises(InputError, match="thickness"):
        run(product_from_text(text, "strips.toml", Path(".")), on=DAY)


def test_the_weight_to_pull_at_is_the_lightest_that_is_known():
    alone = example("plain-pepper-strips")
    spread = run(read_product(NAMED["plain-pepper-strips"]), pieces=30, on=DAY)

    assert alone.pull_lightest_kg == min(alone.pull_kg, alone.pull_kg_without_run)
    assert not spread.spread.pull_enough
    assert spread.pull_lightest_kg == alone.pull_lightest_kg
    assert "no weight will surely do" in str(spread.sentence)


def test_pieces_that_are_nearly_alike_ask_for_a_weight_of_their_own():
    text = NAMED["plain-pepper-strips"].read_text().replace('spread = "0.8 mm"', 'spread = "0.05 mm"')
    product = product_from_text(text, "strips.toml", NAMED["plain-pepper-strips"].parent)
    unlike = example("plain-pepper-strips", 100).spread
    alike = run(replace(product, house=replace(product.house, positions=())), pieces=100, on=DAY).spread

    assert alike.aim_aw > unlike.aim_aw
    assert alike.pull_kg >= unlike.pull_kg


def test_each_rack_reads_its_tare_and_its_share_of_that_weight():
    answer = example("plain-pepper-strips")

    share = answer.pull_lightest_kg / (answer.end.kg / answer.end.percent_of_marinated * 100)
    (first, second) = answer.racks
    assert first.pull_kg == pytest.approx(41.2 + (88.9 - 41.2) * share)  # tare and load stand in the file
    assert second.marked
