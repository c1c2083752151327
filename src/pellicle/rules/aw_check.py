"""Water activity at the pull, against the product's limit.

0.85 is the limit for every pack unless the product names its support. A plan predicts and does not read, so a plan
alone never meets the limit: the verdict waits for readings of the batch. 0.85 is not a limit for mould, and the check
says so.
"""

from __future__ import annotations

from collections.abc import Sequence

from pellicle.message import Message, message
from pellicle.product import AwTarget, Pack
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.limits import by_id, within
from pellicle.rules.situation import Situation
from pellicle.rules.verdict import Check, Verdict
from pellicle.rules.words import plain, together

DIGITS = 2  # water activity is shown with two decimals
OPEN_PACK = by_id("us-aw-air")
"""The limit that holds in every pack without a named support."""


def aw_check(situation: Situation, target: AwTarget, quantities: PlanQuantities) -> Check:
    """Return the check of the product's water activity; ``cannot tell`` for every plan, with what is missing."""
    open_limit = OPEN_PACK.limit or 0.0
    why: Sequence[Message | None]
    governs = target.limit
    if not within(target.limit, open_limit) and (gaps := missing_support(target, situation.pack)):
        governs = open_limit
        list_of_gaps = ", ".join(str(gap) for gap in gaps)
        why = [message("rules.aw_above", limit=plain(target.limit), open=plain(open_limit), gaps=list_of_gaps)]
    else:
        why = [_prediction(target, quantities), _support(target, open_limit)]
    return Check(
        id="aw.limit",
        title=message("rules.title_aw"),
        verdict=Verdict.CANNOT_TELL,
        why=together(*why, message("rules.aw_mould_air" if situation.pack is Pack.AIR else "rules.aw_mould_opened")),
        value=quantities.aw_at_pull,
        limit=governs,
        margin=None if quantities.aw_at_pull is None else governs - quantities.aw_at_pull,
        digits=DIGITS,
        clause=OPEN_PACK.clause if within(governs, open_limit) else target.support,
        sources=OPEN_PACK.sources,
    )


def missing_support(target: AwTarget, pack: Pack) -> tuple[Message, ...]:
    """Return what a limit above 0.85 still lacks: a named support, evidence of residual oxygen, an opening plan, a pack
    without air."""
    gaps = []
    if not target.support.strip():
        gaps.append(message("rules.gap_support"))
    if pack is Pack.AIR:
        gaps.append(message("rules.gap_pack"))
    if not target.oxygen_evidence.strip():
        gaps.append(message("rules.gap_oxygen"))
    if not target.opening_plan.strip():
        gaps.append(message("rules.gap_opening"))
    return tuple(gaps)


def _prediction(target: AwTarget, quantities: PlanQuantities) -> Message:
    if not quantities.pull_known or quantities.aw_at_pull is None:
        return message("rules.aw_no_pull", limit=plain(target.limit))
    low, high = quantities.aw_low, quantities.aw_high
    return message(
        "rules.aw_predicted",
        limit=plain(target.limit),
        aw=f"{quantities.aw_at_pull:.{DIGITS}f}",
        low="?" if low is None else f"{low:.{DIGITS}f}",
        high="?" if high is None else f"{high:.{DIGITS}f}",
    )


def _support(target: AwTarget, open_limit: float) -> Message | None:
    return None if within(target.limit, open_limit) else message("rules.aw_supported", support=target.support)
