"""How figures stand in sentences: far enough apart from their limit, and amounts cut off on the lawful side."""

from __future__ import annotations

import math

from pellicle.message import Message, message
from pellicle.units.kinds import GRAM_KG, OUNCE_KG

MOST_DECIMALS = 9  # what is compared as different must also be printed as different
MOST_LOGS = 99  # reductions beyond this are only more of the same
FINE_G, FINE_OZ = 100, 1000  # a lawful amount is cut off at a hundredth of a gram and a thousandth of an ounce
CUT_NOISE = 1e-3  # of the last place: what binary fractions lose must not cost a whole place


def apart(value: float, limit: float, digits: int) -> tuple[str, str]:
    """Return a value and its limit as text with as many decimals as it takes to tell them apart, at least ``digits``.

    The comparison is of unrounded figures, so a value just over its limit must not print as the limit itself.

    >>> apart(200.0001, 200.0, 1)
    ('200.0001', '200')
    >>> apart(156.25, 156.25, 1)
    ('156.25', '156.25')
    """
    bound = plain(limit)
    decimals = max(digits, len(bound.partition(".")[2]))
    text = f"{value:.{decimals}f}"
    while float(text) == limit and abs(value - limit) > 10.0**-MOST_DECIMALS * abs(limit) and decimals < MOST_DECIMALS:
        decimals += 1
        text = f"{value:.{decimals}f}"
    return text, bound


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
