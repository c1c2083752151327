"""Sodium and potassium salts of the curing agents, and the ions in them: what one weighs as the other.

Molar masses are summed from the conventional atomic weights of the International Union of Pure and Applied Chemistry
(``SOURCE``, from memory).
"""

from __future__ import annotations

from enum import StrEnum
from types import MappingProxyType

SOURCE = "iupac-atomic-weights"
NITROGEN, OXYGEN, SODIUM, POTASSIUM = 14.007, 15.999, 22.990, 39.098  # g/mol, from SOURCE

AGENTS = ("nitrite", "nitrate")


class As(StrEnum):
    """What a figure for a curing agent is expressed as: the salt that was weighed, the sodium salt, or the ion."""

    WEIGHED = "as weighed"
    SODIUM = "as the sodium salt"
    ION = "as the ion"


def molar_mass(agent: str, of: str = "sodium") -> float:
    """Return the molar mass [g/mol] of nitrite or nitrate as the ``sodium`` or ``potassium`` salt or as the ``ion``.

    Source: sums of conventional atomic weights. KeyError for any other agent or salt.

    >>> molar_mass("nitrite"), molar_mass("nitrite", "potassium"), molar_mass("nitrite", "ion")
    (68.995, 85.103, 46.005)
    """
    return _IONS[agent] + _CATIONS[of]


def factor(agent: str, of: str, to: As) -> float:
    """Return what one kilogram of a curing agent's salt (``sodium`` or ``potassium``) weighs expressed as ``to``.

    Source: ratios of molar masses. The factor from potassium to sodium nitrite is the reciprocal of 1.2335.

    >>> round(factor("nitrite", "sodium", As.ION), 4), round(factor("nitrate", "potassium", As.ION), 4)
    (0.6668, 0.6133)
    >>> round(1 / factor("nitrite", "potassium", As.SODIUM), 4)
    1.2335
    """
    if to is As.WEIGHED:
        return 1.0
    return molar_mass(agent, "ion" if to is As.ION else "sodium") / molar_mass(agent, of)


def nitrate_as_nitrite(nitrate_kg: float) -> float:
    """Return sodium nitrate expressed as the sodium nitrite of the same nitrogen, in the unit of what is given.

    >>> round(nitrate_as_nitrite(80.0), 2)
    64.94
    """
    return nitrate_kg * molar_mass("nitrite") / molar_mass("nitrate")


_IONS = MappingProxyType({"nitrite": NITROGEN + 2 * OXYGEN, "nitrate": NITROGEN + 3 * OXYGEN})
_CATIONS = MappingProxyType({"sodium": SODIUM, "potassium": POTASSIUM, "ion": 0.0})
