"""Colour on a terminal, only when asked for; every meaning is in the words too, so nothing is lost without it."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

Paint = Callable[[str, str], str]

# Colours of the 256-colour table that read on a white and on a black ground alike.
_CODES = MappingProxyType({"bold": "1", "rust": "38;5;130", "ochre": "38;5;136", "soft": "2"})


def painter(colour: bool) -> Paint:
    """Return a function of ink (``bold``, ``rust``, ``ochre``, ``soft``, or several) and text that paints or does not.

    >>> painter(False)("rust bold", "not met")
    'not met'
    >>> painter(True)("bold", "pull")
    '\\x1b[1mpull\\x1b[0m'
    """
    return _painted if colour else _unpainted


def _painted(ink: str, text: str) -> str:
    codes = ";".join(_CODES[name] for name in ink.split())
    return f"\x1b[{codes}m{text}\x1b[0m" if text else text


def _unpainted(ink: str, text: str) -> str:
    return text
