"""The humidity that goes with a printed time and temperature: the option of the plant's own supporting document.

The options are dated rows. Cooking time runs from entry into the heated house until the printed row is reached; later
drying is no part of it. A plant that names none, or evidence that is missing, gives cannot tell.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from functools import cache

from pellicle.air.humid import STANDARD_PRESSURE_PA, saturation_pressure_pa
from pellicle.errors import InputError
from pellicle.message import Message, message
from pellicle.rules.limits import FLOAT_NOISE
from pellicle.rules.verdict import Verdict
from pellicle.rules.words import together
from pellicle.safety.printed_tables import DEGREE_F_C, FREEZING_F
from pellicle.table import Row, keys, number, rows

TABLE = "rules/data/humidity_options.csv"
SECONDS_PER_MINUTE = 60.0
STEAM, SEALED, HUMIDITY = "steam", "sealed", "humidity"


@dataclass(frozen=True, slots=True)
class HumidityOption:
    """One option: what shows it, for which share of the cooking time and never less than so long, from which endpoint.

    ``humidity`` (0 to 1) is what the air has to hold where that is the evidence; ``strictly``: more than the share.
    """

    id: str
    label: str
    since: date
    until: date | None
    evidence: str
    humidity: float | None
    least_endpoint_c: float | None
    least_cook_s: float
    share: float
    least_s: float
    strictly: bool
    clause: str
    sources: tuple[str, ...]

    def in_force(self, on: date) -> bool:
        """Return whether the option stands on a day."""
        return self.since <= on and (self.until is None or on <= self.until)

    def needed_s(self, cook_s: float) -> float:
        """Return for how long the evidence has to hold in a cook of so many seconds.

        >>> [option("2021 option 3").needed_s(hours * 3600) / 60 for hours in (1, 5)]
        [60.0, 75.0]
        """
        return max(self.share * cook_s, self.least_s)


@dataclass(frozen=True, slots=True)
class HumidityEvidence:
    """What is known of a cook, s: how long it was, at humidity, under steam, sealed; None is not known.

    ``endpoint_c`` is the temperature of the printed row that was held, ``dried_s`` for how long the surface was shown
    dry before it was reached: humidity has to come before drying.
    """

    cook_s: float | None = None
    endpoint_c: float | None = None
    humid_s: float | None = None
    steam_s: float | None = None
    sealed_s: float | None = None
    dried_s: float = 0.0


@dataclass(frozen=True, slots=True)
class GateFinding:
    """The verdict of the gate, the time found and the time needed, s, where both are known, and the reason."""

    verdict: Verdict
    value_s: float | None
    needed_s: float | None
    why: Message


@cache
def options() -> tuple[HumidityOption, ...]:
    """Return every option, in force or not."""
    return tuple(_option(row) for row in rows(TABLE))


def option(named: str, field: str = "plan.humidity_option") -> HumidityOption:
    """Return the option a plant names, such as ``2021 option 3`` or ``2014 B``; InputError where there is none.

    >>> option("2021 option 3").id, option("option C of 2014").id
    ('2021-3', '2014-C')
    """
    asked = _words(named)
    for one in options():
        if _words(one.id) == asked:
            return one
    known = ", ".join(one.label for one in options())
    raise InputError("rules_lethality.no_such_option", field=field, read=named, known=known)


def judge(chosen: HumidityOption, found: HumidityEvidence, on: date | None = None) -> GateFinding:
    """Return the verdict of one option on what is known of a cook; ``on`` is the day of the cook where it matters.

    A cook of 5 h to 140 F with 90 % for 60 minutes fails option 3 of 2021: it needs a quarter of it, 75 minutes.

    >>> five_hours = HumidityEvidence(cook_s=18000, endpoint_c=60.0, humid_s=3600)
    >>> judge(option("2021 option 3"), five_hours).verdict
    <Verdict.NOT_MET: 'not met'>
    """
    label = chosen.label
    if on is not None and not chosen.in_force(on):
        return _finding(Verdict.CANNOT_TELL, "gate_not_in_force", label=label, on=on.isoformat())
    if found.endpoint_c is None or found.cook_s is None:
        return _finding(Verdict.CANNOT_TELL, "gate_no_endpoint", label=label)
    least = chosen.least_endpoint_c
    if least is not None and found.endpoint_c < least - FLOAT_NOISE:
        at, needed = _both(found.endpoint_c), _both(least)
        return _finding(Verdict.NOT_MET, "gate_endpoint", label=label, at=at, needed=needed)
    if found.cook_s < chosen.least_cook_s:
        values = {"cook": _minutes(found.cook_s), "least": _minutes(chosen.least_cook_s)}
        return _finding(Verdict.NOT_MET, "gate_short_cook", label=label, **values)
    seconds = {STEAM: found.steam_s, SEALED: found.sealed_s, HUMIDITY: found.humid_s}[chosen.evidence]
    needed_s = chosen.needed_s(found.cook_s)
    if seconds is None:
        why = message(f"rules_lethality.gate_no_{chosen.evidence}", label=label, needed=_minutes(needed_s))
        return GateFinding(Verdict.CANNOT_TELL, None, needed_s, why)
    seconds = min(seconds, found.cook_s)  # typed minutes cannot be more than there were
    slack = FLOAT_NOISE * needed_s
    met = seconds > needed_s + slack if chosen.strictly else seconds >= needed_s - slack
    why = message(
        f"rules_lethality.gate_{'met' if met else 'missed'}",
        label=label,
        what=str(message(f"rules_lethality.evidence_{chosen.evidence}")),
        found=_minutes(seconds),
        needed=_minutes(needed_s),
        cook=_minutes(found.cook_s),
    )
    verdict = Verdict.MET if met else Verdict.NOT_MET
    if met and found.dried_s > 0.0:
        verdict = Verdict.CANNOT_TELL
        why = together(why, message("rules_lethality.gate_dried_first", dried=_minutes(found.dried_s)))
    return GateFinding(verdict, seconds, needed_s, why)


def most_humidity(dry_bulb_c: float, pressure_pa: float = STANDARD_PRESSURE_PA) -> float:
    """Return the most humidity (0 to 1) that air of a dry bulb can hold: that of pure steam.

    At 225 F and sea level 77.6 % is the most there can be, so no option that asks for 90 % can be met.

    >>> round(most_humidity((225 - 32) / 1.8), 3)
    0.776
    """
    return min(1.0, pressure_pa / float(saturation_pressure_pa(dry_bulb_c)))


def possible(chosen: HumidityOption, dry_bulb_c: float, pressure_pa: float = STANDARD_PRESSURE_PA) -> bool:
    """Return whether the air can hold what an option asks for at a dry bulb."""
    return chosen.humidity is None or most_humidity(dry_bulb_c, pressure_pa) >= chosen.humidity


def _finding(verdict: Verdict, id: str, **values: str) -> GateFinding:
    return GateFinding(verdict, None, None, message(f"rules_lethality.{id}", **values))


def _minutes(seconds: float) -> str:
    return f"{seconds / SECONDS_PER_MINUTE:.0f} min"


def _both(celsius: float) -> str:
    return f"{celsius:.1f} °C ({celsius / DEGREE_F_C + FREEZING_F:.0f} °F)"


def _words(text: str) -> tuple[str, ...]:
    """The year, the option's number or letter and its kind, in that order, whatever stands around them."""
    found = re.findall(r"\d{4}|\d|[A-Za-z]+", re.sub(r"\([^)]*\)", " ", text.replace("-", " ")))
    kept = {word.casefold() for word in found} - {"option", "of", "the", "appendix", "guideline", "jerky"}
    kept = {"2014" if word == "2012" else word for word in kept}
    return tuple(sorted(kept))


def _option(row: Row) -> HumidityOption:
    endpoint = number(row, "least_endpoint_f") if row["least_endpoint_f"] else None
    return HumidityOption(
        id=row["id"],
        label=row["label"],
        since=date.fromisoformat(row["since"]),
        until=date.fromisoformat(row["until"]) if row["until"] else None,
        evidence=row["evidence"],
        humidity=number(row, "humidity") if row["humidity"] else None,
        least_endpoint_c=None if endpoint is None else (endpoint - FREEZING_F) * DEGREE_F_C,
        least_cook_s=number(row, "least_cook_min") * SECONDS_PER_MINUTE,
        share=number(row, "share"),
        least_s=number(row, "least_min") * SECONDS_PER_MINUTE,
        strictly=row["strictly"] == "yes",
        clause=row["clause"],
        sources=keys(row),
    )
