"""The steps of a schedule as text, once for terminal and paper: the air in both units, humidity, smoke, the end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pellicle.report.numerals import number, plain, word
from pellicle.units import show_temperature

if TYPE_CHECKING:
    from pellicle.answers.schedule_rows import ScheduleRow

TENTHS = 1


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step: name, dry bulb in both units, humidity and how the air gets there, smoke, what ends it and when at
    most."""

    name: str
    celsius: str
    fahrenheit: str
    humidity: str
    smoke: str
    ends: str


def step_rows(schedule: Sequence[ScheduleRow]) -> list[StepRow]:
    """Return the steps as stated, in their order."""
    return [_row(step) for step in schedule]


def _row(step: ScheduleRow) -> StepRow:
    fahrenheit = None if step.dry_bulb_c is None else show_temperature(step.dry_bulb_c, "us", TENTHS).split()[0]
    return StepRow(
        plain(step.name),
        number(step.dry_bulb_c, TENTHS),
        fahrenheit or word("unknown"),
        "; ".join(plain(str(text)) for text in (step.humidity, step.ramp) if text is not None),
        word("smoke_yes" if step.smoke else "smoke_no"),
        ", ".join(plain(str(text)) for text in (step.ends, step.at_most) if text is not None),
    )
