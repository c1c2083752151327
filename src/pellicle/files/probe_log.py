"""A probe log as loggers and people write it: a tolerant reader that says what it took things for.

Lines before the header are skipped, decimal commas and other separators understood, codes for over-range taken as no
reading, headers repeated in the middle left out, a last line cut short dropped. What cannot be read is one sentence.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from pellicle.errors import InputError
from pellicle.files.log_channels import NO_READING, ROW_NUMBER, UNIT, VALUE, channels_of
from pellicle.files.log_time import LONGEST_READ, is_time, seconds
from pellicle.measured.probe_log import ProbeLog
from pellicle.message import Message, message

SEPARATORS = ("\t", ";", ",", "|")
MOST_BYTES = 200_000_000
# Lines looked at to find the separator and the header.
HEAD_LINES = 60
# Where nothing says C or F, readings above this are no C: no such house is this hot.
SURELY_FAHRENHEIT = 112.0
_UNIT_CELL = re.compile(
    r"^[\[(]?(?:(?:°|º|deg\.?)?\s*[CF]|min|m|s|sec|h|hh:mm(?::ss)?|%|%?\s*rh|)[\])]?$", re.IGNORECASE
)
_TIME_WORDS = re.compile(r"\b(date|time|timestamp|clock|elapsed|minutes?|mins?|hours?|seconds?)\b|^t$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where things stand: separator, header cells with their line, first line of data (from 0)."""

    separator: str
    header: tuple[str, ...]
    first: int


def read_log(path: Path, unit: str = "") -> ProbeLog:
    """Return the log of a CSV file; ``unit`` (``C`` or ``F``) holds where the file does not say.

    InputError for a file that cannot be read, is empty, is no text, has no time column or no reading in it, or whose
    times run backwards.
    """
    try:
        if path.stat().st_size > MOST_BYTES:
            raise InputError("files.log_too_long", field="log")
        return log_from_text(_text(path.read_bytes()), path.name, unit)
    except FileNotFoundError:
        raise InputError("files.log_missing", field="log", file=str(path)) from None
    except OSError as error:
        raise InputError(
            "files.log_unreadable", field="log", file=str(path), reason=error.strerror or "unknown"
        ) from None
    except InputError as error:
        error.file = path.name
        raise


def log_from_text(text: str, name: str, unit: str = "") -> ProbeLog:
    """Return the log written in ``text``; ``name`` is shown in errors.

    >>> log = log_from_text("time (min),wet bulb (F),core (F)\\n0,100,40\\n10,140,131.9\\n", "typed.csv")
    >>> log.time_s.tolist(), [round(float(channel.values[-1]), 1) for channel in log.channels]
    ([0.0, 600.0], [60.0, 55.5])
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not any(line.strip() for line in lines):
        raise InputError("files.log_empty", field="log")
    layout = _layout(lines)
    at, rows, remarks = _rows(lines, layout)
    time_columns = _time_columns(layout.header, rows)
    if not time_columns:
        raise _no_times(layout.header, at, rows)
    cells = [" ".join(row[column] for column in time_columns) for row in rows]
    time_header = " ".join(layout.header[column] for column in time_columns)
    time_s, began, assumed = seconds(cells, time_header, at)
    if time_s[-1] == 0:
        raise InputError("files.log_one_time", field="log")
    if assumed:
        remarks.append(message("files.log_minutes_assumed"))
    channels = channels_of(lines[: layout.first], layout.header, (at, rows), time_columns, unit, remarks)
    if not channels:
        raise InputError("files.log_no_channel", field="log", columns=_named(layout.header))
    hottest = max((float(np.nanmax(one.values, initial=-np.inf)) for one in channels if not one.unit), default=0.0)
    untold = [one for one in channels if one.kind == "temperature" and not one.unit]
    if untold and hottest > SURELY_FAHRENHEIT:
        raise InputError("files.log_unit_needed", field="--unit", hottest=f"{hottest:.0f}")
    if untold:
        remarks.append(message("files.log_unit_assumed"))
    if not any(bool(np.any(np.isfinite(channel.values))) for channel in channels):
        raise InputError("measured.all_over_range", field="log")
    return ProbeLog(name, time_s, tuple(channels), began, tuple(remarks))


def _text(content: bytes) -> str:
    if not content.strip():
        raise InputError("files.log_empty", field="log")
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return content.decode("utf-16")
        except UnicodeDecodeError:
            raise InputError("files.log_binary", field="log") from None
    if b"\x00" in content or content.startswith(b"PK\x03\x04"):
        raise InputError("files.log_binary", field="log")
    try:
        found = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        found = content.decode("latin-1")
    sample = found[:4000]
    odd = sum(not character.isprintable() and character not in "\t\r\n" for character in sample)
    if odd * 20 > len(sample):
        raise InputError("files.log_binary", field="log")
    return found


def _split(line: str, separator: str) -> list[str]:
    if '"' in line:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=separator, skipinitialspace=True))]
    return [cell.strip() for cell in line.split(separator)]


def _layout(lines: Sequence[str]) -> _Layout:
    """Find the separator and header: the one under which most of the first lines are a time and readings."""
    best: tuple[tuple[int, bool], _Layout] | None = None
    for separator in SEPARATORS:
        whole = [_split(line, separator) for line in lines[:HEAD_LINES]]
        for split in (whole, [_without_empty_end(cells) for cells in whole]):
            data = [at for at, cells in enumerate(split) if _is_data(cells)]
            if not data:
                continue
            first = data[0]
            widths = Counter(len(split[at]) for at in data)
            width = widths.most_common(1)[0][0]
            header = _header(split, first, width)
            fits = (widths[width], any(header))
            if best is None or fits > best[0]:
                best = (fits, _Layout(separator, header, first))
    if best is None:
        raise InputError("files.log_no_rows", field="log")
    _refuse_above(lines, best[1])
    return best[1]


def _without_empty_end(cells: Sequence[str]) -> list[str]:
    """Loggers end lines with a separator: of names, of readings, or of both."""
    kept = list(cells)
    while kept and not kept[-1]:
        kept.pop()
    return kept


def _refuse_above(lines: Sequence[str], layout: _Layout) -> None:
    """Refuse what stands straight above the first row: names of another count than its cells, or readings without a
    time."""
    number = next((at for at in range(layout.first - 1, -1, -1) if lines[at].strip()), None)
    if number is None:
        return
    above, width = _without_empty_end(_split(lines[number], layout.separator)), len(layout.header)
    if any(_TIME_WORDS.search(cell) for cell in above):
        if 1 < len(above) != width:
            values = {"names": len(above), "cells": width}
            raise InputError("files.log_other_width", field="log", line=layout.first + 1, **values)
    elif len(above) == width and all(VALUE.match(cell) for cell in above[1:]):
        raise InputError("files.log_bad_time", field="log", line=number + 1, read=above[0][:LONGEST_READ])


def _is_data(cells: Sequence[str]) -> bool:
    if len(cells) < 2 or any(_TIME_WORDS.search(cell) for cell in cells):
        return False
    values = [cell for cell in cells if cell]
    return any(is_time(cell) for cell in cells[:3]) and sum(_readable(cell) for cell in values) * 2 > len(values)


def _readable(cell: str) -> bool:
    return bool(VALUE.match(cell) or NO_READING.match(cell) or is_time(cell))


def _header(split: Sequence[Sequence[str]], first: int, width: int) -> tuple[str, ...]:
    """The nearest line above the data with as many cells, most of them words; a line of units under it is joined."""
    units: Sequence[str] = ()
    for at in range(first - 1, -1, -1):
        cells = split[at]
        if len(cells) != width or not any(cells):
            continue
        if not units and _is_unit_line(cells):
            units = cells
            continue
        words = sum(bool(re.search(r"[A-Za-z]", cell)) for cell in cells) * 2 >= sum(bool(cell) for cell in cells)
        if words or any(_TIME_WORDS.search(cell) for cell in cells):
            joined = zip(cells, units or [""] * width, strict=True)
            return tuple(f"{cell} ({unit})" if unit else cell for cell, unit in joined)
    return tuple("" for _ in range(width))


def _is_unit_line(cells: Sequence[str]) -> bool:
    return all(_UNIT_CELL.match(cell) for cell in cells) and any(UNIT.search(cell) for cell in cells)


def _rows(lines: Sequence[str], layout: _Layout) -> tuple[list[int], list[list[str]], list[Message]]:
    """Return the line number and the cells of every row of data, and what was left out."""
    at: list[int] = []
    rows: list[list[str]] = []
    width = len(layout.header)
    header = [cell.casefold() for cell in layout.header]
    repeated = other = 0
    last_line = max(number for number, line in enumerate(lines) if line.strip())
    cut = False
    for number in range(layout.first, len(lines)):
        line = lines[number]
        if not line.strip():
            continue
        cells = _split(line, layout.separator)
        if len(cells) < width and number == last_line:
            cut = True
            continue
        cells = cells[:width] if not any(cells[width:]) else cells
        if len(cells) == width and any(is_time(cell) for cell in cells[:3]):
            at.append(number + 1)
            rows.append(cells)
        elif _same_words(cells, header):
            repeated += 1
        elif len(cells) == width and _looks_like_header(cells):
            raise InputError("files.log_columns_change", field="log", line=number + 1)
        else:
            other += 1
    remarks = []
    if repeated:
        remarks.append(message("files.log_repeated_header", count=repeated))
    if cut:
        remarks.append(message("files.log_cut", line=last_line + 1))
    if other:
        remarks.append(message("files.log_other_lines", count=other))
    return at, rows, remarks


def _same_words(cells: Sequence[str], header: Sequence[str]) -> bool:
    """A repeated header; the unit line that was joined to the first one may be missing."""
    return len(cells) == len(header) and all(
        wanted == cell.casefold() or (cell and wanted.startswith(cell.casefold() + " ("))
        for cell, wanted in zip(cells, header, strict=True)
    )


def _looks_like_header(cells: Sequence[str]) -> bool:
    return any(_TIME_WORDS.search(cell) for cell in cells) and not any(VALUE.match(cell) for cell in cells)


def _time_columns(header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[int]:
    """The column of times; or that of dates and that of clocks. A column of row numbers is none."""
    sample = rows[:: max(len(rows) // 50, 1)]
    able = [at for at in range(len(header)) if all(is_time(row[at]) for row in sample)]
    named = [at for at in able if _TIME_WORDS.search(header[at].replace("_", " "))]
    clocks = [at for at in able if all(":" in row[at] or "/" in row[at] for row in sample)]
    for candidates in (named, clocks):
        if candidates:
            dates = [at for at in candidates if _is_date_only(sample, at)]
            others = [at for at in candidates if at not in dates and not ROW_NUMBER.match(header[at])]
            if dates and others:
                return [dates[0], others[0]]
            return (others or dates)[:1]
    if not any(header) and able and able[0] == 0:
        return [0]
    return []


def _no_times(header: Sequence[str], at: Sequence[int], rows: Sequence[Sequence[str]]) -> InputError:
    """Return the refusal of a log whose times cannot be told: the first bad one of a column that is called so, or that
    no column is."""
    for column, name in enumerate(header):
        if _TIME_WORDS.search(name.replace("_", " ")):
            for line, row in zip(at, rows, strict=True):
                if not is_time(row[column]):
                    return InputError("files.log_bad_time", field="log", line=line, read=row[column][:LONGEST_READ])
    return InputError("files.log_no_time", field="log", columns=_named(header))


def _is_date_only(sample: Sequence[Sequence[str]], at: int) -> bool:
    return all(":" not in row[at] and re.search(r"\d[-/.]\d+[-/.]\d", row[at]) for row in sample)


def _named(header: Sequence[str]) -> str:
    return ", ".join(cell or f"column {at + 1}" for at, cell in enumerate(header))
