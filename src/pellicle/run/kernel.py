"""A piece through a whole schedule: steps of adaptive length, exact ends, a row of the trace for every one accepted.

One function, compiled once for uniform solutes and once for moving ones. It prints nothing and raises nothing: it
returns a status. Read ``advance`` last; what it calls is written first.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.run import layout as at
from pellicle.run.air_now import air_now
from pellicle.run.events import short_of, waits
from pellicle.run.face_slopes import face_slopes
from pellicle.run.face_water import node_aw
from pellicle.run.rates import rates, solutes_at
from pellicle.run.slopes import slopes
from pellicle.run.stepper import EXPONENT, attempt

FIRST_STEP_S = 0.5
CAUTION, LEAST_FACTOR, MOST_FACTOR = 0.9, 0.2, 6.0
SHORTEST_S = 1e-8  # below this a step is forced: linearly implicit, with floors, and counted
FORCED_S = 1e-6
MOST_FORCED = 2000
SLIVER = 1e-9  # share of a step that is not worth a step of its own
EVENT_CLOSE = 1e-9  # how near an end counts as reached, in the units of ``short_of``
EVENT_TRIES = 40
NUDGE_S = 1e-3  # share of a ramp over which the air's own rate of change is taken
COOLEST_H = -1e5  # J/kg: the floor of a forced step


def derivatives(
    fields: Any, time_s: float, nodes: Any, extra: Any, grid: Any, piece: Any, step: Any, work: Any, solvent: Any,
    counts: Any, faces: Any,
) -> tuple[float, float, float]:  # fmt: skip
    """Fill rates and derivatives at an accepted state; return the air and, in ``faces``, both water activities."""
    (
        f0, x0, f_t, x_t, _, _, _, _, now, now_x, _, _, _, blocks, by_memory, by_state, memory, totals, by_house, _, _,
    ) = work  # fmt: skip
    rates(fields, time_s, nodes, extra, grid, piece, step, f0, x0, solvent)
    if time_s < step[at.RAMP]:
        nudge = NUDGE_S * step[at.RAMP]
        if time_s + nudge > step[at.RAMP]:
            nudge = -nudge
        rates(fields, time_s + nudge, nodes, extra, grid, piece, step, now, now_x, solvent)
        for i in range(nodes.shape[0]):
            for v in range(len(fields) + 1):
                f_t[i, v] = (now[i, v] - f0[i, v]) / nudge
        for k in range(at.EXTRAS):
            x_t[k] = (now_x[k] - x0[k]) / nudge
    else:
        f_t[:] = 0.0
        x_t[:] = 0.0
    slopes(fields, nodes, grid, piece, blocks, by_memory, by_state, memory)
    by_house[:] = 0.0
    totals[:] = 0.0
    air_c, ratio, vapour = air_now(time_s, step, extra[at.HOUSE], piece[at.PRESSURE])
    last = nodes.shape[0] - 1
    faces[1] = face_slopes(
        fields, nodes, last, 1, 1.0, grid, piece, step, air_c, ratio, vapour, by_state, blocks, by_memory, totals,
        by_house, solvent, counts,
    )  # fmt: skip
    if piece[at.LOWER_OPEN] > 0.0:
        faces[0] = face_slopes(
            fields, nodes, 0, 0, piece[at.LOWER_OPEN], grid, piece, step, air_c, ratio, vapour, by_state, blocks,
            by_memory, totals, by_house, solvent, counts,
        )  # fmt: skip
    else:
        salts, sugars = solutes_at(fields, nodes, 0, piece)
        faces[0], solvent[0] = node_aw(nodes[0, at.X], salts, sugars, piece, solvent[0])
    return air_c, ratio, vapour


def keep(row: int, trace: Any, at_s: float, which: int, air: Any, nodes: Any, extra: Any, faces: Any) -> int:
    """Write one row of the trace and return the number of rows; without room nothing is written."""
    times, states, extras = trace
    if row < times.shape[0]:
        times[row, 0], times[row, 1] = at_s, which
        times[row, 2], times[row, 3], times[row, 4] = air
        times[row, 5], times[row, 6] = faces[0], faces[1]
        states[row] = nodes
        extras[row] = extra
    return row + 1


def advance(
    fields: Any, nodes: Any, extra: Any, grid: Any, piece: Any, steps: Any, work: Any, solvent: Any, trace: Any,
    ends: Any, counts: Any, cancel: Any, tolerance: float, longest_s: float, most_steps: int,
) -> tuple[int, int]:  # fmt: skip
    """Take a piece through all steps, changing ``nodes`` and ``extra``; return the status and the rows written.

    ``ends`` (steps, 2): when each step ended, s since the start, and why. ``cancel`` (1,) stops the run once not 0.
    """
    new, new_x = work[19], work[20]
    faces = np.zeros(2)
    began, row = 0.0, 0
    for which in range(steps.shape[0]):
        step = steps[which]
        time_s = 0.0
        lasts = step[at.LASTS]
        waiting = waits(step)
        h = FIRST_STEP_S
        why = at.TIME
        short, reason = np.inf, at.TIME
        if waiting:
            short, reason = short_of(fields, nodes, grid, piece, step, solvent)
        ended = lasts <= 0.0
        if short <= 0.0:
            ended, why = True, at.PASSED
        while not ended:
            if counts[at.STEPS] + counts[at.REJECTED] >= most_steps:
                return at.TOO_MANY, row
            air = derivatives(fields, time_s, nodes, extra, grid, piece, step, work, solvent, counts, faces)
            row = keep(row, trace, began + time_s, which, air, nodes, extra, faces)
            if row > trace[0].shape[0]:
                return at.FULL, row
            if cancel[0] != 0:
                return at.CANCELLED, row
            until = lasts
            if time_s < step[at.RAMP] < lasts:
                until = step[at.RAMP]
            again = False
            while True:
                h = min(h, longest_s)
                clipped = False
                taken = h
                if time_s + taken * (1.0 + SLIVER) >= until:
                    taken, clipped = until - time_s, True
                elif time_s + 2.0 * taken > until:
                    taken = (until - time_s) / 2.0
                error = attempt(
                    fields, time_s, taken, nodes, extra, grid, piece, step, work, solvent, tolerance, air[1], air[0],
                )  # fmt: skip
                factor = LEAST_FACTOR
                if error < np.inf:
                    factor = min(MOST_FACTOR, max(LEAST_FACTOR, CAUTION / max(error, 1e-10) ** EXPONENT))
                if error <= 1.0:
                    break
                counts[at.REJECTED] += 1
                again = True
                h = taken * min(factor, CAUTION)
                if counts[at.STEPS] + counts[at.REJECTED] >= most_steps:
                    return at.TOO_MANY, row
                if h < SHORTEST_S:
                    counts[at.FORCED] += 1
                    if counts[at.FORCED] > MOST_FORCED:
                        return at.STUCK, row
                    h = FORCED_S
                    taken, clipped = min(FORCED_S, until - time_s), False
                    _forced(fields, taken, nodes, extra, work)
                    break
            if again:
                factor = min(factor, 1.0)
            counts[at.STEPS] += 1
            if waiting:
                then, reason = short_of(fields, new, grid, piece, step, solvent)
                if then <= 0.0:
                    taken, reason = _locate(
                        fields, time_s, taken, short, then, nodes, extra, grid, piece, step, work, solvent, tolerance,
                        air, counts,
                    )  # fmt: skip
                    ended, why = True, reason
                short = then
            for i in range(nodes.shape[0]):
                for v in range(len(fields) + 1):
                    nodes[i, v] = new[i, v]
            for k in range(at.EXTRAS):
                extra[k] = new_x[k]
            time_s += taken
            if not ended and clipped:
                time_s = until
                if until >= lasts:
                    ended = True
            h = max(h, taken * factor) if clipped else taken * factor
        air = derivatives(fields, time_s, nodes, extra, grid, piece, step, work, solvent, counts, faces)
        row = keep(row, trace, began + time_s, which, air, nodes, extra, faces)
        if row > trace[0].shape[0]:
            return at.FULL, row
        began += time_s
        ends[which, 0], ends[which, 1] = began, why
        if step[at.HUMIDITY_KIND] < at.DAMPER:
            extra[at.HOUSE] = air[1]
    return at.DONE, row


def _locate(
    fields: Any, time_s: float, taken: float, short: float, then: float, nodes: Any, extra: Any, grid: Any, piece: Any,
    step: Any, work: Any, solvent: Any, tolerance: float, air: Any, counts: Any,
) -> tuple[float, int]:  # fmt: skip
    """Find where within the step the end is met, by taking the step again (Illinois); return its length and the end."""
    new = work[19]
    low, high, at_low, at_high = 0.0, taken, short, then
    side = 0
    reason = at.TIME
    for tries in range(EVENT_TRIES):
        h = high - (high - low) * at_high / (at_high - at_low)
        if tries + 1 == EVENT_TRIES or high - low <= SLIVER * taken:
            h = high
        attempt(fields, time_s, h, nodes, extra, grid, piece, step, work, solvent, tolerance, air[1], air[0])
        counts[at.EVENT_TRIES] += 1
        found, reason = short_of(fields, new, grid, piece, step, solvent)
        if h == high or abs(found) <= EVENT_CLOSE:
            return h, reason
        if found <= 0.0:
            high, at_high = h, found
            if side == -1:
                at_low /= 2.0
            side = -1
        else:
            low, at_low = h, found
            if side == 1:
                at_high /= 2.0
            side = 1
    return taken, reason


def _forced(fields: Any, h: float, nodes: Any, extra: Any, work: Any) -> None:
    """Take a tiny explicit step with floors where nothing else goes on; it is counted, and many of them end the run."""
    f0, x0, new, new_x = work[0], work[1], work[19], work[20]
    for i in range(nodes.shape[0]):
        for v in range(len(fields) + 1):
            new[i, v] = nodes[i, v] + h * f0[i, v]
        new[i, at.X] = max(new[i, at.X], nodes[i, at.X] / 2.0)
        new[i, at.H] = max(new[i, at.H], COOLEST_H)
    for k in range(at.EXTRAS):
        new_x[k] = extra[k] + h * x0[k]


COMPILABLE = (derivatives, keep, _locate, _forced)
