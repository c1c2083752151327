"""What may be shown of a plan whose cure stands over its limit: the finding, and no amount to weigh."""

from __future__ import annotations

import dataclasses
from types import MappingProxyType

from pellicle.answers.plan_answer import PlanAnswer


def withheld(answer: PlanAnswer) -> PlanAnswer:
    """Return the answer as it may be shown; one that is refused keeps its finding, checks and cautions only.

    Taken away are every amount, the pull weight, the curve, the yields, the schedule with the weights at which its
    steps end, and remarks in which an amount could stand. What is left says what is wrong and the largest lawful amount
    of that cure. Every rendering passes through here, so that none of them depends on the answer having been emptied
    already.
    """
    if answer.refused is None:
        return answer
    pull = dataclasses.replace(
        answer.pull,
        kg=None,
        percent_of_raw=None,
        percent_of_marinated=None,
        low_kg=None,
        high_kg=None,
        likely_kg=None,
        racks=(),
        worth=(),
    )
    lines = tuple(
        dataclasses.replace(line, kg=None, exact_kg=None, percent_of_finished=None, carries=()) for line in answer.lines
    )
    return dataclasses.replace(
        answer,
        total_kg=None,
        marinated_kg=None,
        marinated_low_kg=None,
        marinated_high_kg=None,
        lines=lines,
        cure=dataclasses.replace(answer.cure, arithmetic=()) if answer.cure else None,
        pull=pull,
        curve=(),
        yields=(),
        schedule=(),
        assumptions=(),
        facts=(),
        like=None,
        figures=MappingProxyType({at: figure for at, figure in answer.figures.items() if at.startswith("/cure/")}),
    )
