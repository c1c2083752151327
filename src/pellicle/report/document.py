"""Answers as JSON documents: plain numbers in the unit of their name, unknown as null, one schema for each kind."""

from __future__ import annotations

from typing import Any

from pellicle.answers.plan_answer import CureAnswer, PlanAnswer
from pellicle.figure import Figure
from pellicle.report.document_model import (
    CheckDocument,
    CureDocument,
    FigureDocument,
    InputDocument,
    PlanDocument,
)
from pellicle.report.withheld import withheld
from pellicle.rules.verdict import Check

Document = dict[str, Any]


def plan_document(answer: PlanAnswer) -> Document:
    """Return the plan as a document under ``pellicle.plan/1``; a refused plan carries no amount anywhere."""
    answer = withheld(answer)
    fields = {name: getattr(answer, name) for name in PlanDocument.model_fields if name != "schema_id"}
    fields["cure"] = cure_fields(answer.cure) if answer.cure else None
    fields["checks"] = [check_fields(check) for check in answer.checks]
    fields["figures"] = {at: figure_fields(figure) for at, figure in answer.figures.items()}
    return PlanDocument.model_validate(fields).model_dump(mode="json", by_alias=True)


def cure_fields(cure: CureAnswer) -> CureDocument:
    """Return the cure in its shape."""
    return CureDocument.model_validate(cure)


def check_fields(check: Check) -> CheckDocument:
    """Return a check in its shape, with the one place to look its limit up."""
    fields = {name: getattr(check, name) for name in CheckDocument.model_fields if name != "source"}
    where = check.clause or next(iter(check.sources), "")
    return CheckDocument.model_validate({**fields, "source": where})


def figure_fields(figure: Figure) -> FigureDocument:
    """Return a figure in its shape."""
    fields = {name: getattr(figure, name) for name in FigureDocument.model_fields}
    fields["inputs"] = [InputDocument(name=name, value=value) for name, value in figure.inputs]
    return FigureDocument.model_validate(fields)
