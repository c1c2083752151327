"""The amount on a line of a formula: how much, and of what it is a share."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.units.kinds import MASS, PERCENT, SHARE, VOLUME
from pellicle.units.reading import (
    Entry,
    bare_number,
    entry_text,
    is_bare_number,
    measure,
    refusal,
    within,
)
from pellicle.units.shares import share_of, split_per, whole_kg


class Basis(StrEnum):
    """What an amount is a share of: the raw meat, everything, the solution (all but the meat); or its own weight."""

    RAW = "of raw"
    TOTAL = "of total"
    SOLUTION = "of solution"
    ABSOLUTE = "absolute"


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount on its basis: a share (kg per kg of the basis), or kg where the basis is ``ABSOLUTE``.

    ``agent`` is ``nitrite`` or ``nitrate`` where the share is of that agent, so that the line's mass follows from its
    strength. ``bags``: the value counts bags per kg of raw, or bags where ``ABSOLUTE``. ``text`` is what was typed.
    """

    value: float
    basis: Basis
    agent: str = ""
    bags: bool = False
    text: str = ""


# Limits of sense, our own choice: what lies beyond is a slip of a unit, not a formula.
RAW_MOST = 3.0  # kg per kg of raw: cover pickle for whole pieces takes up to about this much
SHARE_LEAST = 1e-7  # kg/kg: a tenth of a ppm cannot be weighed out
AGENT_MOST = 1e-2  # kg/kg of nitrite or nitrate: far over any limit, so a strength from a label and no target
BAGS_MOST = 1000.0  # bags
BAGS_PER_KG_MOST = 100.0  # bags per kg of raw

FORMS = ("9 % of raw", "3 % of total", "2.5 kg")
BASIS_FORMS = ("9 % of raw", "3 % of total", "2 % of solution")
BAG_FORMS = ("1 bag per 25 lb", "2 bags", "1/2 bag per 10 kg")
AGENT_FORMS = ("150 ppm nitrite of raw", "150 ppm nitrite", "0.015 % nitrite of raw")

PHRASES = MappingProxyType(
    {
        Basis.RAW: ("raw", "green", "meat", "raw meat", "green meat", "meat block"),
        Basis.TOTAL: ("total", "batch", "total batch", "everything"),
        Basis.SOLUTION: ("solution", "pickle", "brine", "marinade"),
    }
)

_AGENT = re.compile(r"\s*\b(?:sodium\s+)?(nitrite|nitrate)$", re.IGNORECASE)
_OF = re.compile(r"\s*\bof\s+(?:the\s+)?(.*)$", re.IGNORECASE)
_BAGS = re.compile(r"(.+?)\s*\b(?:unit\s+)?bags?$", re.IGNORECASE)


def amount(value: Entry, field: str) -> Amount:
    """Return the amount ``value`` states; InputError if it states none, or one that makes no sense.

    A bare per cent, ppm or weight per weight is of the raw meat.

    >>> amount("9 %", "formula[1].amount")
    Amount(value=0.09, basis=<Basis.RAW: 'of raw'>, agent='', bags=False, text='9 %')
    >>> amount("3 % of total", "").basis, amount("4 oz per 100 lb", "").value, amount("2.5 kg", "").basis
    (<Basis.TOTAL: 'of total'>, 0.0025, <Basis.ABSOLUTE: 'absolute'>)
    >>> round(amount("150 ppm nitrite of raw", "").value, 9), amount("150 ppm nitrite", "").agent
    (0.00015, 'nitrite')
    >>> amount("2 bags", "").bags
    True
    """
    if is_bare_number(value):
        raise _without_basis(value, field)
    text = entry_text(value, field, FORMS)
    head, phrase = _split_of(text)
    basis = _basis(phrase, text, field)
    agent = _AGENT.search(head)
    name = agent[1].lower() if agent else ""
    stated = head[: agent.start()].strip() if agent else head
    part, whole = split_per(stated)
    counted = _BAGS.fullmatch(part)
    if counted and not name:
        return _bags(counted[1], whole, basis, text, field)
    if not whole and not name and _is_measured_in(part, MASS.units):
        return _weight(part, basis, text, field)
    _refuse_others(part, whole, name, text, field)
    share = share_of(stated, text, field, AGENT_FORMS if name else FORMS)
    return Amount(_checked(share, basis or Basis.RAW, name, text, field), basis or Basis.RAW, name, False, text)


def _without_basis(value: Entry, field: str) -> InputError:
    """Return the refusal of a bare number, with the shares it may stand for."""
    read, number = bare_number(value, field, FORMS)
    if number <= 0:
        return refusal("negative" if number < 0 else "zero_amount", field, read, FORMS)
    if number < 1:
        return refusal("fraction_for_percent", field, read, (f"{number / PERCENT:.6g} % of raw", *FORMS[1:]))
    return refusal("no_basis", field, read, (f"{number:.6g} % of raw", f"{number:.6g} g/kg", f"{number:.6g} kg"))


def _split_of(text: str) -> tuple[str, str]:
    match = _OF.search(text)
    return (text[: match.start()], match[1]) if match else (text, "")


def _basis(phrase: str, read: str, field: str) -> Basis | None:
    """Return the basis a phrase names, None where there is no phrase; InputError where it names none we know."""
    if not phrase:
        return None
    words = re.sub(r"\s+weight$", "", phrase.lower().rstrip("."))
    for basis, spellings in PHRASES.items():
        if words in spellings:
            return basis
    raise refusal("unknown_basis", field, read, BASIS_FORMS, basis=phrase)


def _bags(count: str, whole: str, basis: Basis | None, read: str, field: str) -> Amount:
    if not is_bare_number(count):
        raise refusal("unreadable", field, read, BAG_FORMS)
    _, number = bare_number(count, field, BAG_FORMS)
    if number < 0:
        raise refusal("negative", field, read, BAG_FORMS)
    if number == 0:
        raise refusal("zero", field, read, BAG_FORMS)
    if basis not in (None, Basis.RAW) or (basis and not whole):
        raise refusal("bag_basis", field, read, BAG_FORMS)
    per_kg = number / whole_kg(whole, read, field, BAG_FORMS) if whole else 0.0
    if number > BAGS_MOST or per_kg > BAGS_PER_KG_MOST:
        raise refusal("too_many_bags", field, read, BAG_FORMS)
    return Amount(per_kg or number, Basis.RAW if whole else Basis.ABSOLUTE, "", True, read)


def _weight(text: str, basis: Basis | None, read: str, field: str) -> Amount:
    if basis:
        raise refusal("weight_of_basis", field, read, FORMS)
    kg = within(measure(text, read, field, MASS, FORMS), read, field, MASS, FORMS)
    return Amount(kg, Basis.ABSOLUTE, "", False, read)


def _refuse_others(part: str, whole: str, agent: str, read: str, field: str) -> None:
    """Refuse what counts something else: a volume, or a weight of nitrite."""
    if _is_measured_in(part, VOLUME.units) or _is_measured_in(f"1 {whole}", VOLUME.units):
        raise refusal("volume", field, read, FORMS)
    if agent and not whole and _is_measured_in(part, MASS.units):
        raise refusal("agent_weight", field, read, AGENT_FORMS)


def _is_measured_in(text: str, units: object) -> bool:
    name = re.sub(r"^.*[0-9]\s*", "", text).strip(" .,").lower()
    return isinstance(units, MappingProxyType) and name in units and name not in SHARE.units


def _checked(share: float, basis: Basis, agent: str, read: str, field: str) -> float:
    """Return ``share`` if it can stand in a formula; InputError otherwise."""
    forms = AGENT_FORMS if agent else FORMS
    if share < 0:
        raise refusal("negative", field, read, forms)
    if share == 0:
        raise refusal("zero_amount", field, read, forms)
    if share < SHARE_LEAST:
        raise refusal("too_small", field, read, forms, limit="0.1 ppm")
    if agent and share > AGENT_MOST:
        raise refusal("agent_too_large", field, read, forms, limit="10000 ppm")
    if basis is Basis.RAW and share > RAW_MOST:
        raise refusal("too_large", field, read, forms, limit="300 % of raw")
    if basis is not Basis.RAW and share >= 1:
        raise refusal("whole_or_more", field, read, forms)
    return share
