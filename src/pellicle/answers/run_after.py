"""What a passage means for the work after it: the pull weight with its drip, the rest before a reading, the faces."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from pellicle import parameter
from pellicle.answers.pull import LOWEST_TARGET, WETTEST_Z
from pellicle.answers.run_answer import Rest
from pellicle.answers.working import Working, work_out
from pellicle.house.lying import PieceSetup
from pellicle.measured.series import Array
from pellicle.message import Message, message
from pellicle.run.setup import Air, RunSetup, RunStep
from pellicle.run.simulate import EndedBy, Run, simulate
from pellicle.study.draws import SEED, Prior
from pellicle.study.ensemble import timed
from pellicle.study.mixture import weight_at

HOUR_S = 3600.0
# Share of the marinated weight: more than meat loses when it is cooked through (own choice).
MOST_DRIP = 0.45
# Two places of a piece that differ by this read as one on a meter of plus or minus 0.005 (own choice).
GAP_AW = 0.01
ROOM_C = 20.0
LONGEST_REST_S = 14 * 24 * HOUR_S
# Still air around closed boxes; only heat passes, and slowly is soon enough. assumed
STILL_FILM_W_M2K = 5.0


def with_drip(work: Working, drip: float, raw_kg: float | None) -> Working:
    """Return the working with the drip of a passage in place of the plan's guess, as surely as it is known how much a
    marinated piece cooks out.

    Readings of past lots are read again with that drip: what they taught under the guess would count it twice.
    """
    guess = work.priors["drip_share"]
    factor = parameter.parameters()["cookout_factor"]
    relative_sd = (factor.spread or 0.0) / parameter.value("cookout_factor", work.product.model)
    known = Prior(drip, relative_sd * drip, "normal", 0.0, max(guess.high, MOST_DRIP))
    return work_out(work.product, raw_kg, drip=known)


def pull_where_aims_are(work: Working, aims: Array) -> tuple[float, bool]:
    """Return the pull weight [kg] for batches that have to be brought to ``aims`` (batches,), and whether it is enough.

    Which batch it will be is drawn with the rest of what is uncertain. An aim that is too dry for the model, or not a
    number, is taken at the driest it can tell; where that decides, the weight is not enough.
    """
    confidence = work.product.target.confidence
    mixture = work.mixture_of(work.priors)
    told = np.nan_to_num(aims, nan=0.0)
    drawn = told[np.random.default_rng(SEED).integers(told.size, size=mixture.start_kg.size)]
    weights = weight_at(mixture, np.clip(drawn, LOWEST_TARGET, work.target_aw))
    return float(np.quantile(weights, 1 - confidence)), bool(np.mean(drawn < LOWEST_TARGET) <= 1 - confidence)


def contradicted(work: Working, dripped: Working) -> Message | None:
    """Return that readings of past lots speak against the drip of the passage, where they do: read with it, they ask
    for another correction by more than its prior allows for."""
    if not work.product.readings:
        return None
    if abs(dripped.correction.mean - work.correction.mean) <= work.correction.prior_sd:
        return None
    values = {"before": f"{work.correction.mean:+.2f}", "now": f"{dripped.correction.mean:+.2f}"}
    return message("answers.drip_contradicted", **values)


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
