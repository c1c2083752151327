"""A run on paper: the process sheet of its plan, a page of linked charts, the steps as they went, and the findings.

Where the run asks for a lighter pull than the plan does, the sheet says so under its first sentence, and its racks are
pulled at the readings of the run: one paper must not name two weights to pull at.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from pellicle.report.numerals import batch_digits, number, plain, weighed, word
from pellicle.report.placing import Section, placed
from pellicle.report.plan_rows import pounds, pull_digits, rack_rows, weight_rows
from pellicle.report.plan_texts import pull_texts, sources_text
from pellicle.report.process_texts import process_texts
from pellicle.report.run_chart import run_chart
from pellicle.report.run_texts import (
    WAYS,
    after_texts,
    end_texts,
    ended_text,
    growth_texts,
    lethality_cells,
    pull_text,
    spread_texts,
    withheld_text,
)
from pellicle.report.sheet import TEMPLATE, check_groups, fitted, rack_cells
from pellicle.report.typesetting import Data, fitting, printed, tidied
from pellicle.rules.verdict import unmet_titles
from pellicle.units import both, show_duration, show_mass

if TYPE_CHECKING:
    from pellicle.answers.plan_answer import PlanAnswer
    from pellicle.answers.run_answer import RunAnswer

MOST_PAGES = 2
# Tried in turn until charts and findings fit their pages: roomy; smaller; with lower charts; without the cautions that
# the sheet says already; both. What does not fit so either is set whole again, on as many pages as it takes.
SETTINGS = (
    {"small": False, "low": False, "once": False},
    {"small": True, "low": False, "once": False},
    {"small": True, "low": True, "once": False},
    {"small": True, "low": False, "once": True},
    {"small": True, "low": True, "once": True},
    {"small": True, "low": False, "once": False},
)
# Width between the margins, and how high the charts are drawn where there is room and where the page is short, in mm.
CHART_MM: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {"letter": (187.9, 152.0, 136.0), "a4": (182.0, 168.0, 144.0)}
)
MINUTE_S = 60.0
# The remark of a plan that a run would restate its pull weight.
WANTED = "answers.fact_schedule"
LABELS = (
    "run_house",
    "run_at_end",
    "run_lethality",
    "run_spread",
    "run_afterwards",
    "run_target",
    "run_passage",
    "run_passage_note",
    "run_began",
    "run_lasted",
    "run_ended",
    "run_asked",
    "run_legend",
    "run_once",
    *(f"lethality_{way}" for way in WAYS),
)


def run_pdf(plan: PlanAnswer, run: RunAnswer, paper: str = "letter") -> bytes:
    """Return sheet, charts and findings as one PDF; the same answers give the same bytes.

    ``plan`` is the plan of the same product, green weight and day. InputError as ``plan_pdf``: none is made where the
    plan is refused, or for an unknown paper.
    """
    return printed(TEMPLATE, _fitted(plan, run, paper))[0]


def run_pictures(plan: PlanAnswer, run: RunAnswer, paper: str = "letter", ppi: float = 96.0) -> list[bytes]:
    """Return the pages as PNG pictures, for a screen that shows no PDF; errors as ``run_pdf``."""
    return printed(TEMPLATE, _fitted(plan, run, paper), "png", ppi)


def run_data(plan: PlanAnswer, run: RunAnswer, paper: str) -> dict[str, Any]:
    """Return what the pages of a run are given: texts and rows only, each number glued to its unit."""
    told = {str(caution.text) for caution in plan.cautions}
    data = {
        "words": {name: word(name) for name in LABELS},
        "about": word("run_about_paper", on=run.on, raw=weighed(run.raw_kg), raw_lb=pounds(run.raw_kg)),
        "sentence": str(run.sentence),
        "chart_alt": word("run_chart_alt", steps=", ".join(step.name for step in run.steps)),
        "uncounted": " ".join([str(run.uncounted), *withheld_text(run)]),
        "steps": _steps(run),
        "remarks": [str(remark) for remark in (*run.remarks, *([] if run.problem is None else [run.problem]))],
        "end": end_texts(run),
        "pull": pull_text(run),
        "ways": [word(f"lethality_{way}") for way in WAYS],
        "lethality": lethality_cells(run),
        "process": process_texts(run.process),
        "growth": growth_texts(run),
        "spread": spread_texts(run),
        "checks": check_groups(run.checks),
        "after": after_texts(run),
        "assumptions": [str(text) for text in (*run.assumptions, *run.flags)],
        "sources": sources_text(run.sources),
        "cautions": {str(section): placed(run.cautions, section) for section in Section},
        "new": {
            str(section): placed([one for one in run.cautions if str(one.text) not in told], section)
            for section in Section
        },
    }
    width, tall, low = CHART_MM[paper]
    charts = {name: run_chart(run, width, height).decode() for name, height in (("tall", tall), ("low", low))}
    return {**tidied(data), "chart": charts}


def _fitted(plan: PlanAnswer, run: RunAnswer, paper: str) -> Data:
    sheet = fitted(plan, paper, _restated(plan, run))
    made = run_data(plan, run, paper)
    settings = [{"run": {**made, **setting}} for setting in SETTINGS]
    return fitting(TEMPLATE, sheet, settings, "run-pages", MOST_PAGES)


def _restated(plan: PlanAnswer, run: RunAnswer) -> dict[str, Any]:
    """Return what the sheet says otherwise before a run: not that one is wanted, and its pull where that is lighter."""
    otherwise: dict[str, Any] = {"facts": [str(fact) for fact in plan.facts if fact.id != WANTED]}
    use, kg = run.pull_lightest_kg, plan.pull.kg
    failed = unmet_titles(run.checks)
    unmet = word("run_unmet", titles=failed) if failed else ""
    if kg is not None and both(kg) == both(use):
        return _tidy({**otherwise, "lighter": unmet} if unmet else otherwise)
    alone = partial(word, "run_plan_alone")
    racks = dataclasses.replace(plan, pull=dataclasses.replace(plan.pull, kg=use, racks=run.racks))
    weights = [dataclasses.asdict(row) for row in weight_rows(plan)]
    otherwise |= {
        "lighter": " ".join([
            word("run_lighter", pull=both(use)) if kg is None else
            word("run_lighter_than", pull=both(use), plan=show_mass(kg)), *([unmet] if unmet else []),
        ]),
        "sentence": alone(text=str(plan.sentence)),
        "weights": [
            {**row, "mark": alone(text=row["mark"]), "is_pull": False} if row["is_pull"] else row for row in weights
        ],
        "pull": [alone(text=text) for text in pull_texts(plan.pull, pull_digits(plan))],
        "racks": [rack_cells(row) for row in rack_rows(racks)],
        "racks_note": f"{word('run_racks', kg=number(use, batch_digits(use)))} {word('racks_note')}",
    }  # fmt: skip
    return _tidy(otherwise)


def _tidy(data: dict[str, Any]) -> dict[str, Any]:
    return {name: tidied(value) for name, value in data.items()}


def _steps(run: RunAnswer) -> list[dict[str, str]]:
    """Return the steps as they went, beside what was asked for."""
    rows, began = [], 0.0
    for step, asked in zip(run.steps, run.schedule, strict=False):
        rows.append(
            {
                "name": plain(step.name),
                "began": show_duration(began * MINUTE_S) if began else word("run_start"),
                "lasted": show_duration(step.minutes * MINUTE_S),
                "ended": ended_text(step, asked),
                "asked": ", ".join(str(text) for text in (asked.ends, asked.at_most) if text is not None),
            }
        )
        began += step.minutes
    return rows
