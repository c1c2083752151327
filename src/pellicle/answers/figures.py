"""The plan's figures with their ranges and origins, keyed by JSON pointer into the plan's document."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pellicle.answers.plan_answer import CureAnswer, CurvePoint, Pull
from pellicle.answers.working import Working
from pellicle.figure import Figure, Kind
from pellicle.formula.printed import metric_mass, percent
from pellicle.message import message
from pellicle.units import show_mass

MODEL = ("aw-model-review",)


def plan_figures(work: Working, pull: Pull, at_pull: CurvePoint, cure: CureAnswer | None) -> Mapping[str, Figure]:
    """Return the figures a page can open: each with how it was got, from what, and its sources."""
    found = {
        "/pull/kg": _pull(work, pull),
        "/pull/likely_kg": Figure(
            pull.likely_kg,
            "kg",
            kind=Kind.COMPUTED,
            digits=_digits(pull.likely_kg),
            how=message("answers.how_likely"),
            sources=MODEL,
        ),
        "/pull/batch_mean_aw": Figure(
            pull.batch_mean_aw,
            "",
            at_pull.aw_low,
            at_pull.aw_high,
            digits=2,
            how=message("answers.how_mean_aw"),
            inputs=_inputs(work),
            sources=MODEL,
        ),
        "/pull/reading_at_most": Figure(
            pull.reading_at_most,
            "",
            kind=Kind.BOUND,
            digits=3,
            how=message("answers.how_reading", sd=f"{pull.piece_sd:.3f}"),
            sources=("common-practice",),
        ),
        "/marinated_kg": Figure(
            work.marinated.kg,
            "kg",
            work.marinated.low_kg,
            work.marinated.high_kg,
            kind=Kind.COMPUTED if work.marinated.known else Kind.ASSUMED,
            digits=_digits(work.marinated.kg),
            how=work.marinated.how,
            sources=("own-arithmetic",) if work.marinated.known else ("common-practice",),
        ),
    }
    if cure is not None:
        found["/cure/ingoing_ppm"] = Figure(
            cure.ingoing_ppm, "ppm", digits=1, how=message("answers.how_cure"), sources=cure.sources
        )
    return MappingProxyType(found)


def _pull(work: Working, pull: Pull) -> Figure:
    how = message(
        "answers.how_pull",
        confidence=percent(pull.confidence),
        limit=f"{pull.aw:.2f}",
        sd=f"{pull.piece_sd:.3f}",
    )
    return Figure(
        pull.kg,
        "kg",
        pull.low_kg,
        pull.high_kg,
        digits=_digits(pull.kg),
        how=how,
        inputs=_inputs(work),
        sources=(*MODEL, "usda-sr28"),
    )


def _digits(kg: float | None) -> int:
    """The decimals a weight is printed with, in kg."""
    number, unit = show_mass(kg if kg is not None else 0.0).split()
    decimals = len(number.partition(".")[2])
    return decimals if unit == "kg" else decimals + GRAM_DECIMALS


# A gram is a thousandth of a kilogram.
GRAM_DECIMALS = 3


def _inputs(work: Working) -> tuple[tuple[str, str], ...]:
    correction = work.priors["correction"]
    return (
        ("green weight", metric_mass(work.formula.raw_kg)),
        ("taken up of the solution", percent(work.marinated.taken_share, 3)),
        ("class", str(work.correction.klass)),
        ("lots with readings", str(work.correction.lots)),
        ("correction of ln(-ln aw)", f"{correction.centre:+.3f}, sd {correction.spread:.3f}"),
    )
