"""Nitrite and nitrate against the limits of a jurisdiction and a day.

The ingoing amount is judged by the official sum of the method. An immersion has two official sums; it is met only
where both are within the limit, not met where the method's own is over, and cannot be told where only the other is.
What is left in the product is never predicted: a limit on it can be met by the bound that takes nothing as used up,
and otherwise waits for an analysis. Nothing is judged in a jurisdiction of which no row stands in the table.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from pellicle.errors import InputError
from pellicle.formula.cure_figures import AgentFigures, CureFigures
from pellicle.message import Message, message
from pellicle.product import CureMethod, Maker, Storage
from pellicle.rules.figures import Lawful, all_potassium, brought, factor_to, known, largest_lawful
from pellicle.rules.limits import Basis, Bound, Limit, Use, jurisdictions, select, within
from pellicle.rules.remaining_check import remaining_checks
from pellicle.rules.situation import FISH, CureClass, Situation, cure_class
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import apart, cut_mass, plain, together

DIGITS = 1  # decimals of a figure in ppm
IMMERSIONS = (CureMethod.IMMERSION_PICKUP, CureMethod.IMMERSION_WHOLE)
REFUSED_ABOVE = 2  # times the limit: above this a line is refused


@dataclass(frozen=True, slots=True)
class CureFinding:
    """A check on a curing agent with the figures behind it, all counted as the limit counts (``basis`` in words).

    ``largest_lawful_kg`` is the most of that cure that keeps to the limit; None where no single cure brings the agent
    or no limit is judged.
    """

    check: Check
    limit: Limit | None
    basis: Message
    ppm: float | None = None
    other_official_ppm: float | None = None
    worst_case_ppm: float | None = None
    largest_lawful_kg: float | None = None


def cure_checks(situation: Situation, cure: CureFigures | None) -> tuple[Check, ...]:
    """Return every check on nitrite and nitrate: ingoing, minimum, what remains; one line where there is none."""
    if cure is None or not brought(cure):
        return (_none(),)
    found = [finding.check for finding in ingoing_findings(situation, cure)]
    found += _minimum(situation, cure)
    found += remaining_checks(situation, cure)
    return tuple(found)


def ingoing_findings(situation: Situation, cure: CureFigures) -> tuple[CureFinding, ...]:
    """Return one finding for each agent that goes in; nitrite first, and also where only its label is silent."""
    return tuple(ingoing(situation, cure, agent) for agent in brought(cure))


def ingoing(situation: Situation, cure: CureFigures, agent: AgentFigures) -> CureFinding:
    """Return the finding on one agent's ingoing amount."""
    judged_as = cure_class(situation)
    row = _row(situation, judged_as, agent, Bound.AT_MOST)
    ppm = agent.ingoing_ppm if known(cure, agent.agent) else agent.at_least_ppm
    check = Check(
        id=f"cure.{agent.agent}",
        title=message(f"rules.title_{agent.agent}"),
        verdict=Verdict.CANNOT_TELL,
        why=_no_row(situation, agent.agent),
        value=ppm,
        unit="ppm",
        digits=DIGITS,
    )
    if row is None or row.limit is None:
        return CureFinding(check, None, _basis(agent, None), ppm, agent.other_official_ppm, agent.worst_case_ppm)
    factor = factor_to(agent, row.counted_as)
    ppm, other, worst = (
        None if value is None else value * factor for value in (ppm, agent.other_official_ppm, agent.worst_case_ppm)
    )
    lawful = largest_lawful(cure, agent, row.limit / factor)
    unsummed = cure.method in IMMERSIONS and other is None and (worst is None or not row.met_by(worst))
    verdict, reasons = _verdict(row, ppm, other, agent, known(cure, agent.agent), unsummed)
    why = together(
        judged_as.why,
        *reasons,
        _lawful(lawful) if verdict is Verdict.NOT_MET else None,
        message("rules.home_guide") if situation.maker is Maker.HOME else None,
        message("rules.to_verify") if row.to_verify else None,
    )
    check = replace(
        check,
        verdict=verdict,
        why=why,
        value=ppm if known(cure, agent.agent) or verdict is Verdict.NOT_MET else None,
        limit=row.limit,
        unit=row.unit,
        margin=None if ppm is None else row.limit - ppm,
        clause=row.clause,
        sources=row.sources,
        blocking=row.use is Use.BLOCKS,
    )
    return CureFinding(check, row, _basis(agent, row), ppm, other, worst, lawful.kg if lawful is not None else None)


def refuse_cure_over_twice(situation: Situation, cure: CureFigures | None, field: str = "formula") -> None:
    """Raise InputError where an agent goes in at more than twice its limit; elsewhere the United States' stands in.

    There is no way around it: an amount that far out is a slip of a decimal or a unit, or a danger, and nothing that
    could be weighed by is printed for it. What a silent label may add on top is not counted.
    """
    for agent in brought(cure):
        row = _row_or_stand_in(situation, agent)
        ppm = agent.at_least_ppm if agent.at_least_ppm is not None else agent.other_official_ppm
        if cure is None or row is None or row.limit is None or ppm is None:
            continue
        factor = factor_to(agent, row.counted_as)
        if within(ppm * factor, REFUSED_ABOVE * row.limit):
            continue
        lawful = largest_lawful(cure, agent, row.limit / factor)
        raise InputError(
            "rules.over_twice" if lawful is None else "rules.over_twice_lawful",
            field=field,
            agent=agent.agent,
            value=f"{ppm * factor:.{DIGITS}f}",
            limit=plain(row.limit),
            unit=row.unit,
            clause=row.clause,
            name=lawful.name if lawful is not None else "",
            lawful=cut_mass(lawful.kg) if lawful is not None else "",
        )


def _row_or_stand_in(situation: Situation, agent: AgentFigures) -> Limit | None:
    row = _row(situation, cure_class(situation), agent, Bound.AT_MOST)
    if row is not None:
        return row
    stand_in = replace(situation, jurisdiction="us", species="")
    return _row(stand_in, cure_class(stand_in), agent, Bound.AT_MOST)


def _row(situation: Situation, judged_as: CureClass, agent: AgentFigures, bound: Bound) -> Limit | None:
    """The ingoing row of the agent; its salt has a row of its own in some tables. A mixture takes the sodium row."""
    if situation.species == FISH:
        return None
    salt = "potassium" if all_potassium(agent) else "sodium"
    names = (agent.agent, f"{salt} {agent.agent}")
    unstated = situation.method is None and bound is Bound.AT_MOST
    # each product's rows by themselves where the lowest of all is wanted; else the most particular product that has any
    wanted = [(product,) for product in judged_as.products] if unstated else [judged_as.products]
    every = [select(situation.on, situation.code, "cure", names_of, names, Basis.INGOING) for names_of in wanted]
    found = [row for rows in every for row in rows if row.bound is bound]
    if unstated:
        return min(found, key=lambda row: math.inf if row.limit is None else row.limit, default=None)
    return found[0] if found else None


def _verdict(
    row: Limit, ppm: float | None, other: float | None, agent: AgentFigures, labels_say: bool, unsummed: bool
) -> tuple[Verdict, tuple[Message, ...]]:
    limit = row.limit or 0.0
    if ppm is None and other is not None and not row.met_by(other):
        value, bound = apart(other, limit, DIGITS)
        return Verdict.NOT_MET, (message("rules.whole_sum_over", value=value, limit=bound, unit=row.unit),)
    if ppm is None:
        reason = message("rules.pickup_missing", limit=plain(limit), unit=row.unit)
        return Verdict.CANNOT_TELL, (reason,)
    value, bound = apart(ppm, limit, DIGITS)
    words = {"value": value, "limit": bound, "unit": row.unit, "clause": row.clause}
    if not row.met_by(ppm):
        return Verdict.NOT_MET, (message("rules.ingoing_over", **words),)
    if not labels_say:
        silent = message("rules.nitrite_unknown", **words)
        return Verdict.CANNOT_TELL, (silent,) if agent.why_unknown is None else (agent.why_unknown, silent)
    if other is not None and not row.met_by(other):
        second = apart(other, limit, DIGITS)[0]
        return Verdict.CANNOT_TELL, (message("rules.sums_disagree", other=second, **words),)
    if unsummed:
        return Verdict.CANNOT_TELL, (message("rules.other_sum_missing", **words),)
    if row.condition:
        condition = message(f"rules.condition_{row.condition.replace(' ', '_').replace('-', '_')}")
        return Verdict.CANNOT_TELL, (message("rules.ingoing_within", **words), condition)
    met = message("rules.ingoing_within", **words)
    return Verdict.MET, (met,) if other is None else (met, message("rules.sums_agree", other=f"{other:.{DIGITS}f}"))


def _minimum(situation: Situation, cure: CureFigures) -> list[Check]:
    agent = cure.nitrite
    least = [ppm for ppm in (agent.at_least_ppm, agent.other_official_ppm) if ppm is not None]
    judged_as = cure_class(situation)
    if situation.code == "us":
        if situation.storage is not Storage.REFRIGERATED:
            return []
        judged_as = CureClass(("keep refrigerated",), judged_as.why)
    row = _row(situation, judged_as, agent, Bound.AT_LEAST)
    if row is None or row.limit is None or not least or not max(least):
        return []
    ppm = min(least) * factor_to(agent, row.counted_as)
    value, bound = apart(ppm, row.limit, DIGITS)
    met = row.met_by(ppm)
    verdict = Verdict.MET if met else Verdict.NOT_MET if known(cure) else Verdict.CANNOT_TELL
    words = {"value": value, "limit": bound, "unit": row.unit, "clause": row.clause}
    return [
        Check(
            id="cure.nitrite_minimum",
            title=message("rules.title_nitrite_minimum"),
            verdict=verdict,
            why=message("rules.minimum_met" if met else "rules.minimum_missed", **words),
            value=ppm,
            limit=row.limit,
            unit=row.unit,
            direction=Bound.AT_LEAST,
            margin=ppm - row.limit,
            digits=DIGITS,
            clause=row.clause,
            sources=row.sources,
            blocking=row.use is Use.BLOCKS,
        )
    ]


def _none() -> Check:
    return Check(
        id="cure.none",
        title=message("rules.title_no_cure"),
        verdict=Verdict.MET,
        why=message("rules.no_cure"),
        group=Group.INFORMATION,
        blocking=False,
    )


def _no_row(situation: Situation, agent: str) -> Message:
    if situation.species == FISH:
        return message("rules.fish_cure")
    code = situation.jurisdiction
    if situation.code in jurisdictions(judged=True):
        return message("rules.no_ingoing_row", jurisdiction=code, agent=agent, on=situation.on.isoformat())
    if situation.code in jurisdictions():
        return message("rules.only_listed", jurisdiction=code)
    return message("rules.unknown_jurisdiction", jurisdiction=code, known=", ".join(jurisdictions(judged=True)))


def _basis(agent: AgentFigures, row: Limit | None) -> Message:
    """What the ppm are counted on and counted as: ``on green weight, everything taken up; counted as NO2``."""
    if row is None or row.counted_as == "as weighed":
        return message("rules.basis_weighed", on=str(agent.basis))
    return message("rules.basis_counted", on=str(agent.basis), counted=row.counted_as)


def _lawful(lawful: Lawful | None) -> Message | None:
    if lawful is None:
        return None
    return message("rules.largest_lawful", name=lawful.name, lawful=cut_mass(lawful.kg))
