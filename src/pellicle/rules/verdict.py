"""Checks and their verdicts: met, not met, cannot tell. Missing evidence gives cannot tell, never met."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from pellicle.message import Message


class Verdict(StrEnum):
    """The only three answers a check can give; the tokens stay English in every language."""

    NOT_MET = "not met"
    CANNOT_TELL = "cannot tell"
    MET = "met"


class Group(StrEnum):
    """What a check belongs to, in the order in which pages show them."""

    OWN = "own limits"
    RULE = "rules"
    PRODUCT = "product"
    INFORMATION = "information"


@dataclass(frozen=True, slots=True)
class Check:
    """A limit applied to a value: verdict, value, limit, margin and the reason in words.

    ``direction`` is ``at most`` or ``at least``; ``margin`` is how far the value stands inside the limit (negative
    outside), in ``unit``. A check that is not ``blocking`` informs (an identity, a hint) and never stops a release.
    """

    id: str
    title: Message
    verdict: Verdict
    why: Message
    group: Group = Group.RULE
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    direction: str = "at most"
    margin: float | None = None
    digits: int = 0
    clause: str = ""
    sources: tuple[str, ...] = ()
    blocking: bool = True


def unmet_titles(checks: Iterable[Check]) -> str:
    """Return the titles of what blocks and is not met, as one text; empty where nothing is."""
    return "; ".join(str(check.title) for check in checks if check.blocking and check.verdict is Verdict.NOT_MET)


def in_order(checks: list[Check]) -> tuple[Check, ...]:
    """Return checks as pages show them: by group, and in a group not met, cannot tell, met.

    The plant's own limits stay first. After them a group with a check that is not met and blocks stands before those
    without one: the finding comes first.
    """
    groups, verdicts = list(Group), list(Verdict)
    ahead = {Group.OWN, *(check.group for check in checks if check.blocking and check.verdict is Verdict.NOT_MET)}
    return tuple(
        sorted(
            checks,
            key=lambda one: (one.group not in ahead, groups.index(one.group), verdicts.index(one.verdict)),
        )
    )
