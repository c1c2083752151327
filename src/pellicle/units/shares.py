"""Shares as people state them: per cent, ppm, one weight per another."""

from __future__ import annotations

import re

from pellicle.units.kinds import MASS, SHARE
from pellicle.units.reading import Forms, measure, within

_PER = re.compile(r"(?<![0-9\s])\s*(?:/|\s\bper\b)\s*(?=[0-9a-z#.,])", re.IGNORECASE)


def share_of(text: str, read: str, field: str, forms: Forms) -> float:
    """Return the share (kg/kg) a tidy text states; InputError if it states none. Not yet checked against limits.

    >>> share_of("2.9 oz/lb", "2.9 oz/lb", "--salt", SHARE.forms)
    0.18125
    >>> share_of("4 oz per 100 lb", "4 oz per 100 lb", "--cure", SHARE.forms)
    0.0025
    """
    part, whole = split_per(text)
    if not whole:
        return measure(text, read, field, SHARE, forms)
    return measure(part, read, field, MASS, forms) / whole_kg(whole, read, field, forms)


def split_per(text: str) -> tuple[str, str]:
    """Return what stands before and after ``/`` or ``per``; nothing after where there is neither.

    The stroke of a fraction is no ``per``.

    >>> split_per("1/2 oz/25 lb"), split_per("1 bag per 25 lb"), split_per("1/4 %")
    (('1/2 oz', '25 lb'), ('1 bag', '25 lb'), ('1/4 %', ''))
    """
    match = _PER.search(text)
    return (text[: match.start()].strip(), text[match.end() :].strip()) if match else (text, "")


def whole_kg(text: str, read: str, field: str, forms: Forms) -> float:
    """Return the weight (kg) after ``per``: ``100 lb``, or one of the unit where no number stands: ``kg``."""
    counted = text if re.match(r"[0-9.,+-]", text) else f"1 {text}"
    return within(measure(counted, read, field, MASS, forms), read, field, MASS, forms)
