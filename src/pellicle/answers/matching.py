"""``plan --like``: the same taste per bite as another product, and what that does to water activity, cure and pull
weight.

A line's change moves the pull weight, and with it every share of the finished weight; the amounts are matched again
until they no longer move.
"""

from __future__ import annotations

import numpy as np

from pellicle.answers.curve import first as first_of
from pellicle.answers.plan_answer import Like, LikeLine
from pellicle.answers.quantities import cure_figures
from pellicle.answers.working import Working, work_out
from pellicle.formula.finished import TasteLine, like, new_amounts
from pellicle.formula.printed import PERCENT
from pellicle.message import Message, message
from pellicle.study.mixture import aw_at

ROUNDS = 8
# Amounts are weighed to about a per cent; closer than this the rounds end.
CLOSE = 2e-3


def match(work: Working, other: Working) -> Like:
    """Return the factor for each seasoning, salt and sweetener that gives the other product's taste per bite.

    Both are taken at their pull weights and as printed. ``aw_before`` and ``aw_after`` are for the same water left,
    that of this product at its pull. The notes say what the other has that this one lacks, and
    whether the amounts settled.
    """
    first = like(work.finished, other.finished)
    matched, settled = work, False
    for _ in range(ROUNDS):
        found = like(matched.finished, other.finished)
        if all(abs(row.factor - 1) < CLOSE for row in found.lines):
            settled = True
            break
        amounts = new_amounts(found, matched.formula)
        matched = work_out(work.product.replace(amounts), raw_kg=work.formula.raw_kg)
    notes = [*first.missing, *(row.note for row in first.lines if row.note is not None)]
    if settled and matched.pull.kg > work.pull.kg * (1 + CLOSE):
        notes.insert(0, message("answers.like_heavier"))
    if not settled:
        notes.append(message("answers.like_unsettled"))
    water_kg = work.pull.kg - first_of(work.batch.left.dry)
    return Like(
        other=other.product.name,
        lines=tuple(_line(row, work, matched) for row in first.lines if row.note is None and settled),
        pull_kg_before=work.pull.kg,
        pull_kg_after=matched.pull.kg if settled else None,
        aw_before=_mean_aw(work, water_kg),
        aw_after=_mean_aw(matched, water_kg) if settled else None,
        nitrite_ppm_before=cure_figures(work).nitrite.ingoing_ppm,
        nitrite_ppm_after=cure_figures(matched).nitrite.ingoing_ppm if settled else None,
        notes=_each_once(notes),
    )


def _line(row: TasteLine, work: Working, matched: Working) -> LikeLine:
    before = work.formula.lines[row.at].kg if row.at < len(work.formula.lines) else 0.0
    after = next((line.kg for line in matched.formula.lines if line.at == row.at), before)
    return LikeLine(
        ingredient=row.ingredient,
        percent_of_finished=PERCENT * row.share,
        other_percent_of_finished=PERCENT * row.other_share,
        factor=after / before if before else 1.0,
        percent_of_raw=work.formula.percent_of_raw(before),
        new_percent_of_raw=matched.formula.percent_of_raw(after),
    )


def _mean_aw(work: Working, water_kg: float) -> float:
    """The most likely water activity with so much water left: the same drying, whatever was added."""
    return float(np.median(aw_at(work.batch.middle, first_of(work.batch.left.dry) + water_kg)))


def _each_once(notes: list[Message]) -> tuple[Message, ...]:
    return tuple({str(note): note for note in notes}.values())
