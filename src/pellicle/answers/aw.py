"""What ``aw`` answers: the water activity of a mixture given by masses."""

from __future__ import annotations

from pellicle.food.composition import Composition
from pellicle.food.water_activity import WaterActivity, estimate


def aw_answer(composition: Composition, storage_c: float = 20.0) -> WaterActivity:
    """Return the water activity of a mixture at 25 C, with range, shares and warnings.

    ``storage_c`` is the temperature at which saturation is judged. See ``food.water_activity.estimate``.
    """
    return estimate(composition, storage_c=storage_c)
