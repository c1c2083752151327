"""A schedule as stated: every step says its air, its humidity and its end in words, in both units."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from pellicle.answers.plan import plan
from pellicle.answers.schedule_rows import ScheduleRow, schedule_rows
from pellicle.files.product_file import product_from_text, read_product
from pellicle.passage import Step, StopWeight, WeightOf

EXAMPLES = Path(__file__).parents[2] / "examples"
PLAIN = EXAMPLES / "plain-pepper-strips.toml"


def rows(*steps: Step, raw_kg: float = 40.0, marinated_kg: float = 50.0) -> tuple[ScheduleRow, ...]:
    return schedule_rows(replace(read_product(PLAIN), schedule=steps), raw_kg, marinated_kg)


def test_a_wet_bulb_stands_in_both_units():
    (row,) = rows(Step("cook", 68.0, wet_bulb_c=62.0, for_s=3600))

    assert str(row.humidity) == "wet bulb 62.0 °C / 143.6 °F"  # 62 x 9 / 5 + 32
    assert str(row.ends) == "after 1 h"
    assert row.at_most is None


def test_a_weight_is_given_for_this_batch():
    raw, marinated, stated = rows(
        Step("a", 70.0, humidity=0.2, until_weight=StopWeight(0.5, WeightOf.RAW), at_most_s=8 * 3600),
        Step("b", 70.0, humidity=0.2, until_weight=StopWeight(0.5, WeightOf.MARINATED)),
        Step("c", 70.0, humidity=0.2, until_weight=StopWeight(18.0, WeightOf.KG)),
    )

    assert str(raw.ends) == "weight at 50 % of green, 20.0 kg / 44.1 lb"
    assert str(raw.at_most) == "at most 8 h"
    assert str(marinated.ends) == "weight at 50 % of marinated, 25.0 kg / 55.1 lb"
    assert str(stated.ends) == "weight at 18.0 kg / 39.7 lb"


def test_a_step_that_says_nothing_goes_on_as_the_one_before():
    first, second, rest, after = rows(
        Step("set", 50.0, damper=0.0, for_s=600),
        Step("cook", 70.0, for_s=600),
        Step("rest", 20.0, rest=True, for_s=600),
        Step("dry", 70.0, for_s=600),
    )

    assert str(first.humidity) == "damper shut"
    assert str(second.humidity) == "as before: damper shut"
    assert str(rest.humidity) == "sealed, so that nothing dries"
    assert str(after.humidity) == "left to the house"


def test_how_the_air_gets_there_is_said():
    at_once, over, rate = rows(
        Step("a", 50.0, humidity=0.4, until_core_c=40.0),
        Step("b", 60.0, damper=0.4, steam_kg_s=10 / 3600, ramp_s=600, until_aw=0.85),
        Step("c", 70.0, fresh_kg_s=36 / 3600, ramp_k_s=1.5 / 60, until_gap=0.02),
    )

    assert at_once.ramp is None
    assert str(at_once.ends) == "core at 40.0 °C / 104.0 °F"
    assert str(over.humidity) == "damper 40 % open, with steam 10.0 kg / 22.0 lb an hour"
    assert str(over.ramp) == "reached over 10 min"
    assert str(over.ends) == "mean water activity at 0.85"
    assert str(rate.ramp) == "the air changes by 1.5 °C (2.7 °F) a minute"
    assert str(rate.humidity) == "fresh air 36.0 kg / 79.4 lb an hour"


def test_a_plan_carries_its_schedule_unless_it_is_refused():
    text = PLAIN.read_text()
    over = text.replace("150 ppm nitrite of raw", "0.4 % of raw")
    made, refused = (
        plan(product_from_text(one, "strips.toml", EXAMPLES), on=date(2026, 11, 25)) for one in (text, over)
    )

    assert [row.name for row in made.schedule] == ["warm", "cook", "smoke", "dry", "rest"]
    assert [row.name for row in made.schedule if row.smoke] == ["smoke"]
    assert refused.refused is not None
    assert refused.schedule == ()
