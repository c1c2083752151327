"""The JSON document of a plan: the keys that others rely on, unknown as null, nothing to weigh when it is refused."""

from __future__ import annotations

import dataclasses
import json
import math
from collections.abc import Iterator
from typing import Any

import plans_to_show
import pytest

from pellicle.report.document import plan_document
from pellicle.report.document_model import PlanDocument

PLANS = sorted(plans_to_show.ALL)
PROMISED = {
    "lines": "ingredient kg percent_of_raw",
    "cure": "ingoing_ppm basis method limit_ppm verdict",
    "pull": "aw confidence kg percent_of_raw percent_of_marinated low_kg high_kg batch_mean_aw",
    "curve": "kg percent_of_raw water_kg aw aw_low aw_high mpr salt_percent sugar_percent",
    "checks": "id verdict value limit why source",
    "sources": "key title known",
}


def document(name: str) -> dict[str, Any]:
    return plan_document(plans_to_show.ALL[name]())


def numbers(value: Any) -> Iterator[float]:
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for item in value:
            yield from numbers(item)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield float(value)


def test_opens_with_its_schema() -> None:
    assert next(iter(document("beef_strips").items())) == ("schema", "pellicle.plan/1")


@pytest.mark.parametrize("key", sorted(PROMISED))
def test_has_the_promised_keys(key: str) -> None:
    found = document("beef_strips")[key]
    one = found[0] if isinstance(found, list) else found
    assert set(PROMISED[key].split()) <= set(one)


@pytest.mark.parametrize("name", PLANS)
def test_is_plain_json_in_its_own_shape(name: str) -> None:
    made = document(name)
    again = json.loads(json.dumps(made, allow_nan=False))
    assert PlanDocument.model_validate(again).model_dump(mode="json", by_alias=True) == made


def test_unknown_is_null_never_nan() -> None:
    plan = plans_to_show.beef_strips()
    assert plan.cure
    cure = dataclasses.replace(plan.cure, ingoing_ppm=math.nan, worst_case_ppm=math.inf)
    curve = (dataclasses.replace(plan.curve[0], aw=math.nan, mpr=math.nan),)
    made = plan_document(dataclasses.replace(plan, cure=cure, curve=curve))
    assert made["cure"]["ingoing_ppm"] is None
    assert made["cure"]["worst_case_ppm"] is None
    assert made["curve"][0]["aw"] is None
    assert made["curve"][0]["mpr"] is None


def test_verdicts_are_the_three_english_tokens() -> None:
    made = document("beef_strips")
    assert {check["verdict"] for check in made["checks"]} == {"met", "not met", "cannot tell"}


def test_a_check_names_the_clause_of_its_limit() -> None:
    found = {check["id"]: check["source"] for check in document("beef_strips")["checks"]}
    assert found["cure.ingoing"] == "9 CFR 424.21(c)"


@pytest.mark.parametrize("name", [name for name in PLANS if name not in ("refused", "out_of_reach")])
def test_every_figure_points_to_its_number(name: str) -> None:
    made = document(name)
    for pointer, figure in made["figures"].items():
        value: Any = made
        for part in pointer.strip("/").split("/"):
            value = value[int(part)] if isinstance(value, list) else value[part]
        assert value == figure["value"]


def test_refused_has_no_amount_anywhere() -> None:
    plan, made = plans_to_show.refused(), document("refused")
    amounts = {line.kg for line in plan.lines[1:]} | {
        plan.total_kg,
        plan.marinated_kg,
        plan.pull.kg,
        plan.pull.likely_kg,
    }
    shares = {line.percent_of_raw for line in plan.lines}
    assert (amounts - shares).isdisjoint(numbers(made))
    assert all(line["kg"] is None for line in made["lines"])
    assert made["total_kg"] is None
    assert made["curve"] == []
    assert made["yields"] == []
    assert made["cure"]["largest_lawful_kg"] == 0.2688


def test_no_cure_is_null() -> None:
    assert document("without_cure")["cure"] is None


def test_a_caution_says_where_it_belongs() -> None:
    assert [caution["where"] for caution in document("beef_strips")["cautions"]] == ["cure", "house", "pull", "release"]
