"""What a run has to say of itself: why it stopped, what was clamped, where it left what is known."""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from pellicle.message import Message, message
from pellicle.piece.diffusion import water_diffusivity
from pellicle.relation import of
from pellicle.run import layout as at

AW_KNOWN = 0.75  # the water activity model was compared with readings from here up


class Status(StrEnum):
    """How a run ended."""

    DONE = "done"
    TOO_MANY = "too many steps"
    STUCK = "stuck"
    CANCELLED = "cancelled"
    FULL = "trace full"


STATUS = {
    at.DONE: Status.DONE,
    at.TOO_MANY: Status.TOO_MANY,
    at.STUCK: Status.STUCK,
    at.CANCELLED: Status.CANCELLED,
    at.FULL: Status.FULL,
}


def status_message(status: Status, step: str, hours: float) -> Message | None:
    """Return the sentence for a run that did not reach its end, None for one that did."""
    at_h = f"{hours:.1f}"
    if status is Status.DONE:
        return None
    if status is Status.CANCELLED:
        return message("run.cancelled", step=step, hours=at_h)
    if status is Status.STUCK:
        return message("run.stuck", step=step, hours=at_h)
    return message("run.too_many", step=step, hours=at_h)


def flags(
    counts: NDArray[np.int64], face_aw: NDArray[np.float64], hottest_c: float, finer: bool
) -> tuple[Message, ...]:
    """Return what was clamped or left the range of its relation, each with how often or how far."""
    found = []
    if finer:
        found.append(message("run.finer"))
    if counts[at.FORCED]:
        found.append(message("run.forced", count=str(int(counts[at.FORCED]))))
    if counts[at.NEAR_BOILING]:
        found.append(message("run.near_boiling", count=str(int(counts[at.NEAR_BOILING]))))
    if counts[at.AW_FLOORED]:
        found.append(message("run.bone_dry", count=str(int(counts[at.AW_FLOORED]))))
    if float(face_aw.min()) < AW_KNOWN:
        found.append(message("run.dry_face", aw=f"{float(face_aw.min()):.2f}", known=f"{AW_KNOWN:g}"))
    most = of(water_diffusivity).valid["temperature_c"][1]
    if hottest_c > most:
        found.append(message("run.too_hot", hottest=f"{hottest_c:.1f}", most=f"{most:g}"))
    return tuple(found)
