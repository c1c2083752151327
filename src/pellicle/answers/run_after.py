"""What a passage means for the work after it: the pull weight with its drip, the rest before a reading, the faces."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from pellicle.answers.pull import LOWEST_TARGET, WETTEST_Z, pull_weight
from pellicle.answers.run_answer import Rest
from pellicle.answers.working import Working, work_out
from pellicle.house.lying import PieceSetup
from pellicle.run.setup import Air, RunSetup, RunStep
from pellicle.run.simulate import EndedBy, Run, simulate
from pellicle.study.draws import Prior
from pellicle.study.ensemble import timed

HOUR_S = 3600.0
# The drip of a passage is known within a factor of two (review of transport in meat); as a standard deviation, half of
# it.
DRIP_RELATIVE_SD = 0.5
# Two places of a piece that differ by this read as one on a meter of plus or minus 0.005 (own choice).
GAP_AW = 0.01
ROOM_C = 20.0
LONGEST_REST_S = 14 * 24 * HOUR_S
# Still air around closed boxes; only heat passes, and slowly is soon enough. assumed
STILL_FILM_W_M2K = 5.0


def with_drip(work: Working, drip: float, raw_kg: float | None) -> Working:
    """Return the working with the drip of a passage, known within a factor of two, in place of the plan's guess.

    Readings of past lots are read again with that drip: what they taught under the guess would count it twice.
    """
    guess = work.priors["drip_share"]
    known = Prior(drip, DRIP_RELATIVE_SD * drip, "normal", 0.0, guess.high)
    return work_out(work.product, raw_kg, drip=known)


def pull_where_aim_is(work: Working, aim: float) -> float | None:
    """Return the pull weight [kg] for a batch mean of ``aim``; None where that is too dry for the model to tell."""
    if aim < LOWEST_TARGET:
        return None
    sd = (work.target_aw - aim) / WETTEST_Z
    return pull_weight(work.priors, work.mixture_of, work.target_aw, work.product.target.confidence, sd).kg


def rest_before_reading(setup: RunSetup, done: Run, piece: PieceSetup) -> Rest | None:
    """Return the sealed rest a thick piece needs after a passage; None where the passage did not reach its end.

    The piece is as thick as 5 % of pieces are at least; its steps take as long as those of the middle piece.
    """
    if done.problem is not None:
        return None
    thick = piece.thickness_m + WETTEST_Z * piece.spread_m
    room = (ROOM_C, ROOM_C)
    wait = RunStep("rest", room, Air(sealed=True), STILL_FILM_W_M2K, LONGEST_REST_S, until_gap=GAP_AW)
    went = timed(setup, done)
    slab = setup.thickness_m * thick / piece.thickness_m
    rested = simulate(replace(went, thickness_m=slab, steps=(*went.steps, wait)))
    last = rested.steps[-1]
    settled = rested.problem is None and last.ended_by in (EndedBy.GAP, EndedBy.ALREADY)
    hours = last.minutes / 60.0 if settled and np.isfinite(last.minutes) else None
    return Rest(hours, LONGEST_REST_S / HOUR_S, GAP_AW, ROOM_C, thick)
