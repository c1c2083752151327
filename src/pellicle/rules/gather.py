"""All checks of a plan, in the order of the pages, and whether they allow a list to weigh by."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from pellicle.message import Message, message
from pellicle.product import Product
from pellicle.rules.aw_check import aw_check
from pellicle.rules.cure_check import cure_checks, refuse_cure_over_twice
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.mpr_check import mpr_checks
from pellicle.rules.other_checks import comparison_checks, lethality_check
from pellicle.rules.own_limits import own_checks
from pellicle.rules.restricted_check import restricted_checks
from pellicle.rules.situation import Situation, situation_of
from pellicle.rules.verdict import Check, Verdict, in_order

WEIGHED = ("cure.", "restricted.")


def checks(product: Product, quantities: PlanQuantities, on: date) -> tuple[Check, ...]:
    """Return every check of a plan on a day: the plant's own limits first, then rules, then information.

    In each group what is not met stands first, then what cannot be told, then what is met.
    """
    situation = situation_of(product, on, quantities.added_liquid)
    found: list[Check] = [
        *own_checks(product.plan.limits, quantities),
        *cure_checks(situation, quantities.cure),
        *restricted_checks(situation, quantities),
        aw_check(situation, product.target, quantities),
        lethality_check(situation, product.poultry),
        *mpr_checks(situation, product.name_class, quantities),
        *comparison_checks(situation, quantities),
    ]
    return in_order(found)


def blocks_weighing(found: Sequence[Check]) -> Message | None:
    """Return why no amounts to weigh may be printed, a cure or other restricted ingredient over its limit; else None.

    Too little of something (a minimum) does not block weighing, nor does a limit that only an analysis can judge.
    """
    names = [str(check.title) for check in found if over(check)]
    return message("rules.blocks_weighing", names=", ".join(names)) if names else None


def refuse_over_twice(situation: Situation, quantities: PlanQuantities, field: str = "formula") -> None:
    """Raise InputError where a curing agent of a plan goes in at more than twice its limit."""
    refuse_cure_over_twice(situation, quantities.cure, field)


def over(check: Check) -> bool:
    """Return whether a check says that too much of a cure or a restricted ingredient goes in."""
    return (
        check.id.startswith(WEIGHED)
        and check.verdict is Verdict.NOT_MET
        and check.blocking
        and check.direction == "at most"
    )
