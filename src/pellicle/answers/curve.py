"""The product at each weight on the way down: water, water activity with its range, moisture to protein, salt,
sugar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from pellicle.answers.plan_answer import CurvePoint
from pellicle.food.composition import Composition
from pellicle.food.solutes import solute
from pellicle.message import Message
from pellicle.study.draws import Prior, draw
from pellicle.study.mixture import UncertainMixture, aw_at

LEVEL = 0.90
POINTS = 25
# The curve ends where water activity is well under any limit in use; drier product is nobody's aim.
LOWEST_AW = 0.72


@dataclass(frozen=True, slots=True)
class Batch:
    """What the curve needs of a batch: uncertain and most likely mixture, weights in and the spread between pieces."""

    mixture: UncertainMixture
    middle: UncertainMixture
    raw_kg: float
    marinated_kg: float
    piece_sd: float

    @property
    def left(self) -> Composition:
        """What will be there at the pull, with the water it went in with, most likely [kg]."""
        return self.middle.left


def point(batch: Batch, kg: float, pull_kg: float | None, mark: Message | None = None) -> CurvePoint:
    """Return the product when the scale shows ``kg``. ``aw_low`` to ``aw_high`` holds 90 % of pieces and of doubt."""
    present = kg / float(np.median(1 - batch.middle.removed))
    water = max(present - first(batch.left.dry), 0.0)
    mean = aw_at(batch.mixture, kg)
    pieces = mean + draw({"pieces": Prior(0.0, batch.piece_sd)}, mean.size)["pieces"]
    low, middle, high = np.quantile(pieces, [(1 - LEVEL) / 2, 0.5, (1 + LEVEL) / 2])
    protein, salt = first(batch.left.protein), first(batch.left.solute("salt"))
    return CurvePoint(
        kg=kg,
        percent_of_raw=100 * kg / batch.raw_kg,
        percent_of_marinated=100 * kg / batch.marinated_kg,
        water_kg=water,
        aw=float(np.clip(middle, 0, 1)),
        aw_low=float(np.clip(low, 0, 1)),
        aw_high=float(np.clip(high, 0, 1)),
        mpr=water / protein if protein > 0 else None,
        salt_percent=100 * salt / present,
        sugar_percent=100 * first(sweet_kg(batch.left)) / present,
        brine_percent=100 * salt / (salt + water) if salt + water > 0 else 0.0,
        inside=pull_kg is not None and kg <= pull_kg,
        mark=mark,
    )


def curve(batch: Batch, pull_kg: float | None, marks: Mapping[float, Message]) -> tuple[CurvePoint, ...]:
    """Return the product at weights from the rack downwards, the marked ones among them, heaviest first."""
    weights = {*_weights(batch, pull_kg), *marks}
    return tuple(point(batch, kg, pull_kg, marks.get(kg)) for kg in sorted(weights, reverse=True))


def weight_at_mpr(batch: Batch, mpr: float) -> float:
    """Return the weight [kg] at which moisture to protein is ``mpr``, most likely."""
    present = first(batch.left.dry) + mpr * first(batch.left.protein)
    return present * float(np.median(1 - batch.middle.removed))


def sweet_kg(composition: Composition) -> float:
    """Return the sugars and polyols in a mixture [kg]."""
    return first(composition.solute(*(name for name in composition.solutes if solute(name).sweet)))


def first(value: object) -> float:
    """Return a number that stands alone or as the one draw of a certain mixture."""
    return float(np.median(np.asarray(value, dtype=float)))


def _weights(batch: Batch, pull_kg: float | None) -> Sequence[float]:
    top = batch.marinated_kg
    dry = first(batch.left.dry)
    low, high = dry * (1 + 1e-3), top
    while high - low > 1e-4 * top:
        middle = (low + high) / 2
        low, high = (middle, high) if float(aw_at(batch.middle, middle)[0]) < LOWEST_AW else (low, middle)
    bottom = low if pull_kg is None else min(low, 0.97 * pull_kg)
    return [float(kg) for kg in np.linspace(top, max(bottom, dry * (1 + 1e-3)), POINTS)]
