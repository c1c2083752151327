"""Whether the coldest piece held a printed row without a break, and the exact integral of the table's own line.

A row is held from the moment the core reaches its temperature, without falling below it. Only printed columns count:
a five-log column derived from the line gives no verdict. Both numbers are valid only with humidity kept.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

import numpy as np

from pellicle.measured.series import Array, Series
from pellicle.safety.credit import Course, credited
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.intervals import Steps, share_above, steps
from pellicle.safety.printed_tables import (
    POULTRY_LOG,
    Row,
    meat_table_log_d_s,
    poultry_table_log_d_s,
    printed,
)

# Two readings of one temperature in different units differ by this much at most, K: no row is lost by rounding.
SAME_C = 1e-6


@dataclass(frozen=True, slots=True)
class TableHold:
    """The row met, or the row that came nearest: how long it was held without a break, s, and from when.

    ``met``: held for as long as printed. ``reached_s`` is when the row was first met (its time over), None if not.
    """

    row: Row
    held_s: float
    met: bool
    began_s: float | None
    reached_s: float | None


def hold(series: Series, facts: LethalityFacts) -> TableHold | None:
    """Return the first row of the printed column that was met, or the one that came nearest; None without a core."""
    found = holds(series, facts)
    met = [one for one in found if one.met]
    if met:
        return min(met, key=lambda one: (one.reached_s or 0.0, -one.row.fahrenheit))
    return max(found, key=_nearness, default=None)


def holds(series: Series, facts: LethalityFacts) -> tuple[TableHold, ...]:
    """Return how every row of the printed column was held, coldest first; nothing without a core."""
    if series.core_c is None:
        return ()
    run = steps(series, np.isfinite(series.core_c), ("core_c",))
    return tuple(_held(series, row, facts.probe_error_c, run) for row in column(facts))


def _nearness(one: TableHold) -> float:
    return one.held_s / one.row.held_s if one.row.held_s else 0.0


def column(facts: LethalityFacts) -> tuple[Row, ...]:
    """Return the printed rows that hold for a product: for poultry its own at 7 log, else the column for meat."""
    return printed(facts.table, POULTRY_LOG if facts.poultry else facts.table_log)


def held(series: Series, row: Row, probe_error_c: float = 0.0) -> TableHold:
    """Return for how long the core stood at or above a row's temperature without a break.

    ``probe_error_c`` is taken off every reading. Over a gap of more than 5 minutes only a step whose ends both stand
    there counts; one of more than 30 minutes breaks the hold.
    """
    assert series.core_c is not None
    return _held(series, row, probe_error_c, steps(series, np.isfinite(series.core_c), ("core_c",)))


def _held(series: Series, row: Row, probe_error_c: float, run: Steps) -> TableHold:
    assert series.core_c is not None
    core = series.core_c - probe_error_c
    bound = row.temperature_c - SAME_C
    enters, leaves = share_above(core[run.first], core[run.last], bound)
    both = (core[run.first] >= bound) & (core[run.last] >= bound)
    leaves = np.where(run.lower, both.astype(float), leaves) * run.counts
    enters = np.where(run.lower, 0.0, enters) * run.counts
    holding = leaves > enters
    enter_s = series.time_s[run.first] + enters * run.seconds
    leave_s = series.time_s[run.first] + leaves * run.seconds
    # a hold goes on from step to step while neither of the two leaves the region at their common point
    goes_on = np.concatenate([[False], holding[1:] & holding[:-1] & (enters[1:] == 0.0) & (leaves[:-1] == 1.0)])
    since = enter_s[np.maximum.accumulate(np.where(goes_on, 0, np.arange(holding.size)))]
    spans = np.where(holding, leave_s - since, 0.0)
    best = int(np.argmax(spans)) if spans.size else -1
    long_enough = np.flatnonzero(holding & (spans >= row.held_s))
    reached = float(since[long_enough[0]] + row.held_s) if long_enough.size else None
    here = np.flatnonzero(core >= bound)
    if row.held_s == 0.0 and here.size and reached is None:
        reached = float(series.time_s[here[0]])
    longest = float(spans[best]) if best >= 0 else 0.0
    return TableHold(row, longest, reached is not None, float(since[best]) if longest > 0.0 else None, reached)


def ramp_log(series: Series, facts: LethalityFacts) -> float | None:
    """Return the log reductions by the exact integral of the table's line on the core; None without a core.

    For poultry the printed times are run on in log time between rows, and nothing counts below the first one.
    """
    if series.core_c is None:
        return None
    core = series.core_c - facts.probe_error_c
    ones = np.ones(core.size)
    if not facts.poultry:
        course = Course(core, ones, ones)
        return float(credited(series, course, _meat)[-1])
    return float(credited(*_inserted(series, core), partial(_poultry, facts.table))[-1])


def _meat(temperature_c: Array, _aw: Array) -> Array:
    return meat_table_log_d_s(temperature_c)


def _poultry(table: str, temperature_c: Array, _aw: Array) -> Array:
    return poultry_table_log_d_s(temperature_c, table)


def _inserted(series: Series, core: Array) -> tuple[Series, Course]:
    """Return the core with a point wherever it passes a printed row: between rows the line is straight, over them not.

    A step that is a long gap gets none: only its lower end counts.
    """
    corners = np.array([row.temperature_c for row in printed("poultry", POULTRY_LOG)])
    run = steps(series, np.isfinite(core), ("core_c",))
    times, temperatures = [series.time_s], [core]
    passed = np.searchsorted(corners, core[run.first]) != np.searchsorted(corners, core[run.last])
    for at in np.flatnonzero(~run.lower & run.counts & passed):
        first, last = core[run.first[at]], core[run.last[at]]
        inside = corners[(corners > min(first, last)) & (corners < max(first, last))]
        start, length = series.time_s[run.first[at]], run.seconds[at]
        times.append(start + length * (inside - first) / (last - first) if inside.size else inside)
        temperatures.append(inside)
    every, values = np.concatenate(times), np.concatenate(temperatures)
    order = np.argsort(every, kind="stable")
    values = values[order]
    # what is colder than the first row earns nothing, also on the way to it
    below = values < corners[0] - SAME_C
    added = np.zeros(every.size - core.size, dtype=bool)
    broken = {"core_c": np.concatenate([series.broken_in("core_c"), added])[order]}
    made = Series(every[order], core_c=values, origin=series.origin, broken=broken)
    return made, Course(values, np.where(below, 0.0, 1.0), np.ones(values.size))
