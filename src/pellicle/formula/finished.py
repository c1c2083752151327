"""Taste per bite: every line's share of the finished weight, and what it takes to match another product's.

A product that keeps more weight tastes weaker per bite from the same share of raw. Matching goes by the finished
weight: seasonings one by one, salt by all the salt there is, sweeteners by the mass of their class.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pellicle.food.solutes import solute
from pellicle.formula.ions import AGENTS
from pellicle.formula.parts import Formula, WeighedLine
from pellicle.formula.strength import agent_share
from pellicle.message import Message, message
from pellicle.units import Amount, Basis

# What makes a line salt or a sweetener rather than a seasoning that happens to hold some. Own choice.
MOSTLY = 0.5  # kg per kg of the line
# Lines that are carriers or have a job of their own keep their amounts: they are not there for the taste.
NOT_FOR_TASTE = frozenset({"cure", "accelerator", "phosphate"})


class Taste(StrEnum):
    """What a line is there for."""

    SALT = "salt"
    SUGAR = "sugar"
    POLYOL = "polyol"
    SEASONING = "seasoning"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Finished:
    """A formula and what became of it: the share of the solution taken up, and the finished weight [kg]."""

    formula: Formula
    taken_share: float
    finished_kg: float

    def share(self, kg: float) -> float:
        """Return a mass put in as share (kg/kg) of the finished weight."""
        return kg * self.taken_share / self.finished_kg


@dataclass(frozen=True, slots=True)
class TasteLine:
    """One line beside the other product's: shares (kg/kg) of the finished weight, and the factor that makes them equal.

    For salt the shares are of all salt, for sweeteners of their class. ``factor`` is 1 with a ``note`` where there is
    nothing to match.
    """

    at: int
    ingredient: str
    taste: Taste
    share: float
    other_share: float
    factor: float
    kg: float
    new_kg: float
    note: Message | None = None


@dataclass(frozen=True, slots=True)
class Match:
    """What each line needs to taste the same per bite, and what the other product has that this one lacks."""

    lines: tuple[TasteLine, ...]
    missing: tuple[Message, ...]


def finished_shares(finished: Finished) -> tuple[float, ...]:
    """Return each line's share (kg/kg) of the finished weight, as it went in: water that leaves is still counted."""
    return tuple(finished.share(line.kg) for line in finished.formula.lines)


def taste_of(line: WeighedLine) -> Taste:
    """Return what a line is there for, by what most of it is; water and cure are there for no taste."""
    composition, kg = line.composition, line.kg
    if not kg or any(agent_share(composition, agent) for agent in AGENTS):
        return Taste.NONE
    if all(part.ingredient.group in NOT_FOR_TASTE or part.ingredient.name == "water" for part in line.parts):
        return Taste.NONE
    if float(composition.solute("salt")) / kg > MOSTLY:
        return Taste.SALT
    masses = {taste: _class_kg(line, taste) for taste in (Taste.SUGAR, Taste.POLYOL)}
    taste = max(masses, key=lambda each: masses[each])
    return taste if masses[taste] / kg > MOSTLY else Taste.SEASONING


def like(this: Finished, other: Finished) -> Match:
    """Return the factor for each line of ``this`` that gives the taste per bite of ``other``, at this finished weight.

    A seasoning is matched by its name, a sweetener by the whole class (sugars, polyols) and the salt line by all salt:
    it makes up for what the other lines bring of it after their own change. The finished weight will move with the
    amounts, so plan again with the new ones.
    """
    lines = [(line, taste_of(line)) for line in this.formula.lines]
    changed = [_match(line, taste, this, other) for line, taste in lines]
    salt_elsewhere = sum(
        float(line.composition.solute("salt")) * row.factor
        for (line, taste), row in zip(lines, changed, strict=True)
        if taste is not Taste.SALT
    )
    rows = [
        _match_salt(line, this, other, salt_elsewhere, lines) if taste is Taste.SALT else row
        for (line, taste), row in zip(lines, changed, strict=True)
    ]
    return Match(tuple(row for row in rows if row.taste is not Taste.NONE), _missing(this, other))


def new_amounts(match: Match, formula: Formula) -> dict[str, Amount]:
    """Return the changed amounts by their path in the product (``formula.2.amount``), as shares of raw."""
    return {
        f"formula.{row.at}.amount": Amount(row.new_kg / formula.raw_kg, Basis.RAW)
        for row in match.lines
        if row.factor != 1
    }


def _class_kg(line: WeighedLine, taste: Taste) -> float:
    return float(sum(mass for name, mass in line.composition.solutes.items() if solute(name).group == taste.value))


def _total_kg(formula: Formula, taste: Taste) -> float:
    return sum(_class_kg(line, taste) for line in formula.lines)


def _match(line: WeighedLine, taste: Taste, this: Finished, other: Finished) -> TasteLine:
    name = line.line.ingredient
    if taste in (Taste.SUGAR, Taste.POLYOL):
        own, others = this.share(_total_kg(this.formula, taste)), other.share(_total_kg(other.formula, taste))
    else:
        own, others = this.share(line.kg), other.share(_kg_of(name, other.formula))
    if taste in (Taste.NONE, Taste.SALT) or not others or not own:
        note = message("formula.like_no_match", name=name) if taste is Taste.SEASONING else None
        return TasteLine(line.at, name, taste, own, others, 1.0, line.kg, line.kg, note)
    return TasteLine(line.at, name, taste, own, others, others / own, line.kg, line.kg * others / own)


def _match_salt(
    line: WeighedLine,
    this: Finished,
    other: Finished,
    elsewhere_kg: float,
    lines: list[tuple[WeighedLine, Taste]],
) -> TasteLine:
    own, others = this.share(this.formula.salt_kg), other.share(other.formula.salt_kg)
    in_salt_lines = sum(float(each.composition.solute("salt")) for each, taste in lines if taste is Taste.SALT)
    wanted_kg = others * this.finished_kg / this.taken_share - elsewhere_kg if this.taken_share else in_salt_lines
    factor = max(0.0, wanted_kg / in_salt_lines)
    note = message("formula.like_salt_full") if wanted_kg < 0 else None
    return TasteLine(line.at, line.line.ingredient, Taste.SALT, own, others, factor, line.kg, line.kg * factor, note)


def _kg_of(name: str, formula: Formula) -> float:
    return sum(line.kg for line in formula.lines if line.line.ingredient == name)


def _missing(this: Finished, other: Finished) -> tuple[Message, ...]:
    own = {line.line.ingredient for line in this.formula.lines}
    tastes = {taste_of(line) for line in this.formula.lines}
    lacking = []
    for line in other.formula.lines:
        taste = taste_of(line)
        by_name = taste is Taste.SEASONING and line.line.ingredient not in own
        by_class = taste not in (Taste.SEASONING, Taste.NONE) and taste not in tastes
        if by_name or by_class:
            lacking.append(message("formula.like_missing", name=line.line.ingredient))
    return tuple(lacking)
