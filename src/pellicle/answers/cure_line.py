"""The cure of a plan in one line: the official figure, its limit and verdict, and the sum it comes from."""

from __future__ import annotations

from pellicle.answers.plan_answer import CureAnswer
from pellicle.formula.cure_figures import CureFigures
from pellicle.rules.cure_check import CureFinding

UNSTATED = "not stated"


def cure_line(cure: CureFigures, finding: CureFinding) -> CureAnswer:
    """Return the cure's answer from its figures and the finding on its first agent, counted as its limit counts."""
    agents = {agent.agent: agent for agent in cure.agents}
    agent = finding.check.id.removeprefix("cure.")
    told = agents[agent].why_unknown is None or agents[agent].ingoing_ppm is not None
    return CureAnswer(
        agent=agent,
        method=str(cure.method or UNSTATED),
        ingoing_ppm=finding.ppm if told else None,
        basis=str(finding.basis),
        limit_ppm=finding.check.limit,
        verdict=str(finding.check.verdict),
        worst_case_ppm=finding.worst_case_ppm,
        finished_undepleted_ppm=agents[agent].finished_ppm,
        largest_lawful_kg=finding.largest_lawful_kg,
        arithmetic=tuple(line for figures in cure.agents for line in figures.arithmetic),
        sources=finding.check.sources,
        other_official_ppm=finding.other_official_ppm,
    )
