"""How figures stand in sentences: far enough apart from their limit, and amounts cut off on the lawful side."""

from __future__ import annotations

import math

from pellicle.message import Message, message
from pellicle.units.kinds import GRAM_KG, MINUTE_S, OUNCE_KG

MOST_DECIMALS = 9  # what is compared as different must also be printed as different
BOUND_DIGITS = 5  # of a limit that is converted or computed: more say nothing and are read wrong
SECONDS_BELOW_S = 120.0  # a time shorter than this is read in seconds
MOST_LOGS = 99  # reductions beyond this are only more of the same
FINE_G, FINE_OZ = 100, 1000  # a lawful amount is cut off at a hundredth of a gram and a thousandth of an ounce
CUT_NOISE = 1e-3  # of the last place: what binary fractions lose must not cost a whole place


def apart(value: float, limit: float, digits: int) -> tuple[str, str]:
    """Return a value and its limit as text with as many decimals as it takes to tell them apart, at least ``digits``.

    The comparison is of unrounded figures, so a value just over its limit must not print as the limit itself.

    >>> apart(200.0001, 200.0, 1)
    ('200.0001', '200')
    >>> apart(156.25, 156.25, 1), apart(500.0, 546.875, 1)
    (('156.25', '156.25'), ('500.0', '546.9'))
    """
    bound = bound_beside(value, limit, digits)
    decimals = max(digits, len(bound.partition(".")[2]))
    text = f"{value:.{decimals}f}"
    while float(text) == limit and abs(value - limit) > 10.0**-MOST_DECIMALS * abs(limit) and decimals < MOST_DECIMALS:
        decimals += 1
        text = f"{value:.{decimals}f}"
    return text, bound


def bound_beside(value: float | None, limit: float, digits: int) -> str:
    """Return a limit as text beside a value that is printed to so many decimals: in full where it is short, else as
    finely as the value, unless that would put the value on its wrong side.

    >>> bound_beside(500.0, 546.875, 1), bound_beside(546.88, 546.875, 1), bound_beside(None, 0.85, 1)
    ('546.9', '546.875', '0.85')
    """
    exact, rounded = plain(limit), round(limit, digits)
    if len(exact.replace(".", "").lstrip("0")) <= BOUND_DIGITS:
        return exact
    misplaced = value is not None and (value <= limit, value >= limit) != (value <= rounded, value >= rounded)
    return exact if misplaced else plain(rounded)


def times(seconds: float, limit_s: float) -> tuple[str, str]:
    """Return a time and its limit with their units: seconds under two minutes, else minutes, as finely as it takes to
    tell them apart.

    >>> times(981.5, 33.2), times(2952.0, 360.0), times(33.1, 33.2)
    (('16.4 min', '33 s'), ('49.2 min', '6 min'), ('33.1 s', '33.2 s'))
    """
    for finer in range(MOST_DECIMALS):
        value, limit = (_in_unit(each, finer) for each in (seconds, limit_s))
        if value != limit or seconds == limit_s:
            break
    return f"{value[0]:.{value[1]}f} {value[2]}", f"{plain(limit[0])} {limit[2]}"


def _in_unit(seconds: float, finer: int) -> tuple[float, int, str]:
    """A time as it is read: number, decimals, unit."""
    if seconds < SECONDS_BELOW_S:
        return round(seconds, finer), finer, "s"
    return round(seconds / MINUTE_S, finer + 1), finer + 1, "min"


def logs(value: float) -> str:
    """Return log reductions as text; past what anybody could measure only that they are many.

    >>> logs(6.53), logs(2121.0)
    ('6.5', 'over 99')
    """
    return f"{value:.1f}" if value <= MOST_LOGS else f"over {MOST_LOGS}"


def plain(number: float) -> str:
    """Return a number of a table as short as it can be written.

    >>> plain(200.0), plain(2187.5), plain(0.85)
    ('200', '2187.5', '0.85')
    """
    return f"{number:.10g}"


def cut_mass(kg: float) -> str:
    """Return a mass as grams and ounces, both cut off and never rounded up: what it names is lawful.

    >>> cut_mass(0.25 * 0.45359237)
    '113.39 g (4.000 oz)'
    """
    grams = math.floor(kg / GRAM_KG * FINE_G + CUT_NOISE) / FINE_G
    ounces = math.floor(kg / OUNCE_KG * FINE_OZ + CUT_NOISE) / FINE_OZ
    return f"{grams:.2f} g ({ounces:.3f} oz)"


def together(*texts: Message | None) -> Message:
    """Return several sentences as one message."""
    said = [text for text in texts if text is not None]
    return said[0] if len(said) == 1 else message("rules.together", text=" ".join(str(text) for text in said))
