"""Moisture to protein as the name of a product had it: dated information about a label, never a limit of keeping."""

from __future__ import annotations

from pellicle.message import message
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.names import name_row, names_within
from pellicle.rules.situation import Situation
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import apart, plain

DIGITS = 2
BEEF = "beef"


def mpr_checks(situation: Situation, name_class: str, quantities: PlanQuantities) -> tuple[Check, ...]:
    """Return what moisture to protein at the pull means for the name, as information; nothing where it has no row."""
    row = name_row(name_class, situation.jurisdiction) if name_class else None
    hint = _hint(situation, quantities)
    if row is None or row.limit is None:
        return hint
    mpr, verdict, id = quantities.mpr_at_pull, Verdict.CANNOT_TELL, "unknown"
    standing = row.in_force(situation.on)
    value, limit = ("", plain(row.limit)) if mpr is None else apart(mpr, row.limit, DIGITS)
    if not standing:
        id = "ended" if mpr is not None else "ended_unknown"
    elif mpr is not None:
        # a prediction can speak against a name; for it, only an analysis can
        verdict, id = (Verdict.CANNOT_TELL, "within") if row.met_by(mpr) else (Verdict.NOT_MET, "missed")
    check = Check(
        id="mpr.name",
        title=message("rules.title_mpr", name=row.product),
        verdict=verdict,
        why=message(
            f"rules.mpr_{id}",
            value=value,
            limit=limit,
            name=row.product,
            until=row.until.isoformat() if row.until is not None else "",
            on=situation.on.isoformat(),
        ),
        group=Group.INFORMATION,
        value=mpr,
        limit=row.limit if standing else None,
        margin=None if mpr is None or not standing else row.limit - mpr,
        digits=DIGITS,
        clause=row.clause,
        sources=row.sources,
        blocking=False,
    )
    return (check, *(hint if verdict is Verdict.NOT_MET else ()))


def _hint(situation: Situation, quantities: PlanQuantities) -> tuple[Check, ...]:
    mpr = quantities.mpr_at_pull
    rows = names_within(mpr, situation.on, situation.jurisdiction) if mpr is not None else ()
    # a name that says beef is no name for other meat; a species not told is not held against it
    rows = tuple(row for row in rows if BEEF not in row.product or situation.species in ("", BEEF))
    if mpr is None or not rows:
        return ()
    names = ", ".join(f"{row.product} ({plain(row.limit or 0.0)})" for row in rows)
    return (
        Check(
            id="mpr.names",
            title=message("rules.title_mpr_names"),
            verdict=Verdict.CANNOT_TELL,
            why=message("rules.mpr_names", value=f"{mpr:.{DIGITS}f}", names=names),
            group=Group.INFORMATION,
            value=mpr,
            digits=DIGITS,
            clause=rows[0].clause,
            sources=tuple(dict.fromkeys(key for row in rows for key in row.sources)),
            blocking=False,
        ),
    )
