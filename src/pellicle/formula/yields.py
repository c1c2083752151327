"""Yields, each with its base; what moisture and protein imply for them; the inspectors' figures for added weight."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from pellicle.food.composition import Composition, Quantity
from pellicle.formula.printed import PERCENT
from pellicle.message import Message, message
from pellicle.product import Meat
from pellicle.relation import relation


class Base(StrEnum):
    """The weight a yield is a share of, in the order in which a batch passes through them."""

    PURCHASED = "purchased"
    TRIMMED = "trimmed"
    SLICED = "sliced"
    MARINATED = "marinated"
    PACKED = "packed"

    @property
    def label(self) -> Message:
        """Return the name of the base in words."""
        return message(f"formula.base_{self.value}")


@dataclass(frozen=True, slots=True)
class Yield:
    """A weight as per cent of its base."""

    base: Base
    base_kg: float
    percent: float


def bases(
    meat: Meat, raw_kg: float, marinated_kg: float | None = None, packed_kg: float | None = None
) -> Mapping[Base, float]:
    """Return the known weights [kg] by base, scaled to ``raw_kg`` of green weight; what is not known is left out.

    The purchased and sliced weights of ``meat`` belong to its own green weight; without one they cannot be scaled.
    """
    scale = raw_kg / meat.raw_kg if meat.raw_kg else None
    known = {
        Base.PURCHASED: None if scale is None or meat.purchased_kg is None else meat.purchased_kg * scale,
        Base.TRIMMED: raw_kg,
        Base.SLICED: None if scale is None or meat.sliced_kg is None else meat.sliced_kg * scale,
        Base.MARINATED: marinated_kg,
        Base.PACKED: packed_kg,
    }
    return MappingProxyType({base: kg for base, kg in known.items() if kg})


def yields(finished_kg: float, weights: Mapping[Base, float]) -> tuple[Yield, ...]:
    """Return the yield of a finished weight on every base that is known.

    >>> [(str(each.base), each.percent) for each in yields(2.0, {Base.MARINATED: 5.0})]
    [('marinated', 40.0)]
    """
    return tuple(Yield(base, kg, float(yield_percent(finished_kg, kg))) for base, kg in weights.items())


@relation("own-arithmetic", valid={"kg": (0, 1e9), "base_kg": (1e-9, 1e9)})
def yield_percent(kg: Quantity, base_kg: Quantity) -> Quantity:
    """Return a weight as per cent of another: ``100 * kg / base_kg``.

    ``kg`` [kg] and ``base_kg`` [kg], or both in another unit. Printed, from home practice: 8.5 lb that become 4 lb are
    47.1 %.

    >>> round(yield_percent(4.0, 8.5), 1)
    47.1
    """
    return PERCENT * kg / base_kg


@relation("own-arithmetic", valid={"kg": (0, 1e9), "green_kg": (1e-9, 1e9)})
def percent_added(kg: Quantity, green_kg: Quantity) -> Quantity:
    """Return what was added to the green weight and stayed [%]: ``100 * (kg - green) / green``; negative after a loss.

    ``kg`` [kg] and ``green_kg`` [kg], or both in another unit. Source: inspectors' definition. Green 100, pumped to 112
    and smoked to 104 is 4 % added.

    >>> percent_added(104.0, 100.0)
    4.0
    """
    return PERCENT * (kg - green_kg) / green_kg


@relation("own-arithmetic", valid={"protein": (0, 1), "fat": (0, 0.99)})
def protein_fat_free(protein: Quantity, fat: Quantity) -> Quantity:
    """Return meat protein on a fat-free basis [%]: ``100 * protein / (1 - fat)``.

    ``protein`` [kg/kg] and ``fat`` [kg/kg] of the product. Source: definition. Protein 17.0 % and fat 6.0 % give 18.09
    % (own arithmetic).

    >>> round(protein_fat_free(0.17, 0.06), 2)
    18.09
    """
    return PERCENT * protein / (1 - fat)


@relation("own-arithmetic", valid={"water": (0, 1e9), "protein": (1e-9, 1e9)})
def moisture_protein_ratio(water: Quantity, protein: Quantity) -> Quantity:
    """Return moisture over protein by mass (MPR): ``water / protein``.

    ``water`` [kg] and ``protein`` [kg], or both in another unit. Source: definition. Raw eye of round with 73.43 %
    water and 23.37 % protein has 3.14 (own arithmetic).

    >>> round(moisture_protein_ratio(73.43, 23.37), 2)
    3.14
    """
    return water / protein


def mass_at_mpr(composition: Composition, mpr: Quantity) -> Quantity:
    """Return the mass left [same unit as the composition] when drying has brought it to a moisture to protein ratio.

    Dry matter stays: ``dry + mpr * protein``, without drip. Source: arithmetic from the definition. Raw eye of round,
    per 100 g: 45.0 g at 0.75.

    >>> eye = Composition(water=73.43, protein=23.37, fat=3.04, ash=1.10)
    >>> round(mass_at_mpr(eye, 0.75), 1)
    45.0
    """
    return composition.dry + mpr * composition.protein
