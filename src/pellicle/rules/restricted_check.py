"""Cure accelerators and phosphates against their limits.

Ascorbate and erythorbate have one limit, their acids another, both on the green weight; where a formula uses salts
and acids together each is within its own limit and the parts of both limits together may not pass one. Pumped bacon
needs its accelerator. Phosphates and gluconolactone are judged on the product as it goes into the house.
"""

from __future__ import annotations

from pellicle.message import Message, message
from pellicle.product import Maker
from pellicle.rules.figures import PlanQuantities, brought
from pellicle.rules.limits import Basis, Bound, Limit, Use, select
from pellicle.rules.situation import FISH, Situation, cure_class
from pellicle.rules.verdict import Check, Verdict
from pellicle.rules.words import apart, plain, together

DIGITS_PPM, DIGITS_PERCENT = 1, 3
PERCENT = 100.0

SALTS, ACIDS = "ascorbate or erythorbate", "ascorbic or erythorbic acid"
PUMPED = "bacon pumped"


def restricted_checks(situation: Situation, quantities: PlanQuantities) -> tuple[Check, ...]:
    """Return the checks on accelerators, phosphates and gluconolactone, for those the formula brings."""
    found = _pumped_bacon(situation, quantities) or _accelerators(situation, quantities)
    if quantities.phosphate_share:
        found.append(_phosphate(situation, quantities))
    if quantities.gluconolactone_share:
        percent = quantities.gluconolactone_share * PERCENT
        row = _row(situation, "accelerator", ("cured",), "gluconolactone", Basis.PRODUCT)
        found.append(_judged("gluconolactone", percent, row, situation, "%", DIGITS_PERCENT))
    return tuple(found)


def _accelerators(situation: Situation, quantities: PlanQuantities) -> list[Check]:
    found, parts = [], 0.0
    for id, agent, ppm in (
        ("accelerator_salts", SALTS, quantities.salts_ppm),
        ("accelerator_acids", ACIDS, quantities.acids_ppm),
    ):
        if not ppm:
            continue
        row = _row(situation, "accelerator", ("cured",), agent, Basis.INGOING)
        found.append(_judged(id, ppm, row, situation, "ppm", DIGITS_PPM))
        if row is not None and row.limit:
            parts += ppm / row.limit
    if quantities.salts_ppm and quantities.acids_ppm and parts > 1 and all(c.verdict is Verdict.MET for c in found):
        found.append(
            Check(
                id="restricted.accelerators_together",
                title=message("rules.title_accelerators_together"),
                verdict=Verdict.CANNOT_TELL,
                why=message("rules.accelerators_together", parts=f"{parts:.2f}"),
                value=parts,
                limit=1.0,
                margin=1.0 - parts,
                digits=2,
                sources=("common-practice",),
            )
        )
    return found


def _pumped_bacon(situation: Situation, quantities: PlanQuantities) -> list[Check]:
    if situation.code != "us" or PUMPED not in cure_class(situation).products or not brought(quantities.cure):
        return []
    ppm = quantities.salts_ppm + quantities.acids_ppm
    rows = select(situation.on, "us", "accelerator", (PUMPED,), (SALTS,), Basis.INGOING)
    missed = [row for row in rows if not row.met_by(ppm)]
    return [_judged("accelerator_bacon", ppm, (missed or list(rows))[0], situation, "ppm", DIGITS_PPM)] if rows else []


def _phosphate(situation: Situation, quantities: PlanQuantities) -> Check:
    row = _row(situation, "phosphate", ("any",), "phosphate", Basis.PRODUCT)
    share: float | None = quantities.phosphate_share
    if row is not None and row.counted_as == "Na2HPO4":
        share = quantities.phosphate_disodium_share
    percent = None if share is None else share * PERCENT
    return _judged("phosphate", percent, row, situation, "%", DIGITS_PERCENT)


def _row(situation: Situation, topic: str, products: tuple[str, ...], agent: str, basis: Basis) -> Limit | None:
    if situation.species == FISH:
        return None
    rows = select(situation.on, situation.code, topic, products, (agent,), basis)
    return rows[0] if rows else None


def _judged(id: str, value: float | None, row: Limit | None, situation: Situation, unit: str, digits: int) -> Check:
    title = message(f"rules.title_{id}")
    if row is None or row.limit is None:
        why = message("rules.restricted_no_row", jurisdiction=situation.jurisdiction)
        return Check(f"restricted.{id}", title, Verdict.CANNOT_TELL, why, value=value, unit=unit, digits=digits)
    verdict, why = _verdict(value, row, digits)
    return Check(
        id=f"restricted.{id}",
        title=title,
        verdict=verdict,
        why=together(
            why,
            message("rules.home_guide") if situation.maker is Maker.HOME else None,
            message("rules.to_verify") if row.to_verify else None,
        ),
        value=value,
        limit=row.limit,
        unit=row.unit,
        direction=row.bound,
        margin=None if value is None else (row.limit - value) * (-1 if row.bound is Bound.AT_LEAST else 1),
        digits=digits,
        clause=row.clause,
        sources=row.sources,
        blocking=row.use is Use.BLOCKS,
    )


def _verdict(value: float | None, row: Limit, digits: int) -> tuple[Verdict, Message]:
    limit = row.limit or 0.0
    if value is None:
        return Verdict.CANNOT_TELL, message("rules.restricted_unknown", limit=plain(limit), unit=row.unit)
    shown, bound = apart(value, limit, digits)
    words = {"value": shown, "limit": bound, "unit": row.unit, "clause": row.clause}
    side = "least" if row.bound is Bound.AT_LEAST else "most"
    if row.met_by(value):
        return Verdict.MET, message(f"rules.restricted_{side}_met", **words)
    return Verdict.NOT_MET, message(f"rules.restricted_{side}_missed", **words)
