"""The process sheet on paper: the plan handed to a typst template as data, so that no text can become markup."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from types import MappingProxyType
from typing import Any

from pellicle.answers.plan_answer import PlanAnswer
from pellicle.errors import InputError
from pellicle.report import plan_rows
from pellicle.report.chart import aw_chart
from pellicle.report.like_section import like_cells, like_texts
from pellicle.report.numerals import plain, word
from pellicle.report.placing import Section, placed
from pellicle.report.plan_texts import (
    about_text,
    allergens_text,
    cure_texts,
    pull_texts,
    reason_text,
    worth_text,
    yields_text,
)
from pellicle.report.step_rows import step_rows
from pellicle.report.typesetting import Data, fitting, printed, tidied
from pellicle.rules.verdict import Check, Group
from pellicle.source import Source

TEMPLATE = "sheet.typ"
MOST_PAGES = 2
PAPERS = MappingProxyType({"letter": "us-letter", "a4": "a4"})
# Tried in turn until the sheet fits: roomy; smaller; with a lower chart; without blanks to write in; without the
# reasons of checks.
SETTINGS = (
    {"blanks": True, "tight": False, "low": False, "brief": False},
    {"blanks": True, "tight": True, "low": False, "brief": False},
    {"blanks": True, "tight": True, "low": True, "brief": False},
    {"blanks": False, "tight": True, "low": True, "brief": False},
    {"blanks": False, "tight": True, "low": True, "brief": True},
)
# Heights of the water activity chart: as drawn by itself, and where the page is short.
TALL_MM, LOW_MM = 66.0, 48.0
LABELS = [
    "formula",
    "cure",
    "house",
    "step",
    "dry_bulb_c",
    "dry_bulb_f",
    "humidity",
    "smoke",
    "ends",
    "began",
    "ended",
    "weight",
    "pull_head",
    "racks",
    "checks",
    "assumed",
    "sources",
    "yields",
    "weighed",
    "lot",
    "lot_code",
    "date",
    "by",
    "percent_of_raw",
    "of_green",
    "of_rack",
    "aw_pieces",
    "tare_kg",
    "loaded_kg",
    "pull_at_kg",
    "pull_at_lb",
    "of_load",
    "not_blocking",
    "like_here",
    "like_other",
    "like_factor",
    "like_new",
    "to_weigh",
    "reasons_elsewhere",
    "metric",
    "us",
    "chart_alt",
    "page",
    "of_pages",
]


def plan_pdf(answer: PlanAnswer, paper: str = "letter") -> bytes:
    """Return the plan as a PDF of one or two pages, on US Letter or A4; the same answer gives the same bytes.

    A sheet that would run over two pages is set smaller, then without the blanks to write in, then without the reasons
    of checks; nothing else is ever left out, so the most crowded may still take a third page. InputError
    ``report.no_sheet`` if the plan is refused: over a cure limit nothing to weigh is put on paper; ``report.paper`` if
    ``paper`` is neither ``letter`` nor ``a4``.
    """
    return printed(TEMPLATE, fitted(answer, paper))[0]


def plan_pictures(answer: PlanAnswer, paper: str = "letter", ppi: float = 96.0) -> list[bytes]:
    """Return the pages of the sheet as PNG pictures, for a screen that shows no PDF; errors as ``plan_pdf``."""
    return printed(TEMPLATE, fitted(answer, paper), "png", ppi)


def sheet_data(answer: PlanAnswer, paper: str) -> dict[str, Any]:
    """Return what the template is given: texts and rows only, each number glued to its unit."""
    data = {
        "paper": PAPERS[paper],
        "words": {name: word(name) for name in LABELS},
        "product": answer.product,
        "about": about_text(answer, named=False),
        "sentence": str(answer.sentence),
        "weigh": [dataclasses.asdict(row) for row in plan_rows.weigh_rows(answer)],
        "sums": [dataclasses.asdict(row) for row in plan_rows.total_rows(answer)],
        "facts": [str(fact) for fact in answer.facts],
        "allergens": allergens_text(answer),
        "cure": _cure(answer),
        "no_cure": word("no_cure"),
        "steps": [dataclasses.asdict(row) for row in step_rows(answer.schedule)],
        "cautions": {str(section): placed(answer.cautions, section) for section in Section},
        "weights": [dataclasses.asdict(row) for row in plan_rows.weight_rows(answer)],
        "pull": pull_texts(answer.pull, plan_rows.pull_digits(answer)),
        "worth": worth_text(answer.pull) if answer.pull.worth else "",
        "racks": [rack_cells(row) for row in plan_rows.rack_rows(answer)],
        "racks_note": word("racks_note"),
        "yields": yields_text(answer),
        "like": _like(answer),
        "checks": check_groups(answer.checks),
        "assumptions": [str(text) for text in answer.assumptions],
        "sources": _sources(answer.sources),
        "lighter": "",
        "run": None,
    }
    return {**tidied(data), "chart": _charts(answer)}


def _charts(answer: PlanAnswer) -> dict[str, str] | None:
    if not answer.curve:
        return None
    return {name: aw_chart(answer, height_mm=mm).decode() for name, mm in (("tall", TALL_MM), ("low", LOW_MM))}


def refuse_other_paper(paper: str) -> None:
    """Pass for a paper that sheets are made for; InputError ``report.paper`` for any other."""
    if paper not in PAPERS:
        raise InputError("report.paper", field="--paper", read=plain(paper), allowed=", ".join(PAPERS))


def fitted(answer: PlanAnswer, paper: str, otherwise: Data = MappingProxyType({})) -> Data:
    """Return the data of the sheet, with what it says ``otherwise``, in the setting in which it fits; errors as
    ``plan_pdf``."""
    if answer.refused is not None:
        raise InputError("report.no_sheet", product=plain(answer.product))
    refuse_other_paper(paper)
    return fitting(TEMPLATE, {**sheet_data(answer, paper), **otherwise}, SETTINGS, "pages", MOST_PAGES)


def _cure(answer: PlanAnswer) -> dict[str, Any] | None:
    if answer.cure is None:
        return None
    cure = answer.cure
    first, *rest = cure_texts(cure, marked=False)
    steps = len(cure.arithmetic)
    said = {"ingoing": first, "arithmetic": rest[:steps], "also": " ".join(rest[steps:])}
    return {"method": cure.method, "verdict": str(cure.verdict), **said}


def rack_cells(row: plan_rows.RackRow) -> dict[str, Any]:
    """Return one rack as the template wants it."""
    return {**dataclasses.asdict(row), "name": word("marked_rack", name=row.name) if row.marked else row.name}


def _like(answer: PlanAnswer) -> dict[str, Any] | None:
    if answer.like is None:
        return None
    title = word("like", other=answer.like.other)
    return {"title": title, "rows": like_cells(answer.like), "texts": like_texts(answer.like)}


def check_groups(checks: Sequence[Check]) -> list[dict[str, Any]]:
    """Return the checks by group, own limits first, each with its reason."""
    rows = plan_rows.check_rows(checks)
    return [
        {
            "name": word(f"group_{group.name.lower()}"),
            "rows": [{**dataclasses.asdict(row), "reason": reason_text(row)} for row in rows if row.group == group],
        }
        # in the order of the checks, which puts first where something is not met
        for group in dict.fromkeys(Group(check.group) for check in checks)
    ]


def _sources(sources: tuple[Source, ...]) -> list[str]:
    unverified = [source.title for source in sources if source.to_verify]
    others = len(sources) - len(unverified)
    said = [word("sources_unverified", titles="; ".join(unverified))] if unverified else []
    return [*said, word("sources_others", count=others)] if others else said
