"""What something is made of, by mass: water, protein, fat, ash, carbohydrate, and every solute by species."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Quantity: TypeAlias = float | NDArray[np.float64]

CONSTITUENTS = ("water", "protein", "fat", "ash", "carbohydrate")


@dataclass(frozen=True, slots=True)
class Composition:
    """Masses by constituent, in kg (of a mixture) or kg per kg (of an ingredient); floats or arrays of draws alike.

    ``carbohydrate`` is what is neither sugar nor another solute: starch, fibre, undissolved spice. ``ash`` excludes
    the salts listed under ``solutes``. ``muscle`` is the part of ``protein`` that is muscle and brings meat's own
    small solutes with it; it is not a mass of its own. ``solutes`` maps a species' name (``food/data/solutes.csv``)
    to its mass.
    """

    water: Quantity = 0.0
    protein: Quantity = 0.0
    fat: Quantity = 0.0
    ash: Quantity = 0.0
    carbohydrate: Quantity = 0.0
    muscle: Quantity = 0.0
    solutes: Mapping[str, Quantity] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def total(self) -> Quantity:
        """Return the mass of everything."""
        return self.water + self.dry

    @property
    def dry(self) -> Quantity:
        """Return the mass of everything but water."""
        base = self.protein + self.fat + self.ash + self.carbohydrate
        return base + sum(self.solutes.values(), start=0.0)

    def solute(self, *names: str) -> Quantity:
        """Return the mass of one or several solutes, zero where there is none."""
        return sum((self.solutes[name] for name in names if name in self.solutes), start=0.0)

    def __add__(self, other: Composition) -> Composition:
        names = [*self.solutes, *(name for name in other.solutes if name not in self.solutes)]
        return Composition(
            self.water + other.water,
            self.protein + other.protein,
            self.fat + other.fat,
            self.ash + other.ash,
            self.carbohydrate + other.carbohydrate,
            self.muscle + other.muscle,
            MappingProxyType({name: self.solute(name) + other.solute(name) for name in names}),
        )

    def __mul__(self, factor: Quantity) -> Composition:
        return Composition(
            self.water * factor,
            self.protein * factor,
            self.fat * factor,
            self.ash * factor,
            self.carbohydrate * factor,
            self.muscle * factor,
            MappingProxyType({name: mass * factor for name, mass in self.solutes.items()}),
        )

    __rmul__ = __mul__

    def with_water(self, water: Quantity) -> Composition:
        """Return the same dry matter with another mass of water."""
        return Composition(water, self.protein, self.fat, self.ash, self.carbohydrate, self.muscle, self.solutes)
