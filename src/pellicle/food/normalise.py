"""Printed figures rarely add to 100: they are made to, and it is said how."""

from __future__ import annotations

from pellicle.food.composition import Composition
from pellicle.message import Message, message

WHOLE_G = 100.0
# Where water is at least this much it is the balance, as for raw meat; in drier things it is too small to carry the
# difference and every figure is scaled. g per 100 g. assumed: common practice
WATER_IS_BALANCE_FROM_G = 50.0
# Eight figures of two decimals may add this far from 100 by rounding alone, g per 100 g: 8 x 0.005 and a little.
ROUNDING_G = 0.045


def normalised(per_100g: Composition) -> tuple[Composition, Message | None]:
    """Return a composition per kg that adds to 1, and what was done to the figures (None for roundings).

    ``per_100g`` holds g per 100 g. Water is the balance where there are 50 g of it or more and enough to give;
    otherwise every figure is multiplied by the same factor.

    >>> made, said = normalised(Composition(water=72.96, protein=23.59, fat=2.94, ash=1.12))
    >>> round(made.water, 4), str(said)
    (0.7235, 'The figures add to 100.61 g per 100 g; water was taken as the balance: 72.35 g instead of 72.96 g.')
    """
    total = float(per_100g.total)
    seen = abs(total - WHOLE_G) >= ROUNDING_G
    water = float(per_100g.water)
    balance = water + WHOLE_G - total
    if water >= WATER_IS_BALANCE_FROM_G and balance > 0:
        said = message("food.balanced", total=f"{total:.2f}", water=f"{balance:.2f}", read=f"{water:.2f}")
        return per_100g.with_water(balance) * (1 / WHOLE_G), said if seen else None
    said = message("food.scaled", total=f"{total:.2f}", factor=f"{WHOLE_G / total:.4f}")
    return per_100g * (1 / total), said if seen else None
