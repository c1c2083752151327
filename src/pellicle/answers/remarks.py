"""What a plan rests on, said plainly: assumptions it had to make, facts of the formula worth knowing, flags."""

from __future__ import annotations

from pellicle.answers.working import Working
from pellicle.formula.parts import SATURATED_BRINE_PERCENT
from pellicle.formula.printed import PERCENT
from pellicle.message import Message, message
from pellicle.product import CureMethod
from pellicle.rules.own_limits import strictest_aw
from pellicle.units import show_mass

AW_DIGITS = 2


def assumptions(work: Working) -> tuple[Message, ...]:
    """Return what was assumed where the product file says nothing, in the order of the work."""
    found = [message("answers.assumed_meat", meat=work.formula.meat.name)] if work.product.meat.per_100g is None else []
    found += [work.marinated.how, *work.marinated.notes]
    # a passage can tell how unlike the pieces are before they have evened out
    spread = "assumed_spread_run" if work.product.schedule else "assumed_spread"
    found.append(message(f"answers.{spread}", sd=f"{work.piece_sd:.3f}"))
    found.append(message("answers.assumed_losses"))
    for part in (work.formula.meat, *(part.ingredient for part in work.formula.parts)):
        if part.normalised is not None:
            found.append(message("answers.fact_normalised", name=part.name, what=str(part.normalised)))
    found.extend((*work.correction.remarks, *work.applied.remarks))
    return tuple(found)


def facts(work: Working) -> tuple[Message, ...]:
    """Return what is worth knowing of the formula and of the figures."""
    formula, product = work.formula, work.product
    over = formula.brine_percent > SATURATED_BRINE_PERCENT
    found = [
        message(
            "answers.fact_salt_undissolved" if over else "answers.fact_salt",
            percent=f"{formula.percent_of_raw(formula.salt_kg):.2f} %",
            brine=f"{formula.brine_percent:.1f} %",
        )
    ]
    if work.marinated.taken_share < MOSTLY_TAKEN:
        found.append(message("answers.fact_mostly_left", share=f"{PERCENT * (1 - work.marinated.taken_share):.0f} %"))
    own = strictest_aw(product.plan.limits)
    if own is not None and own == work.target_aw < product.target.limit:
        found.append(message("answers.fact_own_target", limit=f"{own:g}"))
    elif work.target_aw < product.target.limit:
        found.append(
            message(
                "answers.fact_target",
                limit=f"{product.target.limit:.{AW_DIGITS}f}",
                used=f"{work.target_aw:.{AW_DIGITS}f}",
            )
        )
    found += [coarse.message for coarse in work.rounded.too_coarse]
    for part in (formula.meat, *(part.ingredient for part in formula.parts)):
        found += [message("answers.fact_of", name=part.name, what=str(remark)) for remark in part.remarks]
    if product.cure_method is CureMethod.RUBBED and formula.liquid_parts:
        names = ", ".join(part.ingredient.label for part in formula.liquid_parts)
        found.append(message("answers.fact_rubbed_liquid", names=names))
    if product.schedule:
        found.append(message("answers.fact_schedule"))
    poured = float(work.marinated.discarded.total)
    if poured > LEAST_POURED * formula.raw_kg:
        share = f"{PERCENT * (1 - work.marinated.taken_share):.0f} %"
        found.append(message("answers.fact_poured", kg=show_mass(poured), share=share))
    found += list(work.warnings)
    return tuple(found)


# With less than half of the solution taken up, a pickup or an amount is more likely mistyped than meant. Own choice.
MOSTLY_TAKEN = 0.5
# Less solution than this left over, per kg of meat, is a film in the tumbler. Own choice.
LEAST_POURED = 1e-3
