"""Times of a process that rules and people ask for: at a humidity, at a wet bulb, warming up, cool and wet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pellicle.measured.series import Array, Series
from pellicle.safety.credit import product_temperature
from pellicle.safety.intervals import HUMIDITY_FROM, seconds_at_or_above, seconds_between, steps
from pellicle.safety.wetness import CREDIT_AW, Wetness

# Where germs grow on a slow start: 50 to 130 F (us-cooking-guideline-2021, p. 24).
GROWTH_C = (10.0, 54.4)
# The temperatures at which S. aureus grows fast: half its best rate and more (medvedova-2019).
FAST_GROWTH_C = (32.0, 45.5)
# Steps after which evaporation counts as holding the product back: this far below the air, K (own-arithmetic).
COOLED_C = 5.0


@dataclass(frozen=True, slots=True)
class ProcessTimes:
    """Seconds; None where the column it needs is missing.

    ``come_up_s`` from first reaching 10 C to first reaching 54.4 C; ``growth_s`` all the time between them;
    ``cooled_s`` the time at 32 to 45.5 C with the product held 5 K or more below the air by evaporation;
    ``cool_wet_s`` the time at 10 to 54.4 C with a wet surface. The last three count up to when a printed row was
    reached, where that is known. ``reached_54_c`` tells whether it got there.
    """

    come_up_s: float | None
    growth_s: float | None
    reached_54_c: bool | None
    cooled_s: float | None
    cool_wet_s: float | None


def process_times(series: Series, shown: Wetness | None, lethal_s: float | None = None) -> ProcessTimes:
    """Return the times of a series; ``shown`` is how wet its faces were, if that is known.

    ``lethal_s`` is when a printed row was reached: what could grow counts up to there, and not the drying after it.
    """
    product = _product(series)
    if product is None:
        return ProcessTimes(None, None, None, None, None)
    growth_s = warming_s(series, lethal_s)
    before = series.time_s <= (np.inf if lethal_s is None else lethal_s)
    reached = bool(np.nanmax(product, initial=-np.inf) >= GROWTH_C[1])
    cooled = None
    if series.air_c is not None:
        held = np.where(series.air_c - product >= COOLED_C, product, np.nan)
        # a row that is not held back ends the count; it must not be bridged
        cooled = _seconds_where(series, before & (held >= FAST_GROWTH_C[0]) & (held <= FAST_GROWTH_C[1]))
    cool_wet = None
    if shown is not None:
        wettest = np.max(shown.aw, axis=1)
        inside = (product >= GROWTH_C[0]) & (product <= GROWTH_C[1])
        cool_wet = _seconds_where(series, before & inside & (wettest >= CREDIT_AW))
    return ProcessTimes(_come_up(series, product), growth_s, reached, cooled, cool_wet)


def warming_s(series: Series, lethal_s: float | None = None) -> float | None:
    """Return for how long the product stood between 10 and 54.4 C, s, up to when a printed row was reached, if it was.

    None where its temperature is not known.
    """
    product = _product(series)
    if product is None:
        return None
    summed = seconds_between(series, product, *GROWTH_C)
    return float(summed[-1] if lethal_s is None else np.interp(lethal_s, series.time_s, summed))


def _product(series: Series) -> Array | None:
    return series.core_c if series.core_c is not None else product_temperature(series)


def seconds_at_humidity(series: Series, bound: float, until_s: float | None = None) -> float | None:
    """Return for how long the air held a humidity (0 to 1), s, up to a time if one is given; None without a reading."""
    return None if series.humidity is None else _until(series, series.humidity, bound, until_s)


def seconds_at_wet_bulb(series: Series, bound_c: float, until_s: float | None = None) -> float | None:
    """Return for how long the wet bulb stood at or above a temperature, s, up to a time; None without a reading."""
    return None if series.wet_bulb_c is None else _until(series, series.wet_bulb_c, bound_c, until_s)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of time without a break: how long, from when, to when, s."""

    seconds: float
    from_s: float
    to_s: float


def longest_at_wet_bulb(series: Series, bound_c: float) -> Stretch | None:
    """Return the longest stretch with the wet bulb at or above a temperature without a break; None without one read.

    Its ends are the first and the last row of it; 0 s from the first row on where it never stood there.
    """
    if series.wet_bulb_c is None:
        return None
    column = series.wet_bulb_c
    run = steps(series, np.isfinite(column), HUMIDITY_FROM)
    both = (column[run.first] >= bound_c) & (column[run.last] >= bound_c) & run.counts
    start = float(series.time_s[0])
    best, current = Stretch(0.0, start, start), Stretch(0.0, start, start)
    for holds, first, last, seconds in zip(
        both.tolist(), run.first.tolist(), run.last.tolist(), run.seconds.tolist(), strict=True
    ):
        if not holds:
            current = Stretch(0.0, start, start)
            continue
        since = current.from_s if current.seconds else float(series.time_s[first])
        current = Stretch(current.seconds + seconds, since, float(series.time_s[last]))
        best = max(best, current, key=lambda one: one.seconds)
    return best


def _until(series: Series, column: Array, bound: float, until_s: float | None) -> float:
    summed = seconds_at_or_above(series, column, bound)
    if until_s is None:
        return float(summed[-1])
    return float(np.interp(until_s, series.time_s, summed))


def _come_up(series: Series, product: Array) -> float | None:
    known = np.isfinite(product)
    warm = np.flatnonzero(known & (product >= GROWTH_C[0]))
    hot = np.flatnonzero(known & (product >= GROWTH_C[1]))
    if not warm.size:
        return None
    end = hot[0] if hot.size else np.flatnonzero(known)[-1]
    return float(series.time_s[end] - series.time_s[warm[0]])


def _seconds_where(series: Series, inside: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> float:
    """Seconds of the steps that begin or end inside: of a hazard what is not known counts."""
    spans = np.diff(series.time_s)
    return float(np.sum(spans[inside[:-1] | inside[1:]]))
