"""How numbers are written: decimals fit for what is known, words for bounds, a number never parted from its unit."""

from __future__ import annotations

import math
import re
import unicodedata

from pellicle.message import Value, message
from pellicle.units import NBSP, unbroken

MOST_DECIMALS = 6
SIGNIFICANT = 4
# What binary fractions may lack of a decimal one, in units of the last digit kept.
CUT_SLACK = 1e-6

_NAME_THEN_NUMBER = re.compile(r"(?:(?<=\baw)|(?<=\blimit)|(?<=\bversion)|(?<=\bCFR)) (?=\d)")


def word(name: str, /, **values: Value) -> str:
    """Return this room's text ``report.<name>`` with its values."""
    return str(message(f"report.{name}", **values))


def number(value: float | None, digits: int) -> str:
    """Return a number to so many decimals; the word for unknown where there is none.

    >>> number(62.27, 1), number(None, 1), number(-0.001, 2)
    ('62.3', 'unknown', '0.00')
    """
    if value is None or not math.isfinite(value):
        return word("unknown")
    return f"{round(value, digits) + 0.0:.{digits}f}"


def at_most(value: float | None, digits: int) -> str:
    """Return an upper bound to so many decimals, cut off rather than rounded, so that the bound itself still holds.

    >>> at_most(0.8288, 3), at_most(0.85, 2), at_most(0.83, 3)
    ('0.828', '0.85', '0.830')
    """
    if value is None or not math.isfinite(value):
        return word("unknown")
    steps = 10**digits
    return number(math.floor(value * steps + CUT_SLACK) / steps, digits)


def span(low: float | None, high: float | None, digits: int) -> str:
    """Return a range in words; one-sided where one end is unknown, empty where both are.

    >>> span(51.2, 53.41, 1), span(None, 0.85, 2), span(0.5, None, 1)
    ('51.2 to 53.4', 'at most 0.85', 'at least 0.5')
    """
    if low is None and high is None:
        return ""
    if low is None:
        return word("at_most", value=number(high, digits))
    if high is None:
        return word("at_least", value=number(low, digits))
    return word("span", low=number(low, digits), high=number(high, digits))


def weighed(kg: float | None) -> str:
    """Return an amount to weigh with every decimal it was rounded to: the checks hold for exactly this number.

    Two decimals at least, so that a column reads evenly. An amount that was never rounded gets four significant digits.

    >>> weighed(84.0), weighed(0.202), weighed(0.0425), weighed(10.083333333)
    ('84.00', '0.202', '0.0425', '10.08')
    """
    if kg is None or not math.isfinite(kg):
        return word("unknown")
    for digits in range(2, MOST_DECIMALS):
        if math.isclose(round(kg, digits), kg, rel_tol=1e-9, abs_tol=1e-12):
            return number(kg, digits)
    return number(kg, significant_decimals(kg))


def significant_decimals(value: float, significant: int = SIGNIFICANT, least: int = 0) -> int:
    """Return the decimals that give a value so many significant digits, at least ``least``.

    >>> significant_decimals(185.19), significant_decimals(0.4453), significant_decimals(0.0926, 3)
    (1, 4, 4)
    """
    if value == 0 or not math.isfinite(value):
        return least
    return max(least, significant - 1 - math.floor(math.log10(abs(value))))


def batch_digits(kg: float) -> int:
    """Return the decimals of a batch's weight in kg, as ``units.show_mass`` prints it in the opening sentence.

    >>> batch_digits(84.0), batch_digits(8.95), batch_digits(0.747), batch_digits(1200.0)
    (1, 2, 3, 1)
    """
    return significant_decimals(kg, 3, least=1)


def glued(text: str) -> str:
    """Return text in which no line can break between a number and its unit.

    >>> glued("at 52.3 kg, aw 0.85").replace(NBSP, "~")
    'at 52.3~kg, aw~0.85'
    """
    return _NAME_THEN_NUMBER.sub(NBSP, unbroken(text))


def plain(text: str) -> str:
    """Return text without control and direction-changing characters, which could repaint a terminal or reorder a line.

    >>> plain("salt\\x1b[2J and\\tpepper")
    'salt[2J and pepper'
    """
    kept = (" " if character in "\t\n\r" else character for character in text)
    return "".join(character for character in kept if unicodedata.category(character) not in ("Cc", "Cf", "Cs", "Co"))
