"""How a computed value is compared with a printed one: to the digits the source prints, and no looser than that.

``agrees(got, printed)`` takes the tolerance from the printed text itself. A wider one is written as ``digits=``
(compare to that many decimals) or ``within=``, and is refused where it would be as wide as the value: such a test could
not fail.
"""

from __future__ import annotations

import math
from decimal import Decimal, InvalidOperation


class TooWideError(ValueError):
    """The tolerance asked for reaches from the printed value to zero or past it."""


def agrees(got: float, printed: str | float, digits: int | None = None, *, within: float | None = None) -> bool:
    """Tell whether ``got`` rounds to what a source prints.

    ``printed`` is the source's own text (``"0.9669"``, ``"2.1e-10"``); a float counts as its shortest text. Unless told
    otherwise, ``got`` may differ by half a unit of the last printed digit. ``digits`` compares to that many decimals
    (negative: tens, hundreds), ``within`` to an absolute difference that has a reason of its own. TooWideError if that
    reaches from the printed value to zero; ValueError if ``printed`` is not a number.

    >>> agrees(0.96685, "0.9669"), agrees(0.96675, "0.9669")
    (True, False)
    >>> agrees(0.9712, "0.9669", within=0.005)
    True
    """
    text = str(printed).strip().replace("−", "-")
    try:
        value = Decimal(text)
    except InvalidOperation:
        raise ValueError(f"{printed!r} is not a printed number") from None
    if not value.is_finite():
        raise ValueError(f"{printed!r} is not a printed number")
    tolerance = _tolerance(value, digits, within)
    if value != 0 and tolerance >= abs(float(value)):
        raise TooWideError(f"a tolerance of {tolerance:g} is as wide as the value {text}: the test could not fail")
    # what binary fractions lose on the way must not decide a tie
    slack = 4 * math.ulp(max(abs(float(value)), tolerance))
    return math.isfinite(got) and abs(float(got) - float(value)) <= tolerance + slack


def _tolerance(value: Decimal, digits: int | None, within: float | None) -> float:
    if within is not None:
        if digits is not None:
            raise ValueError("say digits or within, not both")
        if not within > 0:
            raise ValueError("within is a positive difference")
        return within
    exponent = value.as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5 * 10.0 ** (exponent if digits is None else -digits)
