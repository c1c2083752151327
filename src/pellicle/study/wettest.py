"""When the wettest pieces of a batch are at the limit: how dry the whole batch is by then.

Pieces of unlike thickness in unlike places dry apart; what the scale weighs is their sum. The last drying step goes on
until 95 of 100 pieces are at or under the limit, and the water activity that belongs to the whole batch at that moment
is what a mean has to be brought to. Nothing evens out between pieces here: a closed tub does that, in its own time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from pellicle.run.setup import RunSetup
from pellicle.run.simulate import Run, simulate

Array = NDArray[np.float64]

PIECES_COVERED = 0.95
# Of few pieces the quantile that on average so large a share of all does not exceed (Weibull 1939): of 20, nearly the
# largest.
COVERING: Literal["weibull"] = "weibull"
# The last drying step goes on for so many times its length, and at least for so long.
LONGER, LEAST_S = 4.0, 6 * 3600.0
POINTS = 400


def aw_when_wettest_are_at(limit: float, whole: Run, pieces: Sequence[RunSetup], mass: Array) -> float:
    """Return the water activity of the whole batch [1] when 95 % of its pieces are at or under ``limit``.

    ``whole`` is the run of the middle piece and ``pieces`` the setups of all, their last drying step ``longer``; steps
    end by time alone. ``mass`` (pieces,) is what each weighs at the start. NaN where it is not reached.
    """
    runs = [simulate(one).trace for one in pieces]
    middle = whole.trace
    times = np.linspace(0.0, min(float(trace.time_s[-1]) for trace in (middle, *runs)), POINTS)
    wet = np.array([np.interp(times, trace.time_s, trace.aw_mean) for trace in runs])
    left = np.array([np.interp(times, trace.time_s, trace.weight_share) for trace in runs])
    wettest = np.quantile(wet, PIECES_COVERED, axis=0, method=COVERING)
    reached = np.flatnonzero(wettest <= limit)
    if reached.size == 0:
        return float("nan")
    at = int(reached[0])
    before = max(at - 1, 0)
    fell = wettest[before] - wettest[at]
    share = (wettest[before] - limit) / fell if fell > 0.0 else 1.0
    first, last = (float(np.average(left[:, row], weights=mass)) for row in (before, at))
    batch = first + share * (last - first)
    if batch < float(np.min(middle.weight_share)):
        return float("nan")
    order = np.argsort(middle.weight_share, kind="stable")
    return min(float(np.interp(batch, middle.weight_share[order], middle.aw_mean[order])), limit)


def longer(setup: RunSetup) -> RunSetup:
    """Return the setup without its sealed rests at the end, its last drying step going on."""
    last = max((at for at, step in enumerate(setup.steps) if not step.air.sealed), default=len(setup.steps) - 1)
    step = setup.steps[last]
    going_on = replace(step, lasts_s=max(LONGER * step.lasts_s, LEAST_S))
    return replace(setup, steps=(*setup.steps[:last], going_on))
