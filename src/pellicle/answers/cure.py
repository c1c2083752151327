"""What ``cure`` answers: a few weights by the official sum of a method, against the limit of a place and a day.

A calculator judges and never refuses: an amount far over its limit is shown with its figure, and with the most that
keeps to the limit.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pellicle.errors import InputError
from pellicle.formula.cure_figures import CureFigures, from_numbers
from pellicle.message import Message, message
from pellicle.product import CureMethod, Form, Maker, Storage
from pellicle.rules.cure_check import CureFinding, cure_checks, ingoing_findings
from pellicle.rules.situation import Situation
from pellicle.rules.verdict import Check, Verdict, in_order
from pellicle.source import Source, cited


@dataclass(frozen=True, slots=True)
class CureCalcAnswer:
    """The cure of a few weights, judged. Figures are ppm (mg/kg) counted as the limit counts them, said in ``basis``.

    ``check`` is the one that decides (nitrite; nitrate where it stands worse or alone), ``checks`` all of them.
    ``as_weighed_ppm`` is the ingoing figure of the salts as they were weighed. ``worst_case_ppm`` has all of the cure
    in the meat; ``other_official_ppm`` is the second official sum of an immersion.
    """

    agent: str
    method: str
    jurisdiction: str
    on: str
    ingoing_ppm: float | None
    as_weighed_ppm: float | None
    basis: Message
    limit_ppm: float | None
    verdict: str
    worst_case_ppm: float | None
    other_official_ppm: float | None
    largest_lawful_kg: float | None
    arithmetic: tuple[Message, ...]
    check: Check
    checks: tuple[Check, ...]
    sources: tuple[Source, ...]
    finished_undepleted_ppm: float | None = None


def cure_answer(
    method: CureMethod | None,
    meat_kg: float,
    cure_kg: float,
    nitrite_share: float,
    pickle_kg: float | None = None,
    pickup_share: float | None = None,
    jurisdiction: str = "us",
    on: date | None = None,
    form: Form = Form.WHOLE_MUSCLE,
    storage: Storage = Storage.SHELF_STABLE,
    potassium: bool = False,
    nitrate_share: float | None = None,
    maker: Maker = Maker.INSPECTED,
) -> CureCalcAnswer:
    """Return the ingoing cure and its verdict for ``cure_kg`` of a cure on ``meat_kg`` of green weight.

    ``nitrite_share`` and ``nitrate_share`` are the strengths on the label (kg/kg), ``pickle_kg`` the whole pickle
    with the cure in it, ``pickup_share`` what the meat takes up of it per green weight. Without a pickle the cure is
    reckoned on the green weight. InputError where a method needs a pickle or a pickup that is not given, or cannot
    have one.

    >>> answer = cure_answer(CureMethod.TUMBLED, 100, 0.25, 0.0625, on=date(2026, 1, 1))
    >>> answer.ingoing_ppm, answer.limit_ppm, answer.verdict
    (156.25, 200.0, 'met')
    """
    _refuse_combination(method, pickle_kg, pickup_share)
    if not nitrite_share and not nitrate_share:
        raise InputError("rules.no_agent", field="--nitrite")
    cure = from_numbers(
        method, meat_kg, cure_kg, nitrite_share, nitrate_share or 0.0, potassium, pickle_kg, pickup_share
    )
    situation = Situation(
        jurisdiction, on or date.today(), method, form, storage, maker, added_liquid=bool(cure.liquids)
    )
    return _answer(situation, cure)


def _refuse_combination(method: CureMethod | None, pickle_kg: float | None, pickup_share: float | None) -> None:
    if method is CureMethod.GROUND and pickle_kg is not None:
        raise InputError("rules.ground_with_pickle", field="--pickle")
    if method in (CureMethod.INJECTED, CureMethod.IMMERSION_PICKUP) and pickle_kg is not None and pickup_share is None:
        raise InputError("rules.pickup_needed", field="--pickup", method=method.value)


def _answer(situation: Situation, cure: CureFigures) -> CureCalcAnswer:
    findings = ingoing_findings(situation, cure)
    order = list(Verdict)
    finding: CureFinding = min(findings, key=lambda each: order.index(each.check.verdict))
    figures = next(agent for agent in cure.agents if finding.check.id == f"cure.{agent.agent}")
    arithmetic = [line for agent in cure.agents if agent.kg for line in agent.arithmetic]
    if finding.limit is not None and finding.ppm is not None and finding.ppm != figures.ingoing_ppm:
        arithmetic.append(
            message(
                "rules.sum_counted",
                weighed=f"{figures.ingoing_ppm:.1f}",
                counted=finding.limit.counted_as,
                value=f"{finding.ppm:.1f}",
            )
        )
    checks = in_order(list(cure_checks(situation, cure)))
    return CureCalcAnswer(
        agent=figures.agent,
        method=cure.method.value if cure.method is not None else "",
        jurisdiction=situation.jurisdiction,
        on=situation.on.isoformat(),
        ingoing_ppm=finding.ppm,
        as_weighed_ppm=figures.ingoing_ppm,
        basis=finding.basis,
        limit_ppm=finding.check.limit,
        verdict=finding.check.verdict.value,
        worst_case_ppm=finding.worst_case_ppm,
        other_official_ppm=finding.other_official_ppm,
        largest_lawful_kg=finding.largest_lawful_kg,
        arithmetic=tuple(arithmetic),
        check=finding.check,
        checks=checks,
        sources=cited([key for check in checks for key in check.sources]),
    )
