"""Calculators and lists as pages and documents."""

from __future__ import annotations

import json
from datetime import date

import pytest

from pellicle.answers.aw import aw_answer
from pellicle.answers.cure import CureCalcAnswer, cure_answer
from pellicle.answers.ingredients import ingredients_answer
from pellicle.answers.rules import rules_answer
from pellicle.food.composition import Composition
from pellicle.food.water_activity import WaterActivity
from pellicle.product import CureMethod
from pellicle.report import document, terminal_small
from pellicle.source import sources

LB, OZ = 0.45359237, 0.028349523125
DAY = date(2026, 3, 14)


def brine() -> WaterActivity:
    return aw_answer(Composition(water=1.0, solutes={"salt": 0.17532}))


def four_ounces_on_a_hundredweight() -> CureCalcAnswer:
    return cure_answer(CureMethod.TUMBLED, 100 * LB, 4 * OZ, 0.0625, on=DAY)


PAGES = {
    "aw": lambda: terminal_small.aw_page(brine()),
    "cure": lambda: terminal_small.cure_page(four_ounces_on_a_hundredweight()),
    "ingredients": lambda: terminal_small.ingredients_page(ingredients_answer("")),
    "rules": lambda: terminal_small.rules_page(rules_answer(DAY)),
    "sources": lambda: terminal_small.sources_page(tuple(sources().values())),
}
DOCUMENTS = {
    "pellicle.aw/1": lambda: document.aw_document(brine()),
    "pellicle.cure/1": lambda: document.cure_document(four_ounces_on_a_hundredweight()),
    "pellicle.ingredients/1": lambda: document.ingredients_document(ingredients_answer("")),
    "pellicle.rules/1": lambda: document.rules_document(rules_answer(DAY)),
    "pellicle.sources/1": lambda: document.sources_document(tuple(sources().values())),
}


@pytest.mark.parametrize("name", sorted(PAGES))
def test_pages_keep_to_their_width_and_say_only_words(name: str) -> None:
    said = PAGES[name]()
    assert max(len(line) for line in said.splitlines()) <= 100
    assert " None" not in said
    assert "Message(" not in said


@pytest.mark.parametrize("schema", sorted(DOCUMENTS))
def test_documents_open_with_their_schema_and_hold_no_nan(schema: str) -> None:
    made = DOCUMENTS[schema]()
    assert next(iter(made.items())) == ("schema", schema)
    assert json.loads(json.dumps(made, allow_nan=False)) == made


def test_the_cure_page_opens_with_the_verdict() -> None:
    # 1/4 oz of nitrite to 100 lb is 156.25 ppm (9 CFR 424.21(c) prints 1/4 oz per 100 lb as 156 ppm).
    first = PAGES["cure"]().splitlines()[0]
    assert first.startswith("[#] met: 156.2 ppm of nitrite")


def test_the_cure_document_has_the_promised_keys() -> None:
    made = DOCUMENTS["pellicle.cure/1"]()
    assert made["ingoing_ppm"] == pytest.approx(156.25)
    assert {"basis", "limit_ppm", "verdict", "worst_case_ppm", "sources"} <= set(made)


def test_the_aw_document_has_its_shares_adding_to_one() -> None:
    made = DOCUMENTS["pellicle.aw/1"]()
    assert made["aw_low"] <= made["aw"] <= made["aw_high"]
    assert sum(made["shares"].values()) == pytest.approx(1.0)
    assert isinstance(made["warnings"], list)


def test_the_aw_page_names_what_lowers_it() -> None:
    assert "  salts                                  100.0" in PAGES["aw"]()


def test_ingredient_documents_carry_compositions_per_kg() -> None:
    rows = {row["name"]: row for row in DOCUMENTS["pellicle.ingredients/1"]()["ingredients"]}
    assert rows["sucrose"]["solutes"]["sucrose"] == pytest.approx(1.0, abs=0.01)
    assert rows["soy sauce"]["allergens"] == ["soy", "wheat"]


def test_sources_yet_to_be_verified_come_first() -> None:
    said = PAGES["sources"]()
    assert said.index("FROM MEMORY, TO BE VERIFIED") < said.index("TEXT SEEN")


def test_the_rules_page_says_since_when_a_limit_stands() -> None:
    said = terminal_small.rules_page(rules_answer(DAY, "eu"))
    assert "In force from 2025-10-09." in said
    assert "at most 80 mg/kg" in said
