"""From points in time to what may be counted between them: gaps, the coldest of several columns, crossings, minutes.

Between points of a log that lie more than five minutes apart only the lower end counts, more than thirty apart nothing.
Where a reading between two points failed or was taken out as doubtful, the lower end counts up to five minutes, and
then nothing: nobody knows what was there.
A simulated series has no gaps: its points lie where the solver needed them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pellicle.measured.series import Array, Series

# Own rule of this software, on the careful side; a logger writes at least every few minutes (common-practice).
LOWER_END_FROM_S = 300.0
NOTHING_FROM_S = 1800.0

Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Steps:
    """The steps between the rows that can be used: where they begin and end (row numbers), how long, how they count.

    ``lower`` (m,): only the lower end counts; ``counts`` (m,): false where nothing does.
    """

    first: NDArray[np.intp]
    last: NDArray[np.intp]
    seconds: Array
    lower: Mask
    counts: Mask


HUMIDITY_FROM = ("humidity", "wet_bulb_c", "air_c")
EVIDENCE = ("core_c", *HUMIDITY_FROM)


def steps(series: Series, usable: Mask, names: tuple[str, ...] = ()) -> Steps:
    """Return the steps between successive usable rows of a series; ``usable`` (n,) is false where a reading lacks.

    ``names`` are the columns that what is counted rests on: over a broken reading of one of them nothing is bridged.
    """
    at = np.flatnonzero(usable)
    first, last = at[:-1], at[1:]
    seconds = series.time_s[last] - series.time_s[first]
    if series.simulated:
        return Steps(first, last, seconds, np.zeros(first.size, bool), np.ones(first.size, bool))
    before = np.concatenate([[0], np.cumsum(series.broken_in(*names))])
    broken = before[last] > before[first + 1]
    most = np.where(broken, LOWER_END_FROM_S, NOTHING_FROM_S)
    return Steps(first, last, seconds, broken | (seconds > LOWER_END_FROM_S), seconds <= most)


def coldest(*columns: Array) -> Array:
    """Return the lowest of several columns row by row; NaN where one of them has no reading.

    >>> coldest(np.array([60.0, 61.0]), np.array([59.0, np.nan]))
    array([59., nan])
    """
    found: Array = np.minimum.reduce(columns)
    return found


def share_above(first: Array, last: Array, bound: float) -> tuple[Array, Array]:
    """Return where a straight course from ``first`` to ``last`` enters and leaves the region at or above ``bound``.

    Both (m,), as shares of the step from 0 to 1; equal where it never is.

    >>> share_above(np.array([0.0, 2.0]), np.array([4.0, 2.0]), 1.0)
    (array([0.25, 0.  ]), array([1., 1.]))
    """
    up, down = first >= bound, last >= bound
    rise = np.where(first == last, 1.0, last - first)
    crossing = np.clip((bound - first) / rise, 0.0, 1.0)
    enters = np.where(up, 0.0, np.where(down, crossing, 0.0))
    leaves = np.where(down, 1.0, np.where(up, crossing, 0.0))
    return enters, leaves


def seconds_at_or_above(series: Series, column: Array, bound: float) -> Array:
    """Return how long the air's ``column`` stood at or above ``bound`` by each row, s (n,), never more than was logged.

    Crossings are found inside a step; over a long gap a step counts only where both its ends do.
    """
    run = steps(series, np.isfinite(column), HUMIDITY_FROM)
    enters, leaves = share_above(column[run.first], column[run.last], bound)
    whole = (column[run.first] >= bound) & (column[run.last] >= bound)
    share = np.where(run.lower, whole.astype(float), leaves - enters) * run.counts
    return at_rows(series, run, share * run.seconds)


def seconds_between(series: Series, column: Array, low: float, high: float) -> Array:
    """Return how long a column stood from ``low`` to ``high`` by each row, s (n,), counting what is not known against.

    A gap counts whole where the column could have been inside: its ends lie on both sides, or one lies inside.
    """
    run = steps(series, np.isfinite(column))
    first, last = column[run.first], column[run.last]
    enters, leaves = share_above(first, last, low)
    over_in, over_out = share_above(first, last, np.nextafter(high, np.inf))
    share = (leaves - enters) - (over_out - over_in)
    touched = (np.minimum(first, last) <= high) & (np.maximum(first, last) >= low)
    share = np.where(run.lower, touched.astype(float), share)
    return at_rows(series, run, share * run.seconds)


def at_rows(series: Series, run: Steps, amounts: Array) -> Array:
    """Return the running sum of amounts per step (..., m) at every row of the series (..., n)."""
    summed = np.zeros((*amounts.shape[:-1], series.time_s.size))
    summed[..., run.last] = amounts
    found: Array = np.cumsum(summed, axis=-1)
    return found
