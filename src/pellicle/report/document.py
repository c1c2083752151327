"""Answers as JSON documents: plain numbers in the unit of their name, unknown as null, one schema for each kind.

The shapes are imported when a document is written, so that a page for people starts without them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from pellicle.source import Source, cited

if TYPE_CHECKING:
    from pellicle.answers.cure import CureCalcAnswer
    from pellicle.answers.lethality_answer import LethalityAnswer
    from pellicle.answers.plan_answer import PlanAnswer
    from pellicle.answers.rules import RulesAnswer
    from pellicle.answers.run_answer import RunAnswer
    from pellicle.figure import Figure
    from pellicle.food.ingredient import Ingredient
    from pellicle.food.water_activity import WaterActivity
    from pellicle.report.shapes import CheckDocument, FigureDocument, Shape
    from pellicle.rules.verdict import Check

Document = dict[str, Any]


def plan_document(answer: PlanAnswer) -> Document:
    """Return the plan as a document under ``pellicle.plan/1``; a refused plan carries no amount anywhere."""
    from pellicle.report.document_model import CautionDocument, PlanDocument
    from pellicle.report.placing import text_of
    from pellicle.report.withheld import withheld

    answer = withheld(answer)
    made = {
        "checks": [_check(check) for check in answer.checks],
        "cautions": [CautionDocument(where=one.where.value, text=text_of(one)) for one in answer.cautions],
        "figures": {at: _figure(figure) for at, figure in answer.figures.items()},
    }
    return _written(PlanDocument, answer, made)


def aw_document(answer: WaterActivity) -> Document:
    """Return the water activity of a mixture as a document under ``pellicle.aw/1``."""
    from pellicle.report.calculator_model import AwDocument

    made = {
        "aw_low": answer.low,
        "aw_high": answer.high,
        "klass": str(answer.klass),
        "shares": dict(answer.shares),
        "warnings": answer.flags,
        "sources": cited(answer.sources),
    }
    return _written(AwDocument, answer, made)


def cure_document(answer: CureCalcAnswer) -> Document:
    """Return the cure of a few weights as a document under ``pellicle.cure/1``."""
    from pellicle.report.calculator_model import CureCalculationDocument

    return _written(CureCalculationDocument, answer, {"checks": [_check(check) for check in answer.checks]})


def lethality_document(answer: LethalityAnswer) -> Document:
    """Return what a log shows as a document under ``pellicle.lethality/1``."""
    from pellicle.report.document_model import CautionDocument
    from pellicle.report.lethality_model import LethalityDocument
    from pellicle.report.placing import text_of

    made = {
        "checks": [_check(check) for check in answer.checks],
        "cautions": [CautionDocument(where=one.where.value, text=text_of(one)) for one in answer.cautions],
        "lethality": dict(answer.lethality),
        "growth": dict(answer.growth),
    }
    return _written(LethalityDocument, answer, made)


def run_document(answer: RunAnswer) -> Document:
    """Return a passage through the house as a document under ``pellicle.run/1``."""
    from pellicle.report.document_model import CautionDocument
    from pellicle.report.placing import text_of
    from pellicle.report.run_model import RunDocument

    made = {
        "checks": [_check(check) for check in answer.checks],
        "cautions": [CautionDocument(where=one.where.value, text=text_of(one)) for one in answer.cautions],
        "lethality": dict(answer.lethality),
        "growth": dict(answer.growth),
        "balances": dict(answer.balances),
    }
    return _written(RunDocument, answer, made)


def ingredients_document(ingredients: Iterable[Ingredient]) -> Document:
    """Return ingredients as a document under ``pellicle.ingredients/1``; compositions in kg per kg."""
    from pellicle.report.calculator_model import IngredientDocument, IngredientsDocument

    rows = [IngredientDocument.model_validate(_fields(IngredientDocument, one, _made_of(one))) for one in ingredients]
    return IngredientsDocument.model_validate({"ingredients": rows}).model_dump(mode="json", by_alias=True)


def rules_document(answer: RulesAnswer) -> Document:
    """Return the limits in force as a document under ``pellicle.rules/1``."""
    from pellicle.report.calculator_model import RulesDocument

    return _written(RulesDocument, answer, {"rules": answer.rows})


def sources_document(sources: Iterable[Source]) -> Document:
    """Return sources as a document under ``pellicle.sources/1``."""
    from pellicle.report.calculator_model import SourcesDocument

    return SourcesDocument.model_validate({"sources": tuple(sources)}).model_dump(mode="json", by_alias=True)


def _written(shape: type[Shape], answer: object, made: Mapping[str, Any]) -> Document:
    return shape.model_validate(_fields(shape, answer, made)).model_dump(mode="json", by_alias=True)


def _fields(shape: type[Shape], answer: object, made: Mapping[str, Any] = MappingProxyType({})) -> dict[str, Any]:
    """Return what fills a shape: what was made for it, and the answer's own fields of the same names."""
    names = [name for name in shape.model_fields if name != "schema_id" and name not in made]
    return {**made, **{name: getattr(answer, name) for name in names}}


def _check(check: Check) -> CheckDocument:
    from pellicle.report.shapes import CheckDocument

    where = check.clause or next(iter(check.sources), "")
    return CheckDocument.model_validate(_fields(CheckDocument, check, {"source": where}))


def _figure(figure: Figure) -> FigureDocument:
    from pellicle.report.shapes import FigureDocument, InputDocument

    inputs = [InputDocument(name=name, value=value) for name, value in figure.inputs]
    return FigureDocument.model_validate(_fields(FigureDocument, figure, {"inputs": inputs}))


def _made_of(one: Ingredient) -> dict[str, Any]:
    made = one.composition
    masses = {name: float(getattr(made, name)) for name in ("water", "protein", "fat", "ash", "carbohydrate")}
    remarks = ([one.normalised] if one.normalised is not None else []) + list(one.remarks)
    return {**masses, "solutes": {name: float(mass) for name, mass in made.solutes.items()}, "remarks": remarks}
