"""Checks that a plan can only announce: lethality waits for a run, comparisons with a neighbouring rule inform."""

from __future__ import annotations

from pellicle.message import message
from pellicle.rules.figures import PlanQuantities, brought
from pellicle.rules.limits import Limit, in_force
from pellicle.rules.situation import Situation
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import apart

PERCENT = 100.0
DIGITS = {"brine": 1, "aw": 2}


def lethality_check(situation: Situation, poultry: bool) -> Check:
    """Return the check on lethality: no plan can tell; it says what the run has to show and record."""
    return Check(
        id="lethality",
        title=message("rules.title_lethality"),
        verdict=Verdict.CANNOT_TELL,
        why=message("rules.lethality_poultry" if poultry else "rules.lethality_meat"),
        sources=("us-cooking-guideline-2021",) if situation.code == "us" else ("lethality-review",),
    )


def comparison_checks(situation: Situation, quantities: PlanQuantities) -> tuple[Check, ...]:
    """Return how the pull compares with the United States' rule for country-style cured pork, as information.

    It is written for whole hams and shoulders, so it is shown for pork; it is one of few rules that put a figure on
    brine.
    """
    if not quantities.pull_known or (situation.code, situation.species) != ("us", "pork"):
        return ()
    wanted = "with nitrite" if brought(quantities.cure) else "no nitrite"
    rows = [
        row
        for topic in ("brine", "aw")
        for row in in_force(situation.on, "us", topic)
        if row.product.startswith("country-style") and row.condition == wanted
    ]
    checks = [_comparison(row, quantities) for row in rows]
    return tuple(check for check in checks if check is not None)


def _comparison(row: Limit, quantities: PlanQuantities) -> Check | None:
    kind = row.id.split("-")[1]
    share = {"brine": quantities.brine_share, "salt": quantities.salt_share, "aw": quantities.aw_at_pull}[kind]
    if share is None or row.limit is None:
        return None
    value = share * PERCENT if row.unit else share
    digits = DIGITS[row.topic]
    shown, limit = apart(value, row.limit, digits)
    side = "inside" if row.met_by(value) else "outside"
    return Check(
        id=f"comparison.{kind}",
        title=message(f"rules.title_comparison_{kind}"),
        verdict=Verdict.CANNOT_TELL,
        why=message(f"rules.comparison_{side}", value=shown, limit=limit, unit=row.unit, bound=row.bound),
        group=Group.INFORMATION,
        value=value,
        limit=row.limit,
        unit=row.unit,
        direction=row.bound,
        digits=digits,
        clause=row.clause,
        sources=row.sources,
        blocking=False,
    )
