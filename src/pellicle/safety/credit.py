"""What is credited over a series: the exact ramp integral of 1 / D between points, only while the surface is wet.

The crossing of the least credited water activity is found inside the step. Where a step is a long gap in a log only its
lower end counts. Sub-lethal history multiplies D from 1 to its most as 15 to 60 minutes were spent at 45 to 54 C.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pellicle.food.composition import Quantity
from pellicle.measured.series import Array, Series
from pellicle.safety.inactivation import log_d_s, ramp_mean
from pellicle.safety.intervals import coldest, seconds_between, share_above, steps
from pellicle.safety.printed_tables import poultry_floor_log_d_s

# Minutes at 45 to 54 C after which resistance begins to rise, and at which it has risen fully (lethality-review, 8).
SUBLETHAL_C = (45.0, 54.0)
SUBLETHAL_S = (900.0, 3600.0)
# 1 / D is kept above this, per second: far below anything that adds up, and a logarithm stays one.
LEAST_RATE = 1e-30

LogD = Callable[[Array, Array], Array]


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """Temperature (n,) degC and water activity (n,) along which germs die, and the rise in D by history (n,).

    ``needs`` are the columns of the series it rests on.
    """

    temperature_c: Array
    aw: Array
    history: Array
    needs: tuple[str, ...] = ("core_c",)


def history(series: Series, product_c: Array, most: float) -> Array:
    """Return by how much time spent at sub-lethal temperatures multiplies D, (n,), from 1 to ``most``.

    ``product_c`` (n,) degC is the product's own temperature.
    """
    spent = seconds_between(series, product_c, *SUBLETHAL_C)
    low, high = SUBLETHAL_S
    found: Array = 1.0 + (most - 1.0) * np.clip((spent - low) / (high - low), 0.0, 1.0)
    return found


def log_d(
    d60_s: float, z_below_c: Quantity, z_above_c: Quantity, amplitude: Quantity, factor: float, poultry_floor: bool
) -> LogD:
    """Return log10 D(T, aw) in seconds as a function, times ``factor`` inside whole muscle.

    z and amplitude may be columns (k, 1) of draws. ``poultry_floor``: D never falls below the printed poultry table.
    """

    def wet(temperature_c: Array, aw: Array) -> Array:
        found = log_d_s(temperature_c, aw, d60_s, z_below_c, z_above_c, amplitude)
        if poultry_floor:
            found = np.maximum(found, poultry_floor_log_d_s(temperature_c))
        return np.asarray(found + np.log10(factor), dtype=float)

    return wet


@dataclass(frozen=True, slots=True, eq=False)
class Ends:
    """The credited parts of the steps: seconds, the row each ends at, and the state at either end, all (m,)."""

    last: NDArray[np.intp]
    seconds: Array
    lower: NDArray[np.bool_]
    temperature_c: tuple[Array, Array]
    aw: tuple[Array, Array]
    history: tuple[Array, Array]


def ends(series: Series, course: Course, least_aw: float = 0.0) -> Ends:
    """Return the parts of the steps along a course in which the water activity is at least ``least_aw``."""
    run = steps(series, np.isfinite(course.temperature_c) & np.isfinite(course.aw), course.needs)
    first_aw, last_aw = course.aw[run.first], course.aw[run.last]
    enters, leaves = share_above(first_aw, last_aw, least_aw)
    # over a long gap nothing is located: both ends have to be wet
    both = (first_aw >= least_aw) & (last_aw >= least_aw)
    enters = np.where(run.lower, 0.0, enters)
    leaves = np.where(run.lower, both.astype(float), leaves)
    seconds = (leaves - enters) * run.seconds * run.counts
    kept = seconds > 0.0
    first, last, shares = run.first[kept], run.last[kept], (enters[kept], leaves[kept])
    known = known_between(series, course, run.first[kept], run.last[kept], run.lower[kept])
    warm, wet, rise = (
        tuple(column[first] + share * (column[last] - column[first]) for share in shares)
        for column in (course.temperature_c, course.aw, course.history)
    )
    # a crossing itself has the least water activity that counts, whatever rounding makes of it
    wet = (np.maximum(wet[0], least_aw), np.maximum(wet[1], least_aw))
    warm = (np.minimum(warm[0], known), np.minimum(warm[1], known))
    return Ends(last, seconds[kept], run.lower[kept], warm, wet, (rise[0], rise[1]))


def known_between(
    series: Series, course: Course, first: NDArray[np.intp], last: NDArray[np.intp], lower: NDArray[np.bool_]
) -> Array:
    """Return the coldest reading there is inside each long step, (m,) degC, of any column the course rests on; else
    infinity: of several columns one may go on being read while another lacks."""
    found = np.full(first.size, np.inf)
    columns = [series.core_c, series.wet_bulb_c] if "wet_bulb_c" in course.needs else [series.core_c]
    for at in np.flatnonzero(lower & (last > first + 1)):
        inside = [column[first[at] + 1 : last[at]] for column in columns if column is not None]
        read = np.concatenate(inside) if inside else np.zeros(0)
        if np.any(np.isfinite(read)):
            found[at] = float(np.nanmin(read))
    return found


def amounts(parts: Ends, log_d_of: LogD) -> Array:
    """Return the log reduction of each part, (..., m): the exact integral over a straight course of log 1 / D."""
    rates = [
        np.maximum(10.0 ** -log_d_of(warm, wet) / rise, LEAST_RATE)
        for warm, wet, rise in zip(parts.temperature_c, parts.aw, parts.history, strict=True)
    ]
    mean: Array = np.where(parts.lower, np.minimum(*rates), ramp_mean(*rates))
    return np.where(np.maximum(*rates) > LEAST_RATE, mean * parts.seconds, 0.0)


def credited(series: Series, course: Course, log_d_of: LogD, least_aw: float = 0.0) -> Array:
    """Return the log reductions by every row, (n,), counted while the water activity is at least ``least_aw``."""
    parts = ends(series, course, least_aw)
    summed = np.zeros(series.time_s.size)
    np.add.at(summed, parts.last, amounts(parts, log_d_of))
    found: Array = np.cumsum(summed)
    return found


def credited_seconds(parts: Ends) -> float:
    """Return for how long heat was credited, s."""
    return float(np.sum(parts.seconds))


def product_temperature(series: Series) -> Array | None:
    """Return the product's coldest temperature, (n,) degC: of core and faces, whichever are known; None without."""
    known = [] if series.core_c is None else [series.core_c]
    if series.face_c is not None:
        known += list(series.face_c.T)
    return coldest(*known) if known else None
