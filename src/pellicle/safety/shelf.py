"""How long until mould shows, as an order of magnitude, by water activity and pack.

The line was made for cake without preservatives, between 0.74 and 0.90; meat may be kinder or harder to mould, so the
answer is a third to three times of it. Without oxygen mould does not grow; an opened pack holds air again.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.message import Message, message
from pellicle.product import Pack
from pellicle.relation import relation

SOURCES = ("mould-free-cake", "lethality-review")
AW_RANGE = (0.74, 0.90)
COOL_C, WARM_C = 21.0, 27.0
# How far meat may differ from cake, either way: own judgement (lethality-review, section 5.3).
SPREAD = 3.0
# Below this nothing grows (lethality-review, section 5.1).
NOTHING_BELOW_AW = 0.60
LEAST_DAYS = 1.0


@dataclass(frozen=True, slots=True)
class MouldFree:
    """Days without mould as a range; None where none can be named, and what to know of it."""

    low_days: float | None
    high_days: float | None
    note: Message


@relation("mould-free-cake", valid={"aw": AW_RANGE, "temperature_c": (COOL_C, WARM_C), "result": (1.0, 400.0)})
def mould_free_days(aw: Quantity, temperature_c: Quantity) -> Quantity:
    """Return days until mould shows in air, straight in log time between 21 and 27 C.

    ``aw`` [1], ``temperature_c`` [C]: log10 days = 7.91 - 8.1 aw at 21 C and 6.42 - 6.5 aw at 27 C. Published at 27 C:
    14 days at 0.81, 8 at 0.85.

    >>> round(float(mould_free_days(0.81, 27.0))), round(float(mould_free_days(0.85, 27.0)))
    (14, 8)
    """
    cool = 7.91 - 8.1 * aw
    warm = 6.42 - 6.5 * aw
    days: Quantity = 10.0 ** (cool + (warm - cool) * (temperature_c - 21.0) / 6.0)
    return days


def mould_free(aw: float, pack: Pack, storage_c: float = COOL_C) -> MouldFree:
    """Return how long until mould shows, as an order of magnitude, for a water activity, a pack and a temperature."""
    if pack is not Pack.AIR:
        return MouldFree(None, None, message("safety.mould_no_oxygen"))
    if aw < NOTHING_BELOW_AW:
        return MouldFree(None, None, message("safety.mould_nothing"))
    if aw > AW_RANGE[1]:
        return MouldFree(None, None, message("safety.mould_too_wet"))
    within_c = float(np.clip(storage_c, COOL_C, WARM_C))
    days = float(mould_free_days(max(aw, AW_RANGE[0]), within_c))
    low, high = days / SPREAD, days * SPREAD
    note = "mould_drier" if aw < AW_RANGE[0] else "mould_warmer" if storage_c > WARM_C else "mould_days"
    values = {"low": f"{max(low, LEAST_DAYS):.0f}", "high": f"{high:.0f}", "at": f"{within_c:.0f} °C"}
    return MouldFree(low, None if aw < AW_RANGE[0] else high, message(f"safety.{note}", **values))
