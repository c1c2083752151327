"""Holds at a wet bulb that a published study validated, and whether a log shows the one the plant names.

A hold supports what was tried and nothing else: whole-muscle beef strips, a marinade, a drying stage after it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

import numpy as np

from pellicle import units
from pellicle.errors import InputError
from pellicle.measured.series import Series
from pellicle.message import message
from pellicle.product import Form
from pellicle.rules.humidity_gate import SECONDS_PER_MINUTE, GateFinding
from pellicle.rules.verdict import Verdict
from pellicle.safety.process_times import longest_at_wet_bulb
from pellicle.safety.wetness import dried_before, wetness
from pellicle.table import Row, keys, number, rows

TABLE = "rules/data/validated_holds.csv"
# A printed tenth of a degree, K: 57.2 C stands for 135 F, which is 57.22.
PRINTED_C = 0.05


@dataclass(frozen=True, slots=True)
class ValidatedHold:
    """One validated hold: wet bulb, time, the dry bulb that has to follow, and for what it was shown."""

    id: str
    wet_bulb_c: float
    seconds: float
    then_dry_bulb_c: float
    species: str
    form: Form
    at_least_log: float
    conditions: str
    sources: tuple[str, ...]

    @property
    def label(self) -> str:
        """The hold in words, such as ``57.2 °C for 30 min``."""
        return f"{self.wet_bulb_c:.1f} °C for {self.seconds / SECONDS_PER_MINUTE:.0f} min"


@cache
def holds() -> tuple[ValidatedHold, ...]:
    """Return every validated hold, coldest first."""
    return tuple(_hold(row) for row in rows(TABLE))


def named_hold(text: str, field: str = "plan.wet_bulb_hold") -> tuple[float, float]:
    """Return temperature in degC and time in s of a hold as a plant names it; InputError if it is no such thing.

    >>> named_hold("57.2 C for 30 min")
    (57.2, 1800.0)
    """
    match = re.fullmatch(r"\s*(?:at least\s+)?(.+?)\s+(?:for|over|,)\s+(?:at least\s+)?(.+?)\s*", text)
    if match is None:
        raise InputError("rules_lethality.hold_form", field=field, read=text)
    return units.temperature_c(match.group(1), field), units.duration_s(match.group(2), field)


def validated(wet_bulb_c: float, seconds: float) -> ValidatedHold | None:
    """Return the validated hold that a named one is as warm and as long as; None where no study we know reaches it.

    >>> validated(57.2, 1800.0).id, validated(50.0, 3600.0)
    ('buege-57.2', None)
    """
    found = [one for one in holds() if wet_bulb_c >= one.wet_bulb_c - PRINTED_C and seconds >= one.seconds]
    return max(found, key=lambda one: one.wet_bulb_c) if found else None


def judge_hold(text: str, series: Series, species: str, form: Form | None, as_studied: bool = False) -> GateFinding:
    """Return the verdict of the hold a plant names on a series: first the hold, without a break, then the dry stage.

    ``as_studied``: the plant's record shows what no log can, the marinade and the strips of the study.
    """
    wet_bulb_c, seconds = named_hold(text)
    chosen = validated(wet_bulb_c, seconds)
    if chosen is None:
        return _finding(Verdict.CANNOT_TELL, None, seconds, "hold_unknown", named=text)
    if species != chosen.species or form is not chosen.form:
        other = f"{chosen.species}, {chosen.form.value}"
        return _finding(Verdict.CANNOT_TELL, None, seconds, "hold_other_product", named=text, tried=other)
    stretch = longest_at_wet_bulb(series, wet_bulb_c - PRINTED_C)
    if stretch is None:
        return _finding(Verdict.CANNOT_TELL, None, seconds, "hold_no_wet_bulb", named=text)
    held = stretch.seconds
    words = {"named": text, "found": f"{held / SECONDS_PER_MINUTE:.0f} min", "tried": chosen.conditions}
    if held < seconds:
        return _finding(Verdict.NOT_MET, held, seconds, "hold_missed", **words)
    dried = dried_before(series, wetness(series), stretch.from_s)
    if dried > 0.0:
        minutes = f"{dried / SECONDS_PER_MINUTE:.0f} min"
        return _finding(Verdict.CANNOT_TELL, held, seconds, "hold_dried_first", dried=minutes, **words)
    after = series.time_s > stretch.to_s
    air = None if series.air_c is None else series.air_c[after]
    followed = air is not None and bool(np.nanmax(air, initial=-np.inf) >= chosen.then_dry_bulb_c - PRINTED_C)
    if not followed:
        then = f"{chosen.then_dry_bulb_c:.1f} °C"
        return _finding(Verdict.CANNOT_TELL, held, seconds, "hold_not_followed", then=then, **words)
    if not as_studied:
        return _finding(Verdict.CANNOT_TELL, held, seconds, "hold_conditions", **words)
    return _finding(Verdict.MET, held, seconds, "hold_met", **words)


def _finding(verdict: Verdict, value: float | None, needed: float, id: str, **values: str) -> GateFinding:
    return GateFinding(verdict, value, needed, message(f"rules_lethality.{id}", **values))


def _hold(row: Row) -> ValidatedHold:
    return ValidatedHold(
        row["id"],
        number(row, "wet_bulb_c"),
        number(row, "minutes") * SECONDS_PER_MINUTE,
        number(row, "then_dry_bulb_c"),
        row["species"],
        Form(row["form"]),
        number(row, "at_least_log"),
        row["conditions"],
        keys(row),
    )
