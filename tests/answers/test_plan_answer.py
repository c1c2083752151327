"""The plan of a product: every part of the answer agrees with every other, and danger is never put on paper."""

from __future__ import annotations

import itertools
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from pellicle.answers.plan import plan
from pellicle.answers.plan_answer import PlanAnswer
from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text, read_product
from pellicle.product import Product

DAY = date(2026, 11, 25)
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))

CURED = """\
format = 1
[product]
name = "Test strips"
species = "beef"
name_class = "jerky"
[meat]
ingredient = "beef top round"
raw = "100 lb"
[[formula]]
ingredient = "salt"
amount = "2 % of raw"
[[formula]]
ingredient = "curing salt"
amount = "{cure}"
nitrite = "6.25 %"
[cure]
method = "tumbled"
"""


def cured(cure: str) -> Product:
    return product_from_text(CURED.format(cure=cure), "strips.toml", Path("."))


@cache
def example(path: Path) -> PlanAnswer:
    return plan(read_product(path), on=DAY)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_gives_a_pull_weight_and_no_broken_limit(path: Path):
    answer = example(path)

    assert answer.refused is None
    assert str(answer.sentence).startswith("Pull at ")
    assert all(check.verdict != "not met" for check in answer.checks if check.blocking)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_lines_add_up_to_the_total(path: Path):
    answer = example(path)

    assert sum(line.kg or 0 for line in answer.lines) == pytest.approx(answer.total_kg)
    assert sum(line.percent_of_total for line in answer.lines) == pytest.approx(100, abs=0.1)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_water_activity_falls_all_the_way_down_the_curve(path: Path):
    curve = example(path).curve

    assert [point.kg for point in curve] == sorted((point.kg for point in curve), reverse=True)
    assert all(before.aw >= after.aw for before, after in itertools.pairwise(curve))
    assert all(point.aw_low <= point.aw <= point.aw_high for point in curve)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_at_the_pull_the_wettest_pieces_are_inside_the_limit(path: Path):
    answer = example(path)

    at_pull = min(answer.curve, key=lambda point: abs(point.kg - answer.pull.kg))

    assert at_pull.inside
    assert at_pull.aw_high <= answer.pull.aw


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_plan_ever_meets_water_activity_or_lethality_without_evidence(path: Path):
    verdicts = {check.id: check.verdict for check in example(path).checks}

    assert verdicts["aw.limit"] == "cannot tell"
    assert verdicts["lethality"] == "cannot tell"


def test_the_plants_own_limits_come_first():
    answer = example(next(path for path in EXAMPLES if path.stem == "plain-pepper-strips"))

    assert [check.group for check in answer.checks[:3]] == ["own limits"] * 3
    assert answer.checks[2].verdict == "met"


def test_every_yield_names_its_base():
    answer = example(next(path for path in EXAMPLES if path.stem == "plain-pepper-strips"))

    assert [found.base.split()[0] for found in answer.yields] == ["purchased", "trimmed", "sliced", "marinated"]
    assert answer.yields[0].percent == pytest.approx(100 * answer.pull.kg / 96.5)


def test_a_rack_is_pulled_at_its_share_with_the_tare_on_the_scale():
    answer = example(next(path for path in EXAMPLES if path.stem == "plain-pepper-strips"))

    rack = answer.pull.racks[1]

    assert rack.marked
    assert rack.pull_kg == pytest.approx(40.8 + (89.6 - 40.8) * answer.pull.kg / answer.marinated_kg)


def test_four_ounces_per_hundred_pounds_is_15625_ppm():
    answer = plan(cured("4 oz per 100 lb"), on=DAY)  # common chart figure: 4 oz of 6.25 % cure to 100 lb is 156 ppm

    assert answer.cure is not None
    assert answer.cure.ingoing_ppm == pytest.approx(156.25)
    assert answer.cure.verdict == "met"


def test_over_the_limit_nothing_is_weighed_and_the_largest_lawful_amount_stands_instead():
    answer = plan(cured("0.4 % of raw"), on=DAY)  # 250 ppm, the limit in solution is 200

    assert answer.refused is not None
    assert answer.total_kg is None
    assert answer.pull.kg is None
    assert answer.curve == ()
    assert all(line.kg is None and line.exact_kg is None for line in answer.lines)
    assert answer.cure is not None
    assert answer.cure.largest_lawful_kg == pytest.approx(0.0032 * 45.359237)  # 200 ppm / 6.25 % of 100 lb
    assert "Nothing is weighed out" in str(answer.sentence)


def test_over_twice_the_limit_the_line_is_refused():
    with pytest.raises(InputError, match="more than twice the 200 ppm"):
        plan(cured("0.7 % of raw"), on=DAY)


def test_a_batch_can_be_set_by_its_total():
    answer = plan(cured("0.25 % of raw"), total_kg=50.0, on=DAY)

    assert answer.total_kg == pytest.approx(50.0)


def test_matching_another_product_gives_the_same_taste_per_bite():
    mild = cured("0.25 % of raw")
    strong = product_from_text(
        CURED.format(cure="0.25 % of raw").replace("2 % of raw", "2.6 % of raw"), "b.toml", Path(".")
    )

    found = plan(mild, on=DAY, like=strong).like

    assert found is not None
    salt = next(line for line in found.lines if line.ingredient == "salt")
    assert salt.factor > 1
    assert found.aw_after < found.aw_before
    assert found.pull_kg_after > found.pull_kg_before
    assert found.nitrite_ppm_after == pytest.approx(found.nitrite_ppm_before, rel=1e-6)
    # with the same other lines, matching salt per bite means the other product's own amount
    assert salt.new_percent_of_raw == pytest.approx(2.6, rel=0.01)


def test_all_sources_of_an_answer_are_registered_and_named_once():
    answer = example(EXAMPLES[0])

    keys = [source.key for source in answer.sources]
    assert len(keys) == len(set(keys))
    assert {"usda-sr28", "aw-model-review"} <= set(keys)


def test_figures_point_at_numbers_of_the_answer():
    answer = example(EXAMPLES[0])

    assert answer.figures["/pull/kg"].value == answer.pull.kg
    assert answer.figures["/pull/kg"].low == answer.pull.low_kg
    assert answer.figures["/marinated_kg"].value == answer.marinated_kg
