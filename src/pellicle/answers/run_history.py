"""A passage over time for an answer: the history on a grid, the stretches that counted, profiles across the piece."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pellicle.answers.run_answer import Counted, Profile, RunHistory
from pellicle.answers.working import Working
from pellicle.errors import InputError
from pellicle.house.lying import PieceSetup
from pellicle.measured.series import Array, Series
from pellicle.message import Message, message
from pellicle.run import layout as at
from pellicle.run.face_state import profile_at
from pellicle.run.rates import WATER_VOLUME
from pellicle.run.simulate import Run
from pellicle.safety.intervals import share_above
from pellicle.safety.wetness import CREDIT_AW
from pellicle.units import show_duration

PERCENT = 100.0
MINUTE_S = 60.0
HISTORY_POINTS = 241
# Stretches nearer than this are one: a chart and a sentence cannot tell them apart.
APART_S = 60.0


def history_of(done: Run, work: Working, credited: Array | None) -> RunHistory:
    """Return the passage on a grid of times, with the credit by every row where it is known."""
    trace = done.trace
    times = np.linspace(0.0, float(trace.time_s[-1]), HISTORY_POINTS)
    share = PERCENT * work.marinated.kg / work.formula.raw_kg

    def column(name: str) -> tuple[float, ...]:
        return tuple(float(value) for value in trace.at(name, times))

    faces_c, faces_aw = trace.at("face_c", times), trace.at("face_aw", times)
    counted = None if credited is None else np.interp(times, trace.time_s, credited)
    return RunHistory(
        minutes=tuple(float(value) for value in times / MINUTE_S),
        dry_bulb_c=column("air_c"),
        wet_bulb_c=column("wet_bulb_c"),
        rh_percent=tuple(PERCENT * value for value in column("humidity")),
        core_c=column("core_c"),
        surface_c=tuple(float(value) for value in faces_c[:, 1]),
        weight_percent_of_raw=tuple(share * value for value in column("weight_share")),
        aw_mean=column("aw_mean"),
        aw_surface=tuple(float(value) for value in faces_aw.min(axis=1)),
        lethality_wet=(None,) * HISTORY_POINTS if counted is None else tuple(float(value) for value in counted),
    )


def counted_in(series: Series) -> tuple[Counted, ...]:
    """Return the stretches in which the drier open face was wet enough for heat to count."""
    if series.face_aw is None:
        return ()
    faces = [index for index, is_open in enumerate(series.open_faces) if is_open]
    driest = series.face_aw[:, faces].min(axis=1)
    enters, leaves = share_above(driest[:-1], driest[1:], CREDIT_AW)
    lasts = np.diff(series.time_s)
    found: list[Counted] = []
    for index in np.flatnonzero(leaves > enters):
        began = float(series.time_s[index] + enters[index] * lasts[index])
        ended = float(series.time_s[index] + leaves[index] * lasts[index])
        if found and began - found[-1].to_minutes * MINUTE_S <= APART_S:
            began = found.pop().from_minutes * MINUTE_S
        found.append(Counted(began / MINUTE_S, ended / MINUTE_S))
    return tuple(found)


def why_uncounted(counted: Sequence[Counted], minutes: float) -> Message:
    """Return in words when heat was counted and why it was not else."""
    values = {"aw": f"{CREDIT_AW:.2f}"}
    if not counted:
        return message("answers.counted_never", **values)
    if len(counted) == 1 and counted[0].from_minutes <= 0.0 and counted[0].to_minutes >= minutes - APART_S / MINUTE_S:
        return message("answers.counted_always", **values)
    spans = "; ".join(f"{span.from_minutes:.0f} to {span.to_minutes:.0f}" for span in counted)
    return message("answers.counted_in", spans=spans, **values)


def profiles_at(
    done: Run, piece: PieceSetup, minutes: Sequence[float], field: str = "--profile"
) -> tuple[Profile, ...]:
    """Return the profile across the piece at each time [min].

    InputError for a time past the end.
    """
    last = float(done.trace.time_s[-1])
    for asked in minutes:
        if asked * MINUTE_S > last * (1 + 1e-9):
            read, end = show_duration(asked * MINUTE_S), show_duration(last)
            raise InputError("answers.profile_late", field=field, read=read, end=end)
    return tuple(_profile(done, piece, asked * MINUTE_S) for asked in minutes)


def _profile(done: Run, piece: PieceSetup, time_s: float) -> Profile:
    across = profile_at(done, time_s)
    matrix = 1.0 + across.water + across.salts + across.sugars
    made = done.setup.mixture
    volume = (
        made.matrix.volume
        + across.water * WATER_VOLUME
        + across.salts * made.salt.volume
        + across.sugars * made.sugar.volume
    )
    heights = np.cumsum(done.arrays.grid[at.MASS] * volume)
    middle = heights - done.arrays.grid[at.MASS] * volume / 2.0
    # the first and the last node stand on a face (the first of a half in the middle of the piece)
    middle[0], middle[-1] = 0.0, heights[-1]
    return Profile(
        minutes=time_s / MINUTE_S,
        depth_m=_plain(piece.thickness_m / piece.slab_m * (heights[-1] - middle)),
        temperature_c=_plain(across.temperature_c),
        water_percent=_plain(PERCENT * across.water / matrix),
        salts_percent=_plain(PERCENT * across.salts / matrix),
        sugars_percent=_plain(PERCENT * across.sugars / matrix),
        aw=_plain(across.aw),
    )


def _plain(values: Array) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
