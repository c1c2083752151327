"""What is wrong with a log: a dry sock, a flat line, a probe pulled, a clock that jumped, minutes that are missing.

A doubtful stretch is taken out of its column (NaN) and marked as broken: what needs it is then withheld there, never
made up and never bridged.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pellicle.measured.series import Array, Series
from pellicle.message import Message, message

# A sock that reads as warm as the air, within the two probes' own error, for this long, is dry or the air is full of
# steam; single readings scatter, so their mean over so many seconds counts: own rule after common practice (a wet
# bulb equal to the dry bulb for long).
SOCK_GAP_C, SOCK_S = 0.8, 600.0
# Slices in air as moist as the sock says warm on. One that stays this far below the wet bulb for so long, and makes up
# less than this share of the distance, is held back by evaporation: the air is dry, and so is the sock (own rule; a
# piece that takes 90 minutes to come two thirds of the way makes up a third).
FAR_C, FAR_S, MADE_UP = 5.0, 2400.0, 0.12
# A wet bulb cannot stand above the dry bulb; up to this much it is the two probes' own error, K (common-practice).
OVER_DRY_C = 1.0
# Nor above the temperature at which water boils, on the lowest shore and with a probe's own error, C.
OVER_BOILING_C = 102.5
# A reading that does not move at all for this long while another moves by this much has stopped (common-practice).
FLAT_S, FLAT_READINGS, MOVES_C = 3600.0, 20, 5.0
# No piece of meat changes by this much between two readings at most two minutes apart (common-practice).
PULLED_C, PULLED_S = 15.0, 120.0
PUT_IN_S = 600.0
NEAR_AIR_C = 8.0  # a probe in the air reads no lower than so far under the dry bulb (own choice)
# A step longer than this many usual ones, and than a minute, is a gap; one near whole hours may be the clock.
GAP_STEPS, LEAST_GAP_S = 2.5, 60.0
HOUR_S, NEAR_HOUR_S = 3600.0, 150.0
# A column with readings at more than this share of the rows is read at every row; what lacks there has failed.
DENSE = 0.5
DRY_SOCK, FAR_SOCK, STEAM_SOCK, OVER_SOCK = "dry_sock", "sock_far", "sock_steam", "sock_over"
# A wet bulb over the dry bulb at more than this share of the rows is no scatter; one as warm as the air for more than
# this share of the time is not a wet one (own rule).
OFTEN, NEAR_SHARE = 0.03, 0.2
SECONDS_PER_MINUTE = 60.0

Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Flag:
    """One thing wrong: its id, when it began, s, for how long, s, and what it means in words."""

    id: str
    at_s: float
    seconds: float
    text: Message


def checked(series: Series, sock_checked: bool = False) -> tuple[Series, tuple[Flag, ...]]:
    """Return a log's series with doubtful stretches taken out, and what was found.

    ``sock_checked``: somebody saw the sock wet while it read as warm as the air, so the air was full of steam.
    """
    flags: list[Flag] = [*_clock(series)]
    columns = {name: getattr(series, name) for name in ("air_c", "wet_bulb_c", "core_c") if name in series.columns}
    taken: dict[str, Array] = {}
    broken: dict[str, Mask] = {
        name: failed(getattr(series, name)) for name in ("humidity", *columns) if name in series.columns
    }
    for name, column in columns.items():
        bad = np.zeros(column.size, bool)
        # a house holds its air still while the core warms: of the air only the other bulb shows that one has stopped
        others = [other for key, other in columns.items() if key != name and (name == "core_c" or key != "core_c")]
        for first, last in _flat(series.time_s, column, others):
            bad[first : last + 1] |= name == "core_c"
            if name != "air_c":
                id = "flat" if name == "core_c" else "still"
                flags.append(_flag(id, series, first, last, column=message(f"measured.column_{name}")))
        if name == "core_c":
            for first, last in _pulled(series.time_s, column, series.air_c):
                bad[first : last + 1] = True
                flags.append(_flag("pulled", series, first, last))
        if name == "wet_bulb_c":
            for first, last in _runs(column > OVER_BOILING_C):
                bad[first : last + 1] = True
                flags.append(_flag("over_boiling", series, first, last))
        if name == "wet_bulb_c" and series.air_c is not None:
            over = column - series.air_c
            for first, last in _runs(over > OVER_DRY_C):
                bad[first : last + 1] = True
                flags.append(_flag("over_dry", series, first, last))
            if float(np.mean(over > OVER_DRY_C)) > OFTEN:
                bad[:] = True
                flags.append(_flag(OVER_SOCK, series, 0, column.size - 1))
            near = mean_over(series.time_s, over, SOCK_S) >= -SOCK_GAP_C
            # now near and now a little lower is no wet sock either
            often = series.duration_s > 0.0 and _seconds_of(series.time_s, near) > NEAR_SHARE * series.duration_s
            for first, last in _runs(near):
                if often or series.time_s[last] - series.time_s[first] >= SOCK_S:
                    bad[first : last + 1] |= not sock_checked
                    flags.append(_flag(STEAM_SOCK if sock_checked else DRY_SOCK, series, first, last))
        if name == "wet_bulb_c" and series.core_c is not None:
            hour = _held_back(series.time_s, column, series.core_c)
            if hour is not None:
                # it was wrong for long, so nothing it said can be relied on
                bad[:] = True
                flags.append(_flag(FAR_SOCK, series, *hour))
        if bool(bad.any()):
            taken[name] = np.where(bad, np.nan, column)
            broken[name] |= bad
            if name == "wet_bulb_c" and series.humidity is not None:
                # one of the two was made of the other
                taken["humidity"] = np.where(bad, np.nan, series.humidity)
                broken["humidity"] |= bad
    found = replace(series, broken=MappingProxyType(broken), **taken)  # type: ignore[arg-type]
    return found, tuple(sorted(flags, key=lambda flag: flag.at_s))


def _held_back(time_s: Array, wet_bulb_c: Array, core_c: Array) -> tuple[int, int] | None:
    """Return first and last row of the first while in which the core stays far below the wet bulb and hardly warms.

    Rows in which one of them lacks are passed over, not taken for an end of it.
    """
    rows = np.flatnonzero(np.isfinite(wet_bulb_c) & np.isfinite(core_c))
    times, core, far = time_s[rows], core_c[rows], (wet_bulb_c - core_c)[rows]
    for first, last in _runs(far >= FAR_C):
        ends = np.searchsorted(times, times[first : last + 1] + FAR_S)
        for begin, end in enumerate(ends.tolist(), start=first):
            if end > last:
                break
            if core[end] - core[begin] < MADE_UP * float(np.mean(far[begin : end + 1])):
                return int(rows[begin]), int(rows[end])
    return None


def _seconds_of(time_s: Array, inside: Mask) -> float:
    """Return the seconds of the steps of which both ends are inside."""
    return float(np.sum(np.diff(time_s)[inside[:-1] & inside[1:]]))


def sock_doubted(flags: Sequence[Flag]) -> bool:
    """Return whether a flag says that the sock read too warm: then nothing that rests on humidity can be told."""
    return any(flag.id in (DRY_SOCK, FAR_SOCK, OVER_SOCK) for flag in flags)


def on_a_word(flags: Sequence[Flag]) -> bool:
    """Return whether humidity is counted only because somebody is said to have seen the sock wet."""
    return any(flag.id == STEAM_SOCK for flag in flags)


def failed(column: Array) -> Mask:
    """Return the rows (n,) at which a reading lacks in a column that is read at most rows; none in a sparse one."""
    known = np.isfinite(column)
    return ~known if np.mean(known) > DENSE else np.zeros(column.size, dtype=bool)


def mean_over(time_s: Array, values: Array, seconds: float) -> Array:
    """Return the mean of the readings within half of ``seconds`` before and after each row, (n,); NaN without any."""
    first = np.searchsorted(time_s, time_s - seconds / 2, side="left")
    last = np.searchsorted(time_s, time_s + seconds / 2, side="right")
    known = np.isfinite(values)
    counts = np.concatenate([[0], np.cumsum(known)])
    sums = np.concatenate([[0.0], np.cumsum(np.where(known, values, 0.0))])
    many = counts[last] - counts[first]
    return np.where(many > 0, (sums[last] - sums[first]) / np.maximum(many, 1), np.nan)


def _flag(id: str, series: Series, first: int, last: int, **values: Message) -> Flag:
    at, seconds = float(series.time_s[first]), float(series.time_s[last] - series.time_s[first])
    words = {name: str(text) for name, text in values.items()}
    text = message(f"measured.flag_{id}", at=minutes(at - float(series.time_s[0])), long=minutes(seconds), **words)
    return Flag(id, at, seconds, text)


def minutes(seconds: float) -> str:
    """Return a time in whole minutes as people say it.

    >>> minutes(5400.0), minutes(20.0)
    ('90 min', '0 min')
    """
    return f"{seconds / SECONDS_PER_MINUTE:.0f} min"


def _clock(series: Series) -> list[Flag]:
    steps = np.diff(series.time_s)
    if steps.size < 2:
        return []
    usual = float(np.median(steps[steps > 0])) if bool(np.any(steps > 0)) else 0.0
    long_at = np.flatnonzero(steps > max(GAP_STEPS * usual, LEAST_GAP_S))
    flags = []
    for at in long_at[np.argsort(-steps[long_at], kind="stable")][:3]:
        whole = abs(steps[at] - usual - HOUR_S * round((steps[at] - usual) / HOUR_S)) <= min(NEAR_HOUR_S, usual)
        id = "clock_jump" if whole and steps[at] >= HOUR_S else "gap"
        flags.append(_flag(id, series, int(at), int(at) + 1))
    if long_at.size > 1:
        lost = float(np.sum(steps[long_at] - usual))
        text = message("measured.flag_missing", count=int(long_at.size), long=minutes(lost))
        flags.append(Flag("missing", float(series.time_s[long_at[0]]), lost, text))
    return flags


def _flat(time_s: Array, column: Array, others: list[Array]) -> list[tuple[int, int]]:
    found = []
    for first, last in _runs(np.concatenate([[False], column[1:] == column[:-1]])):
        start = max(first - 1, 0)
        if time_s[last] - time_s[start] < FLAT_S or last - start + 1 < FLAT_READINGS:
            continue
        spans = [np.ptp(part) for other in others if (part := other[start : last + 1][_known(other, start, last)]).size]
        if spans and max(spans) >= MOVES_C:
            found.append((start, last))
    return found


def _known(column: Array, first: int, last: int) -> Mask:
    return np.isfinite(column[first : last + 1])


def _pulled(time_s: Array, core: Array, air_c: Array | None) -> list[tuple[int, int]]:
    """From a jump to the jump back, or to the end. A thin slice may warm as fast, but not at once to the air's own."""
    known = np.flatnonzero(np.isfinite(core))
    change, spans = np.diff(core[known]), np.diff(time_s[known])
    leaps = (np.abs(change) >= PULLED_C) & (spans <= PULLED_S)
    if air_c is not None:
        leaps &= (change < 0.0) | ~(core[known[1:]] < air_c[known[1:]] - NEAR_AIR_C)
    jumps = [int(at) for at in np.flatnonzero(leaps)]
    found, at = [], 0
    while at < len(jumps):
        start = jumps[at]
        if change[start] < 0.0 and time_s[known[start + 1]] - time_s[0] <= PUT_IN_S:
            # it was read before it was put into cold meat
            found.append((int(known[0]), int(known[start])))
            at += 1
            continue
        back = [jump for jump in jumps[at + 1 :] if change[jump] * change[start] < 0]
        end = back[0] if back else known.size - 1
        found.append((int(known[start + 1]), int(known[end])))
        at = jumps.index(back[0]) + 1 if back else len(jumps)
    return found


def _runs(mask: Mask) -> list[tuple[int, int]]:
    """Return first and last position of every stretch of true."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], mask, [False]]).astype(np.int8)))
    return [(int(first), int(last) - 1) for first, last in edges.reshape(-1, 2)]
