"""Where a caution stands: beside the section of the page in which its hazard lies."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from types import MappingProxyType

from pellicle.report.numerals import plain
from pellicle.rules.cautions import Caution, Where


class Section(StrEnum):
    """The sections of a plan that a caution can belong to, in the order of the page."""

    FORMULA = "formula"
    CURE = "cure"
    HOUSE = "house"
    PULL = "pull"
    CHECKS = "checks"


_SECTIONS = MappingProxyType(
    {
        Where.MEAT: Section.FORMULA,
        Where.FORMULA: Section.FORMULA,
        Where.CURE: Section.CURE,
        Where.HOUSE: Section.HOUSE,
        Where.PULL: Section.PULL,
        Where.PACK: Section.PULL,
        Where.RELEASE: Section.CHECKS,
    }
)


def placed(cautions: Iterable[Caution], section: Section) -> list[str]:
    """Return the texts of the cautions that belong to a section."""
    return [text_of(caution) for caution in cautions if _SECTIONS[caution.where] is section]


def text_of(caution: Caution) -> str:
    """Return what a caution says."""
    return plain(str(caution.text))
