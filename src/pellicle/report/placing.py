"""Where a caution stands: beside the section of the page in which its hazard lies."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from types import MappingProxyType

from pellicle.message import Message
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


def placed(cautions: Iterable[Caution | Message], section: Section) -> list[str]:
    """Return the texts of the cautions that belong to a section; one without a place stands with the checks."""
    return [text_of(caution) for caution in cautions if _SECTIONS[where_of(caution)] is section]


def where_of(caution: Caution | Message) -> Where:
    """Return the part of the work a caution belongs to."""
    return caution.where if isinstance(caution, Caution) else Where.RELEASE


def text_of(caution: Caution | Message) -> str:
    """Return what a caution says."""
    return plain(str(caution.text if isinstance(caution, Caution) else caution))
