"""The columns of a probe log as channels: their unit, codes for no reading, and what is refused in them."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from pellicle.errors import InputError
from pellicle.measured.probe_log import HOTTEST_C, Channel
from pellicle.measured.series import Array
from pellicle.message import Message, message

COLDEST_C = -60.0
# Codes that loggers write for no reading, whatever the unit; a number beyond this size is none either.
NO_READING = re.compile(
    r"^(?:[-+]?9{3,}(?:\.\d+)?|-{1,}|\*+|o\.?l\.?|o\.?r\.?|over|under|open|short|err\w*|fault|n/?a|nan|null|none|hi|lo"
    r"|[-+]?inf(?:inity)?|#\w*[!/?]*)$",
    re.IGNORECASE,
)
VALUE = re.compile(r"^([+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?)\s*(?:(?:°|deg\.?\s*)?([CFcf])|%)?$")
UNIT = re.compile(
    r"(?:°|º|deg(?:rees)?\.?\s*|[\[(_\s/]|^)(?:deg\.?\s*)?([CF])(?:elsius|ahrenheit)?(?:[\])\s,;_]|$)", re.IGNORECASE
)
_UNIT_LINE = re.compile(r"unit|temp|scale", re.IGNORECASE)
_DATE_ONLY = re.compile(r"\bdate\b|\bday\b", re.IGNORECASE)
_HUMIDITY = re.compile(r"humid|\brh\b|%\s*rh|\br\.h\.", re.IGNORECASE)
ROW_NUMBER = re.compile(r"^(#|no\.?|nr\.?|n|row|index|record|reading|sample)$", re.IGNORECASE)


def channels_of(
    above: Sequence[str],
    header: Sequence[str],
    numbered: tuple[Sequence[int], Sequence[Sequence[str]]],
    time_columns: Sequence[int],
    asked: str,
    remarks: list[Message],
) -> list[Channel]:
    """Return the channels of rows under a header, without the columns of times, of row numbers and of words.

    ``above`` are the lines over the rows, ``numbered`` the lines of the rows in the file and the rows; ``asked`` is the
    unit where nothing in the file says one. InputError for units that contradict each other.
    """
    at_line, rows = numbered
    over_all = _unit_above(above)
    found: list[Channel] = []
    said: list[Channel] = []
    for at, head in enumerate(header):
        if at in time_columns or ROW_NUMBER.match(head) or (_DATE_ONLY.search(head) and not found):
            continue
        cells = [row[at] for row in rows]
        values, unit_seen, over = _numbers(cells)
        if not over and not np.any(np.isfinite(values)):
            continue  # a column of words or of nothing
        name = head or f"column {at + 1}"
        if _HUMIDITY.search(head):
            found.append(_humidity(name, values, over))
            continue
        if unit_seen:
            _refuse_two_units(cells, at_line, name)
        match = UNIT.search(head)
        told = unit_seen or (match.group(1).upper() if match else "") or over_all
        found.append(_temperature(name, values, told or asked, over, remarks))
        said += [found[-1]] if told else []
    if asked and said and all(channel in said for channel in found if channel.kind == "temperature"):
        for channel in said:
            if channel.unit != asked:
                raise InputError(
                    "files.log_unit_told", field="--unit", read=asked, column=channel.name, unit=channel.unit
                )
    return found


def _refuse_two_units(cells: Sequence[str], lines: Sequence[int], name: str) -> None:
    """Refuse a column with readings in C and in F: one slip of the pen there is eighty degrees."""
    first = ""
    for cell, line in zip(cells, lines, strict=True):
        match = None if NO_READING.match(cell) else VALUE.match(cell)
        unit = (match.group(2) or "").upper() if match else ""
        if first and unit and unit != first:
            raise InputError("files.log_two_units", field="log", line=line, column=name, read=cell, unit=first)
        first = first or unit


def _numbers(cells: Sequence[str]) -> tuple[Array, str, int]:
    """Return readings as written, the unit that stands behind them if any, and how many are codes for none."""
    values = np.empty(len(cells))
    unit, over = "", 0
    for at, cell in enumerate(cells):
        try:
            values[at] = float(cell)
            if NO_READING.match(cell) or not np.isfinite(values[at]):
                values[at], over = np.nan, over + 1
            continue
        except ValueError:
            pass
        match = None if NO_READING.match(cell) else VALUE.match(cell)
        if match is None:
            values[at] = np.nan
            over += bool(NO_READING.match(cell))
            continue
        values[at] = float(match.group(1).replace(",", "."))
        unit = unit or (match.group(2) or "").upper()
    return values, unit, over


def _humidity(name: str, values: Array, over: int) -> Channel:
    whole = float(np.nanmax(values, initial=0.0)) > 1.5
    share = values / 100.0 if whole else values
    bad = (share < 0.0) | (share > 1.05)
    return Channel(name, "humidity", np.where(bad, np.nan, np.minimum(share, 1.0)), "", over + int(np.sum(bad)))


def _temperature(
    name: str,
    values: Array,
    unit: str,
    over: int,
    remarks: list[Message],
) -> Channel:
    celsius = (values - 32.0) / 1.8 if unit == "F" else values
    bad = (celsius < COLDEST_C) | (celsius > HOTTEST_C)
    over += int(np.sum(bad))
    if over:
        remarks.append(message("files.log_over_range", column=name, count=over))
    return Channel(name, "temperature", np.where(bad, np.nan, celsius), unit, over)


def _unit_above(lines: Sequence[str]) -> str:
    """The unit told in the lines over the header, such as ``Temperature unit: F``."""
    for line in lines:
        if _UNIT_LINE.search(line) and (match := UNIT.search(line)):
            return match.group(1).upper()
    return ""
