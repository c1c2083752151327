"""Many pieces of many batches through the house: what the spread of meat, house and slices does to the passage.

Batches differ in what is the same for all pieces of one (how fast water moves in this meat, how much it cooks out, the
house's air); pieces of a batch in thickness and in the air of their place. A step that ends by weight, temperature or
water activity is ended for the whole batch by its middle piece, as the marked rack does, and the others take the same
time.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from pellicle.run.setup import RunSetup
from pellicle.run.simulate import Run, simulate
from pellicle.study.draws import Prior, draw

Array = NDArray[np.float64]

# Pieces in each batch of an ensemble, as far as the number asked for allows.
PIECES_A_BATCH = 20
THREADS = 2
MINUTE_S = 60.0
# The thinnest piece drawn, as share of the middle one: thinner is a scrap that is not hung.
THINNEST = 0.4


@dataclass(frozen=True, slots=True)
class PieceSpread:
    """How pieces and batches differ: standard deviations.

    ``thickness`` relative; ``position_log`` of ln of the film coefficient between places; ``film_log`` of ln of the
    house's own; ``diffusivity_log`` of ln of how fast water moves; ``cookout`` of the cook-out factor.
    """

    thickness: float
    position_log: float
    film_log: float
    diffusivity_log: float
    cookout: float


@dataclass(frozen=True, slots=True, eq=False)
class Ensemble:
    """One row per batch, one column per piece: hours (batches,), then (batches, pieces) at the end of the schedule."""

    hours: Array
    weight_share: Array
    aw_mean: Array
    lethality: Array
    failed: int


def ensemble(setup: RunSetup, spread: PieceSpread, pieces: int, lethality: Callable[[Run], float]) -> Ensemble:
    """Return the ends of ``pieces`` pieces, in batches of about 20; ``lethality`` gives one number of a run.

    The same draws every time, so that a change of the product shows by its effect. ValueError for less than one piece.
    """
    if pieces < 1:
        raise ValueError("an ensemble has at least one piece")
    each = min(PIECES_A_BATCH, max(1, math.isqrt(pieces)))
    batches = math.ceil(pieces / each)
    shared = draw(
        {
            "film": Prior(0.0, spread.film_log),
            "diffusivity": Prior(0.0, spread.diffusivity_log),
            "cookout": Prior(setup.move.cookout_factor, spread.cookout, low=0.0),
        },
        batches,
    )
    own = draw(
        {
            "thickness": Prior(1.0, spread.thickness, low=THINNEST),
            "position": Prior(0.0, spread.position_log),
        },
        batches * each,
    )

    def batch(at: int) -> tuple[float, list[Run]]:
        meat = _meat(setup, float(shared["diffusivity"][at]), float(shared["cookout"][at]))
        middle = simulate(_in_air(meat, float(shared["film"][at])))
        timed = _timed(meat, middle)
        rows = range(at * each, (at + 1) * each)
        runs = [
            simulate(
                _in_air(
                    replace(timed, thickness_m=meat.thickness_m * float(own["thickness"][row])),
                    float(shared["film"][at] + own["position"][row]),
                )
            )
            for row in rows
        ]
        return float(middle.trace.time_s[-1]) / MINUTE_S / MINUTE_S, runs

    with ThreadPoolExecutor(THREADS) as threads:
        found = list(threads.map(batch, range(batches)))
    runs = [pieces_of for _, pieces_of in found]
    return Ensemble(
        hours=np.array([hours for hours, _ in found]),
        weight_share=np.array([[run.weight_share for run in row] for row in runs]),
        aw_mean=np.array([[run.aw_mean for run in row] for row in runs]),
        lethality=np.array([[lethality(run) for run in row] for row in runs]),
        failed=sum(run.problem is not None for row in runs for run in row),
    )


def _meat(setup: RunSetup, diffusivity: float, cookout: float) -> RunSetup:
    move = setup.move
    changed = replace(
        move, water_diffusivity_60_c=move.water_diffusivity_60_c * math.exp(diffusivity), cookout_factor=cookout
    )
    return replace(setup, move=changed)


def _in_air(setup: RunSetup, film: float) -> RunSetup:
    steps = tuple(replace(step, film_w_m2k=step.film_w_m2k * math.exp(film)) for step in setup.steps)
    return replace(setup, steps=steps)


def _timed(setup: RunSetup, middle: Run) -> RunSetup:
    """Return the setup with every step as long as the batch's middle piece took for it."""
    steps = tuple(
        replace(
            step,
            lasts_s=end.minutes * MINUTE_S,
            until_core_c=None,
            until_weight=None,
            until_aw=None,
            until_gap=None,
        )
        for step, end in zip(setup.steps, middle.steps, strict=True)
        if end.minutes > 0
    )
    return replace(setup, steps=steps or setup.steps[:1])
