"""Times as loggers write them: clock times and dates in the orders in use, elapsed times, numbers in a stated unit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

import numpy as np

from pellicle.errors import InputError
from pellicle.measured.series import Array

_DATE = r"(?P<a>\d{1,4})[-/.](?P<b>\d{1,2})[-/.](?P<c>\d{1,4})"
_CLOCK = r"(?P<h>\d{1,3}):(?P<m>[0-5]?\d)(?::(?P<s>[0-5]?\d(?:[.,]\d+)?))?\s*(?P<ap>[AaPp]\.?\s*[Mm]\.?)?"
_ZONE = r"(?:\s*(?:Z|UTC|GMT|[+-]\d{2}:?\d{2}))?"
_STAMP = re.compile(rf"^\s*(?:{_DATE})?(?:[\sT,]*)(?:{_CLOCK})?{_ZONE}\s*$")
_NUMBER = re.compile(r"^\s*[+-]?\d+(?:[.,]\d+)?\s*$")

# What a number in a time column counts, by the words of its header, s.
_UNIT_WORDS = ((r"\bh(ours?|rs?)?\b", 3600.0), (r"\bmin(utes?)?\b", 60.0), (r"\bs(ec(onds?)?)?\b", 1.0))
DAY_S, NOON = 86400.0, 12
# A clock without a date that falls by more than this has passed midnight, s.
MIDNIGHT_FALL_S = 43200.0
# Spreadsheets count days from 1900: numbers of this size in a time column are such days (from memory, as all do).
SERIAL_DAYS = (20000.0, 80000.0)
LONGEST_S = 90.0 * DAY_S
LONGEST_READ = 40  # characters of a cell repeated in a sentence


def is_time(text: str) -> bool:
    """Return whether a cell can be a time: a clock, a date with or without one, or a plain number."""
    match = _STAMP.match(text)
    return bool(_NUMBER.match(text)) or bool(match and text.strip() and (match["a"] or match["h"]))


def seconds(cells: Sequence[str], header: str, lines: Sequence[int]) -> tuple[Array, str, bool]:
    """Return seconds from the first row, when it began as written, and whether a unit had to be assumed.

    ``cells`` are the times as written, ``header`` what stands over them (its unit counts for plain numbers), ``lines``
    the line of each in the file. InputError where a time cannot be read or times run backwards, with the line.
    """
    assumed = False
    numbers = [bool(_NUMBER.match(cell)) for cell in cells]
    if 2 * sum(numbers) > len(cells) and not all(numbers):
        at = numbers.index(False)
        raise InputError("files.log_bad_time", field="log", line=lines[at], read=cells[at].strip()[:LONGEST_READ])
    if all(numbers):
        raw = np.array([float(cell.replace(",", ".")) for cell in cells])
        if SERIAL_DAYS[0] <= raw[0] <= SERIAL_DAYS[1] and np.ptp(raw) < LONGEST_S / DAY_S and np.any(raw % 1.0):
            unit = DAY_S
        else:
            found = next((unit for words, unit in _UNIT_WORDS if re.search(words, header, re.IGNORECASE)), None)
            unit, assumed = (60.0, True) if found is None else (found, False)
        times = raw * unit
        began = ""
    else:
        times, began = _stamps(cells, lines)
    falls = np.flatnonzero(np.diff(times) < 0)
    if falls.size:
        at = int(falls[0])
        hour = abs(times[at + 1] - times[at] + 3600.0) < 300.0
        id = "files.log_clock_back" if hour else "files.log_backwards"
        raise InputError(id, field="log", line=lines[at + 1], before=cells[at].strip(), after=cells[at + 1].strip())
    if times[-1] - times[0] > LONGEST_S:
        raise InputError("files.log_too_long", field="log")
    return times - times[0], began, assumed


def _stamps(cells: Sequence[str], lines: Sequence[int]) -> tuple[Array, str]:
    matches = [_STAMP.match(cell) for cell in cells]
    for cell, match, line in zip(cells, matches, lines, strict=True):
        if match is None or not (match["a"] or match["h"]):
            raise InputError("files.log_bad_time", field="log", line=line, read=cell.strip()[:LONGEST_READ])
    known = [match for match in matches if match is not None]
    clocks = np.array([_clock(match) for match in known])
    if not all(match["a"] for match in known):
        return _past_midnight(clocks), ""
    orders = [order for order in ("ymd", "mdy", "dmy") if _fits(known, order)]
    if "." in cells[0].split()[0] and "dmy" in orders:
        orders.remove("dmy")
        orders.insert(0, "dmy")
    if not orders:
        raise InputError("files.log_bad_time", field="log", line=lines[0], read=cells[0].strip()[:LONGEST_READ])
    tried = [_days(known, order) * DAY_S + clocks for order in orders]
    # a date that can be read two ways is read the way in which the log runs forwards, and shortest
    forwards = [times for times in tried if not np.any(np.diff(times) < 0)]
    times = min(forwards, key=lambda found: float(found[-1] - found[0])) if forwards else tried[0]
    return times, cells[0].strip()


def _clock(match: re.Match[str]) -> float:
    if not match["h"]:
        return 0.0
    hour = int(match["h"])
    if match["ap"]:
        hour = hour % NOON + (NOON if match["ap"][0] in "Pp" else 0)
    return hour * 3600.0 + int(match["m"]) * 60.0 + float((match["s"] or "0").replace(",", "."))


def _past_midnight(clocks: Array) -> Array:
    falls = np.diff(clocks) < -MIDNIGHT_FALL_S
    days: Array = np.concatenate([[0.0], np.cumsum(falls.astype(float))])
    return clocks + days * DAY_S


def _parts(match: re.Match[str], order: str) -> tuple[int, int, int]:
    values = dict(zip(order, (int(match["a"]), int(match["b"]), int(match["c"])), strict=True))
    year = values["y"]
    return year + 2000 if year < 100 else year, values["m"], values["d"]


def _fits(matches: Sequence[re.Match[str]], order: str) -> bool:
    # every different date once: a long log has few
    seen = {(match["a"], match["b"], match["c"]): match for match in matches}
    for match in seen.values():
        year_text = match["abc"[order.index("y")]]
        if len(year_text) == 1 or len(year_text) == 3:
            return False
        if len(year_text) == 2 and any(len(match[part]) == 4 for part in "abc"):
            return False
        try:
            date(*_parts(match, order))
        except ValueError:
            return False
    return True


def _days(matches: Sequence[re.Match[str]], order: str) -> Array:
    found: dict[tuple[str, str, str], float] = {}
    days = []
    for match in matches:
        key = (match["a"], match["b"], match["c"])
        if key not in found:
            found[key] = float(date(*_parts(match, order)).toordinal())
        days.append(found[key])
    return np.array(days)
