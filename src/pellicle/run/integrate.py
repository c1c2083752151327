"""The kernel's door in Python: makes room, runs the compiled schedule, tries again more finely where that fails."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pellicle.run import layout as at
from pellicle.run.compile import compiled
from pellicle.run.setup import Arrays
from pellicle.run.slopes import PROPERTIES
from pellicle.run.stepper import STAGES

Array = NDArray[np.float64]

TRACE_COLUMNS = 7  # time, step, dry bulb, humidity ratio, vapour pressure, water activity of both faces
MOST_STEPS = 5000
FINER = 10.0
NO_LIMIT_S = 1e12


@dataclass(frozen=True, slots=True, eq=False)
class Raw:
    """What the kernel leaves behind: status, final state, rows of the trace, ends of the steps, counters."""

    status: int
    nodes: Array
    extra: Array
    columns: Array
    states: Array
    extras: Array
    ends: Array
    counts: NDArray[np.int64]
    tolerance: float


def run_arrays(
    given: Arrays,
    tolerance: float,
    longest_s: float = NO_LIMIT_S,
    cancel: NDArray[np.int64] | None = None,
    most_steps: int = MOST_STEPS,
) -> Raw:
    """Return what the kernel makes of the arrays of a setup; where it fails, once more with a tenth of the tolerance.

    ``cancel`` (1,) stops the run as soon as it is not 0; it may be set from another thread. RuntimeError without a
    compiler: ``integrate_with_scipy`` is for that.
    """
    doors = compiled()
    if doors is None:
        raise RuntimeError("no compiler")
    found = _once(doors["advance"], given, tolerance, longest_s, cancel, most_steps)
    if found.status in (at.TOO_MANY, at.STUCK):
        again = _once(doors["advance"], given, tolerance / FINER, longest_s, cancel, 2 * most_steps)
        if again.status == at.DONE:
            return again
    return found


def workspace(count: int, many: int) -> tuple[Array, ...]:
    """Return the scratch arrays of the stepper for ``count`` nodes of ``many`` fields, in the order it unpacks them."""
    shapes: tuple[tuple[int, ...], ...] = (
        (count, many + 1), (at.EXTRAS,), (count, many + 1), (at.EXTRAS,),
        (STAGES, count, many + 1), (STAGES, at.EXTRAS),
        (count, many + 1), (at.EXTRAS,), (count, many + 1), (at.EXTRAS,),
        (count, many), (count, many), (count, 3, many, many), (count, 3, many, many), (count, 3, many),
        (count, PROPERTIES, many), (count, 2), (2, at.FACE_EXTRAS, many + 1), (2, many + 1),
        (count, many + 1), (at.EXTRAS,),
    )  # fmt: skip
    return tuple(np.zeros(shape) for shape in shapes)


def _once(
    advance: object, given: Arrays, tolerance: float, longest_s: float, cancel: NDArray[np.int64] | None, most: int
) -> Raw:
    count, many = given.nodes.shape[0], len(given.fields)
    nodes, extra = given.nodes.copy(), given.extra.copy()
    room = most + 2 * len(given.steps) + 1
    trace = (np.empty((room, TRACE_COLUMNS)), np.empty((room, count, many + 1)), np.empty((room, at.EXTRAS)))
    ends = np.full((len(given.steps), 2), np.nan)
    counts = np.zeros(at.COUNTERS, dtype=np.int64)
    stop = np.zeros(1, dtype=np.int64) if cancel is None else cancel
    status, rows = advance(  # type: ignore[operator]
        given.fields, nodes, extra, given.grid, given.piece, given.steps, workspace(count, many),
        np.zeros(count + 3), trace, ends, counts, stop, tolerance, longest_s, most,
    )  # fmt: skip
    rows = min(rows, room)
    columns, states, extras = (part[:rows].copy() for part in trace)
    return Raw(status, nodes, extra, columns, states, extras, ends, counts, tolerance)
