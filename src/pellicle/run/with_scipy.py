"""The same rates integrated by SciPy: the way without a compiler, and the oracle of the tests.

Nothing of the stepper is used, only ``rates``; ends are found by SciPy's own events.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.run import layout as at
from pellicle.run.air_now import air_now
from pellicle.run.compile import compiled
from pellicle.run.events import NODES, short_of, waits
from pellicle.run.face_water import node_aw
from pellicle.run.integrate import TRACE_COLUMNS, Raw
from pellicle.run.rates import rates_door, solutes_at
from pellicle.run.setup import Arrays

HEAT_SCALE = 3e5  # J/kg: what a relative tolerance of the enthalpy stands for
FIRST_STEP_S = 0.5


def integrate_with_scipy(given: Arrays, relative: float = 1e-6, method: str = "LSODA") -> Raw:
    """Return what SciPy makes of the arrays of a setup, with a relative tolerance; compiled rates where there are any.

    ``method`` is one of ``scipy.integrate.solve_ivp``.
    """
    from scipy.integrate import solve_ivp

    doors = compiled()
    door: Any = rates_door if doors is None else doors["rates"]
    count, width = given.nodes.shape
    size = count * width
    flat = np.concatenate([given.nodes.ravel(), given.extra])
    solvent = np.zeros(count + NODES)
    absolute = _absolute(given, relative)
    rows: list[tuple[float, int, Any]] = []
    ends = np.full((len(given.steps), 2), np.nan)
    began, status = 0.0, at.DONE
    for which, step in enumerate(given.steps):

        def change(time_s: float, state: Any, step: Any = step) -> Any:
            out = np.empty_like(state)
            door(given.fields, time_s, np.ascontiguousarray(state), count, given.grid, given.piece, step, out, solvent)
            return out

        def short(time_s: float, state: Any, step: Any = step) -> float:
            nodes = state[:size].reshape(count, width)
            return float(short_of(given.fields, nodes, given.grid, given.piece, step, solvent)[0])

        short.terminal, short.direction = True, -1  # type: ignore[attr-defined]
        waiting = waits(step)
        lasts, why = float(step[at.LASTS]), at.TIME
        time_s = 0.0
        if waiting and short(0.0, flat) <= 0.0:
            lasts, why = 0.0, at.PASSED
        rows.append((began, which, flat))
        for until in ([float(step[at.RAMP])] if 0.0 < step[at.RAMP] < lasts else []) + [lasts]:
            if until <= time_s or why not in (at.TIME,):
                continue
            found = solve_ivp(
                change, (time_s, until), flat, method=method, rtol=relative, atol=absolute,
                events=[short] if waiting else None, first_step=min(FIRST_STEP_S, until - time_s),
            )  # fmt: skip
            if found.status < 0:
                status = at.STUCK
            rows += [(began + float(t), which, state) for t, state in zip(found.t[1:], found.y.T[1:], strict=True)]
            flat, time_s = found.y[:, -1], float(found.t[-1])
            if found.status == 1:
                nodes = flat[:size].reshape(count, width)
                why = short_of(given.fields, nodes, given.grid, given.piece, step, solvent)[1]
        began += time_s
        ends[which] = began, why
        if step[at.HUMIDITY_KIND] < at.DAMPER:
            flat = flat.copy()
            flat[size + at.HOUSE] = air_now(time_s, step, flat[size + at.HOUSE], given.piece[at.PRESSURE])[1]
        rows[-1] = (rows[-1][0], which, flat)
        if status != at.DONE:
            break
    return _raw(given, status, rows, ends, solvent, relative)


def _absolute(given: Arrays, relative: float) -> Any:
    count, width = given.nodes.shape
    own = np.ones((count, width))
    own[:, at.H] = HEAT_SCALE
    totals = np.full(at.EXTRAS, given.piece[at.MATRIX])
    totals[at.HOUSE] = 1.0
    totals[at.HEAT_IN], totals[at.HEAT_OUT] = (HEAT_SCALE * given.piece[at.MATRIX],) * 2
    return relative * np.concatenate([own.ravel(), totals]) / 10.0


def _raw(
    given: Arrays, status: int, rows: list[tuple[float, int, Any]], ends: Any, solvent: Any, relative: float
) -> Raw:
    count, width = given.nodes.shape
    size = count * width
    columns = np.empty((len(rows), TRACE_COLUMNS))
    states, extras = np.empty((len(rows), count, width)), np.empty((len(rows), at.EXTRAS))
    starts = {0: 0.0, **{which + 1: float(end) for which, end in enumerate(ends[:, 0])}}
    for row, (time_s, which, flat) in enumerate(rows):
        nodes, extra = flat[:size].reshape(count, width), flat[size:]
        air = air_now(time_s - starts[which], given.steps[which], extra[at.HOUSE], given.piece[at.PRESSURE])
        faces = []
        for side in range(2):
            salts, sugars = solutes_at(given.fields, nodes, side * (count - 1), given.piece)
            water = nodes[side * (count - 1), at.X]
            found, solvent[side] = node_aw(water, salts, sugars, given.piece, solvent[side])
            faces.append(found)
        columns[row] = time_s, which, *air, *faces
        states[row], extras[row] = nodes, extra
    counts = np.zeros(at.COUNTERS, dtype=np.int64)
    counts[at.STEPS] = len(rows)
    return Raw(status, states[-1], extras[-1], columns, states, extras, ends, counts, relative)
