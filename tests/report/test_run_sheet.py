"""A run on paper: its sheet, the charts, the steps as they went, and every finding with its verdict and reason."""

from __future__ import annotations

import dataclasses
import re

import plans_to_show
import pytest
import runs_to_show
from test_sheet import read_back

from pellicle.errors import InputError
from pellicle.report.plan_rows import check_rows
from pellicle.report.run_sheet import run_data, run_pdf, run_pictures
from pellicle.report.sheet import TEMPLATE, fitted
from pellicle.report.typesetting import printed
from pellicle.rules.verdict import unmet_titles


def said(plan=None, run=None, paper: str = "letter") -> str:
    made = run_pdf(plan or plans_to_show.with_racks(), run or runs_to_show.passage(), paper)
    return " ".join(read_back(made).split())


def test_the_same_answers_give_the_same_bytes() -> None:
    first, second = (run_pdf(plans_to_show.beef_strips(), runs_to_show.passage()) for _ in range(2))
    assert first.startswith(b"%PDF-")
    assert first == second


@pytest.mark.slow
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_charts_and_findings_take_two_pages_behind_the_sheet(paper: str) -> None:
    assert len(run_pictures(plans_to_show.beef_strips(), runs_to_show.passage(), paper, ppi=20)) == 4


def test_opens_both_parts_with_their_sentences() -> None:
    text = said()
    plan, run = plans_to_show.with_racks(), runs_to_show.passage()
    assert text.index(str(plan.sentence)) < text.index("page 1 of")
    assert text.index(str(run.sentence)) > text.index("page 1 of")


def test_every_step_stands_with_what_was_asked_and_what_ended_it() -> None:
    text = said()
    for step in runs_to_show.passage().steps:
        assert step.name in text
        assert f"as {step.name} ends" in text
    assert "moist cook 30 min 45 min time as moist" in text
    assert re.search(r"dry 2 h 45 min 3 h 5 min its longest time, reached first", text)


def test_every_check_stands_with_its_verdict_and_reason() -> None:
    text = said()
    for row in check_rows(runs_to_show.passage().checks):
        assert f"{row.verdict} {row.title}" in text
        assert row.why in text
    assert "at least 33 s" in text


def test_the_crews_sheet_opens_with_what_the_run_finds_not_met() -> None:
    run = runs_to_show.passage()
    failed = unmet_titles(run.checks)

    first = said(run=run).split("page 1 of")[0]

    assert failed
    assert f"Not met in the run behind this sheet: {failed}." in first


def test_says_why_heat_was_not_counted() -> None:
    assert str(runs_to_show.passage().uncounted) in said()
    assert "Nobody said of which species the meat is." in said(run=runs_to_show.withheld())


def test_the_organism_that_leads_stands_first() -> None:
    rows = run_data(plans_to_show.beef_strips(), runs_to_show.passage(), "letter")["lethality"]
    assert [row[0] for row in rows] == ["Salmonella", "Listeria"]
    assert "Salmonella 13.9 8.3 16.7 27.8 6.5 5.0" in said()


def test_end_drip_rest_face_and_assumptions_are_there() -> None:
    text = said()
    for part in (
        "Mean water activity 0.82, drier face 0.61",
        "Dripped: 8.0 % of the marinated weight",
        "the lighter of two",
        "a thick piece (7.8 mm) needs 1 h 15 min",
        "White bloom may come.",
        "Volume and leaks are those of the kind of house.",
        "A face dries to 0.61.",
        "A dry surface protects germs.",
        "the core cannot reach its target",
    ):
        assert part in text


def test_one_paper_names_one_weight_to_pull_at() -> None:
    plan, lighter = plans_to_show.with_racks(), runs_to_show.lighter()
    text = said(plan, lighter)
    assert text.index("Pull at 48.5 kg / 106.9 lb at the most") < text.index("By the plan alone: Pull at 52.3 kg")
    assert re.search(r"rack 1 2.10 19.72 10.2\d? ", text)  # the run's reading, not the plan's 10.84
    assert "10.8" not in text
    assert "By the plan alone" not in said(plan, runs_to_show.passage())


def test_texts_that_look_like_markup_stay_texts() -> None:
    named = runs_to_show.passage(((' #panic("x") *bold* $x$', 100.0), ("dry", 200.0)))
    assert '#panic("x") *bold* $x$' in said(run=named)


def test_a_refused_plan_makes_no_paper() -> None:
    with pytest.raises(InputError, match="no amount to weigh may stand on paper"):
        run_pdf(plans_to_show.refused(), runs_to_show.passage())


def test_a_run_that_did_not_reach_its_end_says_so() -> None:
    stuck = dataclasses.replace(runs_to_show.passage(), problem=plans_to_show.Words("The steps did not end in time."))
    assert "The steps did not end in time." in said(run=stuck)


def test_no_number_can_part_from_its_unit() -> None:
    data = run_data(plans_to_show.beef_strips(), runs_to_show.passage(), "letter")
    loose = re.compile(r"\d (kg|g|lb|oz|ppm|%)(\s|$)")
    assert not [text for text in (*data["end"], data["pull"], data["about"], *data["spread"]) if loose.search(text)]


def test_cautions_left_to_the_sheet_for_want_of_room_are_pointed_to() -> None:
    run = runs_to_show.passage()
    first, second = run.cautions
    plan = dataclasses.replace(plans_to_show.beef_strips(), cautions=(first,))
    short = {**run_data(plan, run, "letter"), "small": True, "low": True, "once": True}
    (made,) = printed(TEMPLATE, {**fitted(plan, "letter"), "run": short})
    text = " ".join(read_back(made).split())
    assert text.count(str(first.text)) == 1
    assert str(second.text) in text
    assert "The cautions on the sheet hold here as well." in text


def test_what_does_not_fit_two_pages_is_left_whole() -> None:
    run = runs_to_show.passage()
    plan = dataclasses.replace(plans_to_show.beef_strips(), cautions=run.cautions)
    text = said(plan, dataclasses.replace(run, checks=run.checks * 20))
    assert text.count(str(run.cautions[0].text)) == 2
    assert text.count("No row was held without a break.") == 20
