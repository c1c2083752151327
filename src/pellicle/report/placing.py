"""Where a caution stands: beside the section of the page in which its hazard lies."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from types import MappingProxyType

from pellicle.message import Message


class Section(StrEnum):
    """The sections of a plan that a caution can belong to, in the order of the page."""

    FORMULA = "formula"
    CURE = "cure"
    PULL = "pull"
    CHECKS = "checks"


# Words of a caution's id, and the section its hazard lies in; the first that fits holds, the checks are for all others.
_PLACES = MappingProxyType(
    {
        "cure": Section.CURE,
        "nitrite": Section.CURE,
        "nitrate": Section.CURE,
        "spoon": Section.FORMULA,
        "formula": Section.FORMULA,
        "allergen": Section.FORMULA,
        "bag": Section.FORMULA,
        "salt": Section.FORMULA,
        "aw": Section.PULL,
        "mould": Section.PULL,
        "pull": Section.PULL,
        "weight": Section.PULL,
        "pack": Section.PULL,
        "oxygen": Section.PULL,
        "uptake": Section.PULL,
    }
)


def placed(cautions: Iterable[Message], section: Section) -> list[str]:
    """Return the texts of the cautions that belong to a section."""
    return [str(caution) for caution in cautions if _section(caution) is section]


def _section(caution: Message) -> Section:
    words = caution.id.replace(".", "_").replace("-", "_").split("_")
    return next((place for word, place in _PLACES.items() if word in words), Section.CHECKS)
