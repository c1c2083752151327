"""Many pieces of many batches through the house: what the spread of meat, house and slices does to the passage.

Batches differ in what is the same for all pieces of one (how fast water moves in this meat, how much it cooks out,
the house's air); pieces of a batch in thickness and in the air of their place. A step that ends by weight, temperature
or water activity is ended for the whole batch by its middle piece, as the marked rack does, and the others take the
same time; where the house's humidity is left to its load, they find the air that the middle piece has made. The places
a house states are few and chosen, so they are run beside the pieces and never stand for them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from pellicle.passage import Position
from pellicle.run.setup import RunSetup
from pellicle.run.simulate import Run, simulate
from pellicle.study.air_of import at_place, held_as, in_air
from pellicle.study.draws import Prior, draw
from pellicle.study.wettest import aw_when_wettest_are_at, longer

Array = NDArray[np.float64]

# Pieces in each batch of an ensemble: enough for the wettest 5 % to be one of them.
PIECES_A_BATCH = 20
THREADS = 2
MINUTE_S, HOUR_S = 60.0, 3600.0
# Batches whose pieces are dried on until the wettest are at the limit: a median of more is no better known.
MOST_DRIED_ON = 20
# The thinnest piece drawn, as share of the middle one: thinner is a scrap that is not hung.
THINNEST = 0.4


@dataclass(frozen=True, slots=True)
class PieceSpread:
    """How pieces and batches differ: standard deviations.

    ``thickness`` relative; ``position_log`` of ln of the film coefficient between places; ``film_log`` of ln of the
    house's own; ``diffusivity_log`` of ln of how fast water moves; ``cookout`` of the cook-out factor. ``places`` are
    those the house states.
    """

    thickness: float
    position_log: float
    film_log: float
    diffusivity_log: float
    cookout: float
    places: tuple[Position, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Ends:
    """What stands at the end of the schedule, (batches, pieces): share of the marinated weight, mean water activity,
    the number taken of each run; ``failed`` runs did not reach it."""

    weight_share: Array
    aw_mean: Array
    lethality: Array
    failed: int


@dataclass(frozen=True, slots=True, eq=False)
class Ensemble:
    """One row per batch: hours (batches,), and the ends of its pieces and of a middle piece in each stated place.

    ``mass`` (batches, pieces) of each piece at the start, the middle one being 1. ``aw_wettest_dry`` (batches,) is the
    water activity of the whole batch when 95 % of its pieces are at the limit; NaN where that is not reached.
    """

    hours: Array
    mass: Array
    pieces: Ends
    places: Ends
    aw_wettest_dry: Array


def ensemble(
    setup: RunSetup, spread: PieceSpread, pieces: int, lethality: Callable[[Run], float], limit_aw: float
) -> Ensemble:
    """Return the ends of ``pieces`` pieces, in batches of about 20; ``lethality`` gives one number of a run.

    The same draws every time, so that a change of the product shows by its effect. ``limit_aw`` is what the wettest
    pieces have to reach. ValueError for less than one piece.
    """
    if pieces < 1:
        raise ValueError("an ensemble has at least one piece")
    each = min(PIECES_A_BATCH, pieces)
    batches = math.ceil(pieces / each)
    shared, own = _draws(setup, spread, batches, each)

    def batch(at: int) -> _Batch:
        meat = _meat(setup, float(shared["diffusivity"][at]), float(shared["cookout"][at]))
        film = float(shared["film"][at])
        middle = simulate(in_air(meat, film))
        steps = timed(meat, middle)
        rows = slice(at * each, (at + 1) * each)
        thick, airs = own["thickness"][rows], film + own["position"][rows]

        def each_piece(made: RunSetup) -> list[RunSetup]:
            pairs = zip(thick, airs, strict=True)
            return [in_air(replace(made, thickness_m=meat.thickness_m * float(t)), float(a)) for t, a in pairs]

        here = held_as(steps, simulate(in_air(steps, film)))
        dried = float("nan")
        if at < MOST_DRIED_ON:
            going_on = longer(steps)
            whole = simulate(in_air(going_on, film))
            dried = aw_when_wettest_are_at(limit_aw, whole, each_piece(held_as(going_on, whole)), thick)
        return _Batch(
            float(middle.trace.time_s[-1]) / HOUR_S,
            [simulate(one) for one in each_piece(here)],
            [simulate(in_air(at_place(here, one), film)) for one in spread.places],
            dried,
        )

    with ThreadPoolExecutor(THREADS) as threads:
        found = list(threads.map(batch, range(batches)))
    return Ensemble(
        hours=np.array([one.hours for one in found]),
        mass=own["thickness"].reshape(batches, each),
        pieces=_ends([one.pieces for one in found], lethality),
        places=_ends([one.places for one in found], lethality),
        aw_wettest_dry=np.array([one.aw_wettest_dry for one in found[:MOST_DRIED_ON]]),
    )


@dataclass(frozen=True, slots=True)
class _Batch:
    hours: float
    pieces: list[Run]
    places: list[Run]
    aw_wettest_dry: float


def _draws(
    setup: RunSetup, spread: PieceSpread, batches: int, each: int
) -> tuple[Mapping[str, Array], Mapping[str, Array]]:
    shared = {
        "film": Prior(0.0, spread.film_log),
        "diffusivity": Prior(0.0, spread.diffusivity_log),
        "cookout": Prior(setup.move.cookout_factor, spread.cookout, low=0.0),
    }
    own = {
        "thickness": Prior(1.0, spread.thickness, low=THINNEST),
        "position": Prior(0.0, spread.position_log),
    }
    return draw(shared, batches), draw(own, batches * each)


def timed(setup: RunSetup, middle: Run) -> RunSetup:
    """Return the setup with every step as long as ``middle``, a run of it, took for it."""
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


def _ends(runs: list[list[Run]], lethality: Callable[[Run], float]) -> Ends:
    return Ends(
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
