"""What is left of the nitrite in the product: judged on a bound that takes nothing as used up, or left to an analysis.

How much nitrite disappears on the way is not computed. The bound counts every agent that went in, nitrate turned into
nitrite, on the weight at the pull; a product that dries to half its weight holds twice the ingoing figure by it.
Where even that is within a limit on the finished product the limit is met; otherwise only an analysis can tell. A
limit on residues also counts what spices, water and vegetables bring, so no plan can meet it.
"""

from __future__ import annotations

from pellicle.formula.cure_figures import CureFigures
from pellicle.formula.ions import As, factor, nitrate_as_nitrite
from pellicle.message import message
from pellicle.product import Storage
from pellicle.rules.figures import known
from pellicle.rules.limits import Basis, Limit, Use, in_force
from pellicle.rules.situation import FISH, Situation
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import apart, plain, together

DIGITS = 1  # decimals of a figure in ppm


def remaining_checks(situation: Situation, cure: CureFigures) -> list[Check]:
    """Return the checks on nitrite in the finished product and on residues, for the rows of the situation."""
    if situation.species == FISH:
        return []
    bound_ppm = undepleted_ppm(cure)
    found = []
    for row in in_force(situation.on, situation.code, "cure"):
        if not row.judged or row.basis not in (Basis.FINISHED, Basis.RESIDUAL):
            continue
        if row.condition == "not bacon" and situation.storage is Storage.BACON:
            continue
        found.append(
            _finished(row, bound_ppm, known(cure)) if row.basis is Basis.FINISHED else _residual(row, bound_ppm)
        )
    return found


def undepleted_ppm(cure: CureFigures) -> float | None:
    """Return the most nitrite the finished product can hold [ppm as NaNO2]: nothing used up, nitrate turned into it.

    None where a label is silent or the finished weight is not known. Source: ratio of molar masses.
    """
    figures = [
        agent.expressed(agent.finished_ppm, As.SODIUM) if agent.kg else 0.0 if agent.kg is not None else None
        for agent in cure.agents
    ]
    nitrite, nitrate = figures
    return None if nitrite is None or nitrate is None else nitrite + nitrate_as_nitrite(nitrate)


def _finished(row: Limit, bound_ppm: float | None, labels_say: bool) -> Check:
    limit = row.limit or 0.0
    if bound_ppm is None:
        id = "no_weight" if labels_say else "unknown"
        verdict, why = Verdict.CANNOT_TELL, message(f"rules.finished_{id}", limit=plain(limit))
    else:
        value, text = apart(bound_ppm, limit, DIGITS)
        met = row.met_by(bound_ppm)
        verdict = Verdict.MET if met else Verdict.CANNOT_TELL
        why = message("rules.finished_within" if met else "rules.finished_bound", value=value, limit=text)
    return Check(
        id="cure.nitrite_finished",
        title=message("rules.title_nitrite_finished"),
        verdict=verdict,
        why=why,
        value=bound_ppm,
        limit=limit,
        unit=row.unit,
        margin=None if bound_ppm is None else limit - bound_ppm,
        digits=DIGITS,
        clause=row.clause,
        sources=row.sources,
        blocking=row.use is Use.BLOCKS,
        group=Group.RULE if row.use is Use.BLOCKS else Group.INFORMATION,
    )


def _residual(row: Limit, bound_ppm: float | None) -> Check:
    most = None if bound_ppm is None else bound_ppm * factor("nitrite", "sodium", As.ION)
    limit = row.limit or 0.0
    return Check(
        id="cure.nitrite_residual",
        title=message("rules.title_nitrite_residual"),
        verdict=Verdict.CANNOT_TELL,
        why=together(
            message("rules.residual", limit=plain(limit), counted=row.counted_as),
            None if most is None else message("rules.residual_bound", value=f"{most:.{DIGITS}f}"),
            message("rules.to_verify") if row.to_verify else None,
        ),
        limit=limit,
        unit=row.unit,
        digits=DIGITS,
        clause=row.clause,
        sources=row.sources,
        blocking=row.use is Use.BLOCKS,
        group=Group.RULE if row.use is Use.BLOCKS else Group.INFORMATION,
    )
