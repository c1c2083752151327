"""The sentence a page opens with: the weight to pull at, its range, and what stands in the way."""

from __future__ import annotations

from collections.abc import Sequence

from pellicle.answers.plan_answer import Pull
from pellicle.message import Message, message
from pellicle.rules.verdict import Check, Verdict
from pellicle.units import show_mass

CURE = ("cure.nitrite", "cure.nitrate")
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def sentence(
    pull: Pull, checks: Sequence[Check], refused: Message | None, silent: bool = False, to_run: bool = False
) -> Message:
    """Return the opening sentence; a limit that is not met blocks, one that cannot be told waits for evidence.

    ``silent``: a label does not say how much cure it brings; that comes before any weight. ``to_run``: the product has
    a schedule, whose drip a plan only guesses.
    """
    said = _sentence(pull, checks, refused, silent)
    return message("answers.run_first", sentence=str(said)) if to_run and refused is None and pull.kg else said


def _sentence(pull: Pull, checks: Sequence[Check], refused: Message | None, silent: bool) -> Message:
    if refused is not None:
        return refused
    if pull.kg is None:
        return pull.why_not or message("answers.sentence_none")
    values = {
        "kg": show_mass(pull.kg, "metric"),
        "lb": show_mass(pull.kg, "us"),
        "range": _range(pull.low_kg or pull.kg, pull.high_kg or pull.kg),
    }
    if any(check.id in CURE and check.verdict is Verdict.CANNOT_TELL and check.blocking for check in checks) and silent:
        return message("answers.sentence_cure_unknown", **values)
    blocking = [check for check in checks if check.blocking]
    broken = [check for check in blocking if check.verdict is Verdict.NOT_MET]
    waiting = [check for check in blocking if check.verdict is Verdict.CANNOT_TELL]
    if broken:
        return message("answers.sentence_blocked", **values, limits=_count(len(broken)), first=str(broken[0].title))
    if waiting:
        return message("answers.sentence_waiting", **values, limits=_count(len(waiting)))
    return message("answers.sentence_clear", **values)


def _count(number: int) -> str:
    word = NUMBERS[number] if number < len(NUMBERS) else str(number)
    return f"{word} limit" if number == 1 else f"{word} limits"


def _range(low_kg: float, high_kg: float) -> str:
    low, high = show_mass(low_kg, "metric"), show_mass(high_kg, "metric")
    number, unit = low.rsplit(" ", 1)
    return f"{number} to {high}" if high.endswith(f" {unit}") else f"{low} to {high}"
