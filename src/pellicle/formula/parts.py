"""What goes in, weighed out: the meat and every other ingredient with its mass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from pellicle.food.composition import Composition, Quantity
from pellicle.food.ingredients import Ingredient
from pellicle.formula.printed import PERCENT
from pellicle.product import Line
from pellicle.relation import relation

SATURATED_BRINE_PERCENT = 26.3  # salt in a brine of 100 degrees, per cent by mass; source "salometer-scale"

# Spices and powders hold up to about 13 % water, honey and syrups from 17 %: between them lies what pours.
# assumed: common practice
LIQUID_FROM_WATER = 0.15


SALT_GROUP = "salt"


@dataclass(frozen=True, slots=True)
class Part:
    """One ingredient with its mass [kg]: a line of the formula, or what a line's mixture is made of.

    ``line`` is the line of the product it comes from, ``at`` that line's position (from 0); ``of_mixture`` names the
    mixture whose part it is, and ``ingredient`` carries the cure's strength in its composition.
    """

    line: Line
    ingredient: Ingredient
    kg: float
    of_mixture: str = ""
    at: int = 0

    @property
    def composition(self) -> Composition:
        """Return what the part is made of, in kg."""
        return self.ingredient.composition * self.kg

    @property
    def liquid(self) -> bool:
        """True if the ingredient brings enough water to count as added liquid."""
        return float(self.ingredient.composition.water) > LIQUID_FROM_WATER


@dataclass(frozen=True, slots=True)
class WeighedLine:
    """One line of the formula with the parts it is made of: one, or several where the line names a mixture."""

    line: Line
    at: int
    parts: tuple[Part, ...]

    @property
    def kg(self) -> float:
        """Return the mass of the line [kg]."""
        return sum(part.kg for part in self.parts)

    @property
    def composition(self) -> Composition:
        """Return what the line is made of, in kg."""
        return sum((part.composition for part in self.parts), start=Composition())


@dataclass(frozen=True, slots=True)
class Formula:
    """Meat (``raw_kg`` of green weight) and everything added to it; ``solution_kg`` is all that is not meat."""

    raw_kg: float
    meat: Ingredient
    parts: tuple[Part, ...]
    solution_kg: float
    total_kg: float

    @property
    def solution(self) -> Composition:
        """Return what all added parts are made of together, in kg."""
        return sum((part.composition for part in self.parts), start=Composition())

    @property
    def lines(self) -> tuple[WeighedLine, ...]:
        """Return the parts gathered by the line they belong to, in the order of the product."""
        positions = sorted({part.at for part in self.parts})
        gathered = [tuple(part for part in self.parts if part.at == at) for at in positions]
        return tuple(WeighedLine(parts[0].line, at, parts) for at, parts in zip(positions, gathered, strict=True))

    @property
    def liquid_parts(self) -> tuple[Part, ...]:
        """Return the parts that count as added liquid: more than ``LIQUID_FROM_WATER`` kg of water per kg."""
        return tuple(part for part in self.parts if part.liquid and part.kg > 0)

    def percent_of_raw(self, kg: float) -> float:
        """Return a mass as percent of the green weight."""
        return PERCENT * kg / self.raw_kg

    def percent_of_total(self, kg: float) -> float:
        """Return a mass as percent of meat and solution together."""
        return PERCENT * kg / self.total_kg

    def percent_of_solution(self, kg: float) -> float:
        """Return a mass as percent of all that is not meat; 0 where nothing is added."""
        return PERCENT * kg / self.solution_kg if self.solution_kg else 0.0

    @property
    def salt_kg(self) -> float:
        """Return all added salt (sodium chloride) [kg], with what hides in cure, soy sauce and the like."""
        return float(self.solution.solute("salt"))

    @property
    def hidden_salt_kg(self) -> float:
        """Return the part of the added salt that no ingredient of the group salt brings [kg]."""
        return sum(float(part.composition.solute("salt")) for part in self.parts if part.ingredient.group != SALT_GROUP)

    @property
    def brine_percent(self) -> float:
        """Return the strength of the solution: salt over salt and water, per cent; 0 where there is neither."""
        return float(brine_percent(self.salt_kg, float(self.solution.water))) if self.salt_kg else 0.0


@relation("own-arithmetic", valid={"salt_kg": (0, 1e9), "water_kg": (0, 1e9)})
def brine_percent(salt_kg: Quantity, water_kg: Quantity) -> Quantity:
    """Return the strength of a brine [% by mass]: ``100 * salt / (salt + water)``.

    ``salt_kg`` [kg] and ``water_kg`` [kg], or both in another unit. Source: the trade's definition (water-phase salt).

    >>> brine_percent(1.0, 9.0)
    10.0
    """
    return PERCENT * salt_kg / (salt_kg + water_kg)


@relation("salometer-scale", valid={"brine": (0, 27)})
def salometer(brine: Quantity) -> Quantity:
    """Return the strength of a brine in salometer degrees: ``brine / 26.3 * 100``.

    ``brine`` [%] is salt by mass. Source: definition of the scale, 100 degrees are 26.3 % salt; printed: 50 degrees are
    13.15 %.

    >>> round(salometer(13.15), 6)
    50.0
    """
    return PERCENT * brine / SATURATED_BRINE_PERCENT


def with_kg(formula: Formula, printed_kg: Sequence[float]) -> Formula:
    """Return the formula with other masses [kg], one for each of its parts in order; the meat stays.

    ValueError if there are more or fewer masses than parts.
    """
    parts = tuple(replace(part, kg=kg) for part, kg in zip(formula.parts, printed_kg, strict=True))
    solution_kg = sum(part.kg for part in parts)
    return replace(formula, parts=parts, solution_kg=solution_kg, total_kg=formula.raw_kg + solution_kg)
