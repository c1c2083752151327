"""The plant's own critical limits, in its own words: read where we can, judged where we compute what they speak of.

A limit on what goes in is judged on the formula. A limit on what comes out is judged on readings; a plan has only a
prediction, so it cannot tell. What is not computed here is kept and left to the batch record.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from pellicle.message import Message, message
from pellicle.product import OwnLimit
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.limits import Bound, within
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import apart

# units in which a limit may be written, in parts of one, ppm and per cent; source: their definitions
PARTS = MappingProxyType({"ppm": 1e-6, "mg/kg": 1e-6, "g/kg": 1e-3, "%": 1e-2, "percent": 1e-2})

_AT_MOST = r"at most|no more than|not more than|not over|not above|maximum|max\.?|up to|<=|≤|=<"
_AT_LEAST = r"at least|no less than|not less than|not below|not under|minimum|min\.?|>=|≥|=>"
_BELOW = r"below|under|less than|<"
_ABOVE = r"above|over|more than|>"
_NUMBER = r"(?P<number>\d+(?:[.,]\d+)?)(?:\s*:\s*1\b)?"
_UNIT = r"(?P<unit>ppm|mg/kg|g/kg|%|percent)?"
_BEFORE = re.compile(
    rf"^(?:(?P<most>{_AT_MOST})|(?P<least>{_AT_LEAST})|(?P<below>{_BELOW})|(?P<above>{_ABOVE}))\s*{_NUMBER}\s*{_UNIT}$"
)
_AFTER = re.compile(
    rf"^{_NUMBER}\s*{_UNIT}\s*(?:(?P<most>or less|or below|or lower|max\.?|maximum|at most)"
    r"|(?P<least>or more|or above|or higher|min\.?|minimum|at least))$"
)


@dataclass(frozen=True, slots=True)
class ReadLimit:
    """A limit as read: its side, number, unit as written (may be empty), and whether the number itself is out."""

    bound: Bound
    number: float
    unit: str
    strict: bool = False

    def met_by(self, value: float) -> bool:
        """Tell whether an unrounded value in the limit's own unit meets it."""
        if self.strict and within(value, self.number) and within(value, self.number, Bound.AT_LEAST):
            return False
        return within(value, self.number, self.bound)


@dataclass(frozen=True, slots=True)
class Known:
    """A quantity the plan computes: value in parts of one (``unit`` empty: as it is); whether it is predicted."""

    value: float | None
    unit: str
    digits: int
    predicted: bool


def read_limit(text: str) -> ReadLimit | None:
    """Return a limit read from the plant's words, or None where they hold more than one number with its side.

    >>> read_limit("at most 156 ppm"), read_limit("0.85 or less").number, read_limit("at least 60 C for 40 min")
    (ReadLimit(bound=<Bound.AT_MOST: 'at most'>, number=156.0, unit='ppm', strict=False), 0.85, None)
    """
    tidy = " ".join(text.strip().lower().split())
    found = _BEFORE.match(tidy) or _AFTER.match(tidy)
    if found is None:
        return None
    groups = found.groupdict()
    least = bool(groups.get("least") or groups.get("above"))
    return ReadLimit(
        Bound.AT_LEAST if least else Bound.AT_MOST,
        float(groups["number"].replace(",", ".")),
        groups["unit"] or "",
        strict=bool(groups.get("below") or groups.get("above")),
    )


def own_checks(limits: Sequence[OwnLimit], quantities: PlanQuantities) -> tuple[Check, ...]:
    """Return one check for each of the plant's own limits, in its order."""
    return tuple(_check(at, limit, quantities) for at, limit in enumerate(limits, start=1))


def strictest_aw(limits: Sequence[OwnLimit]) -> float | None:
    """Return the lowest water activity that the plant's own limits allow, or None where none of them speaks of it.

    >>> strictest_aw([OwnLimit("water activity", "at most 0.82"), OwnLimit("MPR", "at most 0.75")])
    0.82
    """
    # a limit speaks of water activity where it would be judged by nothing but that
    only_aw = PlanQuantities(aw_at_pull=1.0)
    said = [(read_limit(limit.value), known_quantity(limit.what, only_aw)) for limit in limits]
    found = [read for read, quantity in said if quantity is not None and quantity.value == only_aw.aw_at_pull]
    return min(
        (read.number for read in found if read is not None and read.bound is Bound.AT_MOST and not read.unit),
        default=None,
    )


def known_quantity(what: str, quantities: PlanQuantities) -> Known | None:
    """Return what a limit speaks of, if the plan computes it.

    >>> known_quantity("Ingoing nitrite", PlanQuantities()).unit, known_quantity("Residual nitrite", PlanQuantities())
    ('ppm', None)
    """
    said = what.lower()
    if any(word in said for word in _NOT_COMPUTED):
        return None
    restricted = [name for name in _RESTRICTED if name in said]
    if restricted and (len(restricted) > 1 or any(word in said for word in _OTHER_BASIS)):
        return None
    for words, quantity in _QUANTITIES:
        if re.search(words, said):
            return quantity(quantities)
    return None


def _check(at: int, limit: OwnLimit, quantities: PlanQuantities) -> Check:
    quantity, read = known_quantity(limit.what, quantities), read_limit(limit.value)
    value: float | None = None
    verdict = Verdict.CANNOT_TELL
    if quantity is None:
        why = message("rules.own_recorded", value_text=limit.value)
    elif read is None:
        why = message("rules.own_unread", value_text=limit.value)
    else:
        value = _in_unit(quantity, read)
        verdict, why = _judged(value, quantity, read, limit)
    computed = read is not None and quantity is not None
    return Check(
        id=f"own.{at}",
        title=message("rules.own_title", what=limit.what),
        verdict=verdict,
        why=why,
        group=Group.OWN,
        value=value,
        limit=read.number if read is not None and computed else None,
        unit=(read.unit or quantity.unit) if read is not None and quantity is not None else "",
        direction=read.bound if read is not None and computed else Bound.AT_MOST,
        margin=None if value is None or read is None else _margin(value, read),
        digits=quantity.digits if quantity is not None else 0,
        clause=message_clause(limit),
        sources=(),
    )


def message_clause(limit: OwnLimit) -> str:
    """Return where the limit is measured and how often, in the plant's words."""
    return "; ".join(part for part in (limit.where, limit.how_often) if part)


def _judged(value: float | None, quantity: Known, read: ReadLimit, limit: OwnLimit) -> tuple[Verdict, Message]:
    if value is None:
        return Verdict.CANNOT_TELL, message("rules.own_not_known", value_text=limit.value)
    shown = apart(value, read.number, quantity.digits)[0]
    unit = read.unit or quantity.unit
    text = f"{shown} {unit}" if unit else shown
    met = read.met_by(value)
    if quantity.predicted:
        return Verdict.CANNOT_TELL, message(
            "rules.own_predicted" if met else "rules.own_predicted_past", value=text, value_text=limit.value
        )
    verdict = Verdict.MET if met else Verdict.NOT_MET
    return verdict, message("rules.own_met" if met else "rules.own_missed", value=text, value_text=limit.value)


def _in_unit(quantity: Known, read: ReadLimit) -> float | None:
    """The quantity in the unit of the limit; a limit without a unit is read in the quantity's own."""
    if quantity.value is None or not quantity.unit:
        return quantity.value if not read.unit else None
    return quantity.value / PARTS[read.unit or quantity.unit]


def _margin(value: float, read: ReadLimit) -> float:
    return value - read.number if read.bound is Bound.AT_LEAST else read.number - value


def _agent(name: str) -> Callable[[PlanQuantities], Known]:
    def quantity(quantities: PlanQuantities) -> Known:
        cure = quantities.cure
        if cure is None:
            return Known(0.0, "ppm", 1, predicted=False)
        ppm = (cure.nitrite if name == "nitrite" else cure.nitrate).ingoing_ppm
        return Known(None if ppm is None else ppm * PARTS["ppm"], "ppm", 1, predicted=False)

    return quantity


# words that name something other than what the plan computes
_NOT_COMPUTED = ("residual", "finished nitrite", "finished nitrate", "temperature", "cooler")
# What the plan computes of these is what goes in; words that name another basis, or two of them together, it does not.
_RESTRICTED = ("nitrite", "nitrate", "phosphate", "erythorbate", "ascorbate")
_OTHER_BASIS = (
    "finish",
    "final",
    "releas",
    "left",
    "remain",
    "total",
    "purity",
    "analys",
    "lab",
    "label",
    "pull",
    "pack",
)
_QUANTITIES: tuple[tuple[str, Callable[[PlanQuantities], Known]], ...] = (
    (r"\bnitrite\b", _agent("nitrite")),
    (r"\bnitrate\b", _agent("nitrate")),
    (r"water activity|\ba_?w\b", lambda q: Known(q.aw_at_pull, "", 2, predicted=True)),
    (r"moisture.{1,4}protein|\bmpr\b", lambda q: Known(q.mpr_at_pull, "", 2, predicted=True)),
    (r"brine|water[- ]phase salt|\bwps\b", lambda q: Known(q.brine_share, "%", 1, predicted=True)),
    (r"\bsalt\b", lambda q: Known(q.salt_share, "%", 1, predicted=True)),
    (r"erythorbate|ascorbate", lambda q: Known(q.salts_ppm * PARTS["ppm"], "ppm", 1, predicted=False)),
    (r"phosphate", lambda q: Known(q.phosphate_share, "%", 2, predicted=False)),
    (r"pick-?up", lambda q: Known(q.pickup_share, "%", 1, predicted=True)),
)
