"""What ``plan`` answers: what to weigh, whether the cure is inside its limit, the curve, the weight to pull at, the
checks.

The flow, top to bottom: resolve the formula and round it to the scale, marinate, learn from readings, find the pull
weight (all in ``working``), judge the cure and everything else, follow the curve, say it. What is said of cure and of
water activity is said of the amounts as printed.
"""

from __future__ import annotations

from datetime import date

from pellicle import parameter
from pellicle.answers.cure_line import cure_line
from pellicle.answers.curve import curve, point, weight_at_mpr
from pellicle.answers.figures import plan_figures
from pellicle.answers.lines import plan_lines
from pellicle.answers.matching import match
from pellicle.answers.plan_answer import PlanAnswer, Pull, Worth, YieldAt
from pellicle.answers.quantities import cure_figures, quantities
from pellicle.answers.racks import racks_at
from pellicle.answers.remarks import assumptions, facts
from pellicle.answers.schedule_rows import schedule_rows
from pellicle.answers.sentence import sentence
from pellicle.answers.sources import plan_sources
from pellicle.answers.wet_lots import wet_lots
from pellicle.answers.working import Working, after_lots, work_out
from pellicle.answers.worth import worth
from pellicle.formula.printed import PERCENT
from pellicle.formula.restricted import ACCELERATOR_GROUP, PHOSPHATE_GROUP
from pellicle.formula.yields import bases, yields
from pellicle.message import Message, message
from pellicle.product import Product
from pellicle.rules.cautions import cautions
from pellicle.rules.cure_check import ingoing_findings
from pellicle.rules.gather import blocks_weighing, checks, over, refuse_over_twice
from pellicle.rules.limits import by_id
from pellicle.rules.situation import situation_of
from pellicle.rules.verdict import Check, in_order
from pellicle.study.draws import Prior
from pellicle.units import both

# How many further lots the worth of readings is shown for.
FURTHER_LOTS = 3
JERKY = by_id("us-mpr-jerky")


def plan(
    product: Product,
    raw_kg: float | None = None,
    total_kg: float | None = None,
    on: date | None = None,
    like: Product | None = None,
    drip: Prior | None = None,
) -> PlanAnswer:
    """Return the plan of a product for a green weight or a total [kg] (its own where neither is given), on a day's
    rules.

    ``like`` is another product whose taste per bite is to be matched; ``drip`` what is known of the share that drips,
    in place of the guess. InputError for a product that cannot be worked out, or whose cure stands over twice its
    limit; over the limit the answer comes with ``refused`` set and no amounts.
    """
    day = on or date.today()
    work = work_out(product, raw_kg, total_kg, drip)
    cure = cure_figures(work)
    situation = situation_of(product, day, bool(work.formula.liquid_parts))
    at_pull = point(work.batch, work.pull.kg, work.pull.kg, message("answers.mark_pull"))
    amounts = quantities(work, cure, at_pull)
    refuse_over_twice(situation, amounts)
    found = in_order([*wet_lots(work), *checks(product, amounts, day)])
    refused = _refusal(found, work)
    warned = cautions(product, amounts)
    pull = _withheld(work) if refused else _pull(work, product.meat.raw_kg)
    nitrite = next(iter(ingoing_findings(situation, cure)), None)
    cured = None if nitrite is None else cure_line(cure, nitrite)
    return PlanAnswer(
        product=product.name,
        jurisdiction=product.jurisdiction,
        on=day.isoformat(),
        sentence=sentence(
            pull,
            found,
            refused,
            any(source.silent_on for source in cure.sources),
            bool(product.schedule) and drip is None,
        ),
        refused=refused,
        raw_kg=work.formula.raw_kg,
        total_kg=None if refused else work.formula.total_kg,
        marinated_kg=None if refused else work.marinated.kg,
        marinated_low_kg=None if refused else work.marinated.low_kg,
        marinated_high_kg=None if refused else work.marinated.high_kg,
        lines=plan_lines(product, work.exact, work.formula, work.finished, refused is not None),
        cure=cured,
        pull=pull,
        curve=() if refused else curve(work.batch, work.pull.kg, _marks(work)),
        yields=() if refused else _yields(work),
        checks=found,
        cautions=warned,
        assumptions=assumptions(work),
        facts=facts(work),
        sources=plan_sources(work, found, warned),
        flags=tuple(warning.id for warning in work.warnings),
        like=None if like is None or refused else match(work, work_out(like)),
        scale_division_kg=product.scale_division_kg,
        schedule=() if refused else schedule_rows(product, work.formula.raw_kg, work.marinated.kg),
        figures={} if refused else plan_figures(work, pull, at_pull, cured),
    )


def _refusal(found: tuple[Check, ...], work: Working) -> Message | None:
    """The finding over which nothing may be weighed, with the most that may be of what is over, or None."""
    if not blocks_weighing(found):
        return None
    first = next(check for check in found if over(check))
    if first.id.startswith("cure.") or not first.value or first.limit is None:
        return message("answers.refused", title=str(first.title), why=str(first.why))
    group = next((group for group in (ACCELERATOR_GROUP, PHOSPHATE_GROUP) if group in first.id), None)
    kg = sum(part.kg for part in work.formula.parts if part.ingredient.group == group)
    if not kg:
        return message("answers.refused", title=str(first.title), why=str(first.why))
    most = both(kg * first.limit / first.value)
    return message("answers.refused_restricted", title=str(first.title), why=str(first.why), most=most)


def _withheld(work: Working) -> Pull:
    return Pull(
        work.target_aw, work.product.target.confidence, None, None, None, None, None, None, None, None, work.piece_sd
    )


def _pull(work: Working, file_raw_kg: float | None) -> Pull:
    found, formula = work.pull, work.formula
    return Pull(
        aw=work.target_aw,
        confidence=work.product.target.confidence,
        kg=found.kg,
        percent_of_raw=formula.percent_of_raw(found.kg),
        percent_of_marinated=PERCENT * found.kg / work.marinated.kg,
        low_kg=found.low_kg,
        high_kg=found.high_kg,
        likely_kg=found.likely_kg,
        batch_mean_aw=found.mean_aw,
        reading_at_most=found.aim_aw,
        piece_sd=work.piece_sd,
        racks=racks_at(found.kg, work, file_raw_kg),
        worth=_worth(work),
    )


def _worth(work: Working) -> tuple[Worth, ...]:
    weighed = work.product.uptake.marinated_share is not None or not work.formula.solution_kg
    pickup_sd = parameter.value("weighing_sd", work.product.model) * work.marinated.kg
    return worth(
        work.priors,
        work.pull_of,
        work.formula.raw_kg,
        {FURTHER_LOTS: after_lots(work, FURTHER_LOTS)},
        None if weighed else pickup_sd / work.formula.solution_kg,
    )


def _marks(work: Working) -> dict[float, Message]:
    marks = {work.pull.kg: message("answers.mark_pull")}
    if JERKY.limit is not None and work.product.name_class:
        kg = weight_at_mpr(work.batch, JERKY.limit)
        if kg < work.marinated.kg:
            marks[kg] = message("answers.mark_mpr", mpr=f"{JERKY.limit:.2f}")
    return marks


def _yields(work: Working) -> tuple[YieldAt, ...]:
    weights = bases(work.product.meat, work.formula.raw_kg, work.marinated.kg)
    return tuple(
        YieldAt(str(found.base.label), found.base_kg, found.percent) for found in yields(work.pull.kg, weights)
    )
