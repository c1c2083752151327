"""The largest amount of one cure that keeps to a limit, all other ingredients staying as they are."""

from __future__ import annotations

from pellicle.formula.cure import DRY, permitted_cure_kg
from pellicle.formula.cure_figures import CureFigures, CureSource
from pellicle.formula.ions import As


def largest_lawful_kg(
    figures: CureFigures, source: CureSource, limit_ppm: float, agent: str = "nitrite", to: As = As.WEIGHED
) -> float | None:
    """Return the largest mass [kg] of ``source`` that keeps the method's official figure to ``limit_ppm``.

    ``source`` is one of ``figures.sources``; ``to`` is what the limit is expressed as. What other sources bring counts,
    and the pickle grows with the cure. Where the sum needs a pickup that is not known, everything counts as taken up.
    None where no amount of it would pass the limit, or where another label is silent on the agent.
    """
    others = [other for other in figures.sources if other is not source]
    if any(agent in other.silent_on for other in others) or not source.kg:
        return None
    return permitted_cure_kg(
        limit_ppm,
        source.agent_kg(agent, to) / source.kg,
        figures.base or DRY,
        figures.green_kg,
        figures.pickle_kg - source.kg if figures.pickle_kg else 0.0,
        sum(other.agent_kg(agent, to) for other in others),
    )
