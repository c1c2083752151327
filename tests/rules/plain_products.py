"""A plain product and plain cures for the tests of checks: 100 kg of meat unless a test says otherwise."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from pellicle.formula.cure_figures import CureFigures, CureSource, from_numbers
from pellicle.product import (
    AwTarget,
    CureMethod,
    Form,
    Maker,
    Meat,
    Pack,
    Product,
    Storage,
)
from pellicle.rules.situation import Situation
from pellicle.rules.verdict import Check

TODAY = date(2026, 3, 14)


def a_product(**changes: Any) -> Product:
    """Return tumbled beef strips for an inspected plant in the United States, with fields replaced."""
    fields: dict[str, Any] = {
        "name": "Strips",
        "species": "beef",
        "form": Form.WHOLE_MUSCLE,
        "storage": Storage.SHELF_STABLE,
        "maker": Maker.INSPECTED,
        "jurisdiction": "us",
        "pack": Pack.AIR,
        "target": AwTarget(),
        "meat": Meat("beef top round", 100.0),
        "formula": (),
        "cure_method": CureMethod.TUMBLED,
    }
    return Product(**{**fields, **changes})


def a_situation(method: CureMethod | None = CureMethod.TUMBLED, **changes: Any) -> Situation:
    """Return a situation of an inspected plant in the United States, with fields replaced."""
    return Situation(**{"jurisdiction": "us", "on": TODAY, "method": method, **changes})


def a_cure(ppm: float, method: CureMethod | None = CureMethod.TUMBLED, **more: Any) -> CureFigures:
    """Return 6.25 % cure on 100 kg of meat that comes to ``ppm`` of nitrite on the green weight."""
    return from_numbers(method, 100.0, ppm * 100.0 / 0.0625 / 1e6, 0.0625, **more)


def with_a_silent_bag(ppm: float) -> CureFigures:
    """Return a cure of ``ppm`` beside a bag of seasoning whose label says nothing of nitrite."""
    cure = a_cure(ppm)
    nitrite = replace(cure.nitrite, ingoing_ppm=None, kg=None, worst_case_ppm=None, at_least_ppm=ppm)
    bag = CureSource("seasoning bag", 2.0, {}, silent_on=("nitrite",))
    return replace(cure, sources=(*cure.sources, bag), nitrite=nitrite)


def one(found: Any, id: str) -> Check:
    """Return the check called ``id``; there has to be exactly one."""
    (check,) = [check for check in found if check.id == id]
    return check
