"""A probe log as it was read: its time and channels with their names, before anybody says which channel is what.

``series_of`` picks core, dry bulb, wet bulb and humidity by the words in their names or by what was asked for.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pellicle.errors import InputError
from pellicle.measured.series import Array, Series
from pellicle.message import Message

# What the names of channels usually say; the first kind whose words are found decides.
ROLE_WORDS = {
    "wet_bulb": r"\bwet\b|wet.?bulb|\bwb\b|sock",
    "humidity": r"humid|\brh\b|%\s*rh",
    "core": r"core|internal|product|meat|inside|\bpiece|slice|\bit\b",
    "dry_bulb": r"\bdry\b|dry.?bulb|\bdb\b|\bair\b|chamber|oven|\bhouse\b|smokehouse|cabinet|ambient",
}
# A room warmer than this has no steam house, C; what reads higher was never in this unit.
HOTTEST_C = 160.0
# assumed: a core stays below it, also that of dried pieces in a hot oven at the end (lethality-review, section 3.1:
# ten minutes at 135 C), and a wet bulb near or below boiling; readings above are in F, or of another probe.
HOTTEST_CORE_C, HOTTEST_WET_BULB_C = 120.0, 110.0
# assumed: fewer, and a smaller share of a log of a few lines, are a probe on its way in or out
MANY_READINGS, MANY_SHARE = 3, 1 / 3


@dataclass(frozen=True, slots=True, eq=False)
class Channel:
    """One column: name as in the file, values (n,) in degC or as a share of 1, NaN where the reading lacks.

    ``kind`` is ``temperature`` or ``humidity``; ``unit`` C, F or "" where the log does not say; ``over_range`` counts
    readings that were a code for none.
    """

    name: str
    kind: str
    values: Array
    unit: str = ""
    over_range: int = 0


@dataclass(frozen=True, slots=True, eq=False)
class ProbeLog:
    """A log: seconds from its first row (n,), channels, when it began as written, remarks on how it was read.

    ``gaps_s`` lists the steps that are much longer than the usual one.
    """

    name: str
    time_s: Array
    channels: tuple[Channel, ...]
    began: str
    remarks: tuple[Message, ...]

    @property
    def unit_told(self) -> bool:
        """False where nothing said whether its temperatures are in C or F."""
        return all(channel.unit for channel in self.channels if channel.kind == "temperature")


@dataclass(frozen=True, slots=True)
class Chosen:
    """Which channels a series was made of, by name; empty where none was found or asked for."""

    core: tuple[str, ...]
    dry_bulb: str
    wet_bulb: str
    humidity: str


def series_of(
    log: ProbeLog, core: Sequence[str] = (), dry_bulb: str = "", wet_bulb: str = "", humidity: str = ""
) -> tuple[Series, Chosen]:
    """Return the series of a log and the channels it was made of; of several cores the coldest counts row by row.

    A column is asked for by its name (case does not matter) or by its number, counted from 1 over all columns but the
    time. InputError where a column asked for does not exist, or no column is anything we know.
    """
    taken = [_asked(log, name, "--core") for name in core]
    dry = _asked(log, dry_bulb, "--dry-bulb") if dry_bulb else None
    wet = _asked(log, wet_bulb, "--wet-bulb") if wet_bulb else None
    damp = _asked(log, humidity, "--humidity") if humidity else None
    _refuse_twice([*(("--core", one) for one in taken), ("--dry-bulb", dry), ("--wet-bulb", wet), ("--humidity", damp)])
    spoken = {channel.name for channel in (*taken, dry, wet, damp) if channel is not None}
    free = [channel for channel in log.channels if channel.name not in spoken]
    taken = taken or [channel for channel in free if role(channel) == "core"]
    dry = dry or _first(free, "dry_bulb")
    wet = wet or _first(free, "wet_bulb")
    damp = damp or _first(free, "humidity")
    if not taken and dry is None and wet is None:
        names = ", ".join(channel.name for channel in log.channels)
        raise InputError("measured.no_column", field="--core", columns=names)
    for channel in taken:
        _refuse_hotter(channel, HOTTEST_CORE_C, "core")
    if wet is not None:
        _refuse_hotter(wet, HOTTEST_WET_BULB_C, "wet_bulb")
    cores = [channel.values for channel in taken]
    series = Series(
        log.time_s,
        air_c=None if dry is None else dry.values,
        wet_bulb_c=None if wet is None else wet.values,
        humidity=None if damp is None else damp.values,
        core_c=np.minimum.reduce(cores) if cores else None,
    )
    _refuse_empty(series)
    chosen = Chosen(
        tuple(channel.name for channel in taken),
        "" if dry is None else dry.name,
        "" if wet is None else wet.name,
        "" if damp is None else damp.name,
    )
    return series, chosen


def role(channel: Channel) -> str:
    """Return what a channel is by the words in its name, or nothing.

    >>> role(Channel("Wet Bulb (F)", "temperature", np.zeros(1))), role(Channel("Ch 4", "temperature", np.zeros(1)))
    ('wet_bulb', '')
    """
    if channel.kind == "humidity":
        return "humidity"
    for kind, words in ROLE_WORDS.items():
        if kind != "humidity" and re.search(words, channel.name.replace("_", " "), re.IGNORECASE):
            return kind
    return ""


def _asked(log: ProbeLog, name: str, field: str) -> Channel:
    wanted = name.strip().casefold()
    exactly = [channel for channel in log.channels if channel.name.casefold() == wanted]
    if len(exactly) == 1:
        return exactly[0]
    if wanted.isdigit() and 1 <= int(wanted) <= len(log.channels):
        return log.channels[int(wanted) - 1]
    within = [channel for channel in log.channels if wanted and wanted in channel.name.casefold()]
    if len(within) == 1:
        return within[0]
    names = ", ".join(channel.name for channel in log.channels)
    raise InputError("measured.no_such_column", field=field, read=name, columns=names)


def _refuse_twice(asked: Sequence[tuple[str, Channel | None]]) -> None:
    """Refuse a column that was asked for under two names."""
    fields: dict[str, str] = {}
    for field, channel in asked:
        if channel is not None and fields.setdefault(channel.name, field) != field:
            raise InputError("measured.column_twice", field=field, read=channel.name, other=fields[channel.name])


def _first(channels: Sequence[Channel], kind: str) -> Channel | None:
    return next((channel for channel in channels if role(channel) == kind), None)


def _refuse_hotter(channel: Channel, most_c: float, role: str) -> None:
    """Refuse a channel too hot for what it is taken for, more than in passing: another unit, or another probe."""
    hot = int(np.sum(channel.values > most_c))
    if hot >= min(MANY_READINGS, MANY_SHARE * channel.values.size):
        raise InputError(
            f"measured.too_hot_{role}",
            field="--unit",
            column=channel.name,
            hottest=f"{float(np.nanmax(channel.values)):.0f}",
            most=f"{most_c:.0f}",
        )


def _refuse_empty(series: Series) -> None:
    columns = [getattr(series, name) for name in series.columns]
    if columns and not any(bool(np.any(np.isfinite(column))) for column in columns):
        raise InputError("measured.all_over_range", field="log")
