"""What a product's own readings teach: one factor on -ln aw, learnt from lots, with its doubt and its limits.

With z = ln(-ln aw read) - ln(-ln aw computed), a product's mean z is known before any reading by its class, and after
each lot better (normal prior, known scatter). A lot counts once however often it was read: its own scatter does not
average out. Read ``prior``, ``learn``, ``applied`` in this order.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from statistics import fmean

import numpy as np

from pellicle import parameter
from pellicle.errors import InputError
from pellicle.food.composition import Quantity
from pellicle.message import Message, message
from pellicle.relation import relation

# How far beyond the water activities read a correction is believed (review, section 8).
BELIEVED_BEYOND_AW = 0.05
# aw moves by this much per unit of z at aw 0.85, where the review states the scatter of a reading (section 8).
REFERENCE_SLOPE = 0.138
# Where the model was compared with dried meat, with room for the wet end (review, section 8: 0.75 to 0.99; the
# published rows go down to 0.665).
COMPUTED_LOW, COMPUTED_HIGH = 0.65, 0.99
# A lot further off than this is another product, another weight or another meter: it is looked into, not learnt from.
MOST_SDS = 3.0
# What comes back of the prior outside that, or with other humectants (review, section 8).
BACK_TO_PRIOR = 0.5


class Klass(StrEnum):
    """What the model's expected error depends on: a solution without protein, a salted or a sweet product."""

    SOLUTION = "solution"
    SALTED = "salted"
    SWEET = "sweet"


@dataclass(frozen=True, slots=True)
class LotResult:
    """One lot: the aw computed from its weights and formula, and what was read on it.

    ``standard_checked`` says whether a standard was read that day; ``same_humectants`` whether the lot had the
    formula's present set of salts, sugars and polyols.
    """

    lot: str
    model_aw: float
    readings: tuple[float, ...]
    standard_checked: bool = True
    same_humectants: bool = True


@dataclass(frozen=True, slots=True)
class Correction:
    """What is known of a product's mean z: mean and sd, the prior they came from, and how many lots taught it.

    ``lot_sd`` and ``reading_sd`` are the scatter of one lot's z and of one reading of it. ``low`` and ``high`` are the
    computed water activities of the lots (1 and 0 without any). ``remarks`` name what was left out, and why.
    """

    klass: Klass
    mean: float
    sd: float
    prior_mean: float
    prior_sd: float
    lot_sd: float
    reading_sd: float
    lots: int = 0
    low: float = 1.0
    high: float = 0.0
    same_humectants: bool = True
    remarks: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class Applied:
    """A correction at one computed aw: mean and sd of z there, and a remark where it had to be stretched."""

    mean: float
    sd: float
    remarks: tuple[Message, ...] = ()


def prior(klass: Klass, overrides: Mapping[str, float] = parameter.NO_OVERRIDES) -> Correction:
    """Return what is known of a product's z before any reading, by its class (``parameters.csv``).

    >>> prior(Klass.SWEET).mean, prior(Klass.SWEET).sd, prior(Klass.SWEET).lots
    (-0.1, 0.17, 0)
    """
    name = f"correction_mean_{klass}"
    mean, sd = parameter.value(name, overrides), parameter.parameters()[name].spread
    scattered = klass is not Klass.SOLUTION
    return Correction(
        klass=klass,
        mean=mean,
        sd=sd,
        prior_mean=mean,
        prior_sd=sd,
        lot_sd=parameter.value("lot_sd", overrides) if scattered else 0.0,
        reading_sd=parameter.value("reading_sd", overrides) if scattered else 0.0,
    )


@relation("own-arithmetic", valid={"prior_sd": (1e-6, 10.0), "evidence_sd": (1e-6, 10.0), "count": (0.0, 1e6)})
def posterior_sd(prior_sd: Quantity, evidence_sd: Quantity, count: Quantity) -> Quantity:
    """Return the sd of a normal mean after ``count`` independent pieces of evidence of known sd.

    1 / sqrt(1/prior^2 + count/evidence^2). ``prior_sd`` and ``evidence_sd`` [1], ``count`` [1]. The review prints
    0.0032 in aw after 3 readings of sd 0.04 at aw 0.85, where aw moves 0.138 per unit.

    >>> round(float(0.138 * posterior_sd(0.15, 0.04, 3)), 4)
    0.0031
    """
    return 1.0 / np.sqrt(1.0 / (prior_sd * prior_sd) + count / (evidence_sd * evidence_sd))


def learn(known: Correction, lots: Iterable[LotResult]) -> Correction:
    """Return what is known of a product's z after more lots; each lot counts once, at the mean of its readings.

    A lot whose day had no standard check, without a reading, computed where the model was never compared, or more than
    three standard deviations off what is known, teaches nothing and is named in ``remarks``. Lots with
    other humectants teach only when no lot has the present ones, and then the correction says so. InputError for a
    reading that is not between 0 and 1. ``known`` must come from ``prior``.

    >>> after = learn(prior(Klass.SALTED), [LotResult("A", 0.850, (0.860, 0.862))])
    >>> round(after.mean, 3), round(after.sd, 3), after.lots
    (-0.072, 0.054, 1)
    """
    taken, remarks = [], list(known.remarks)
    for lot in lots:
        if any(not 0.0 < reading < 1.0 for reading in lot.readings):
            raise InputError("food_aw.reading", field="readings", lot=lot.lot, values=_shown(lot.readings))
        if not lot.readings:
            remarks.append(message("food_aw.no_reading", lot=lot.lot))
        elif not lot.standard_checked:
            remarks.append(message("food_aw.no_standard_check", lot=lot.lot))
        elif not COMPUTED_LOW <= lot.model_aw <= COMPUTED_HIGH:
            values = {"aw": f"{lot.model_aw:.3f}", "low": f"{COMPUTED_LOW:g}", "high": f"{COMPUTED_HIGH:g}"}
            remarks.append(message("food_aw.outside_model", lot=lot.lot, **values))
        elif abs(_z(lot) - known.prior_mean) > MOST_SDS * new_lot_sd(known, known.lot_sd, _reading_sd(known, lot)):
            values = {"read": _shown(lot.readings), "aw": f"{lot.model_aw:.3f}"}
            remarks.append(message("food_aw.far_off", lot=lot.lot, **values))
        else:
            taken.append(lot)
    same = [lot for lot in taken if lot.same_humectants]
    remarks += [message("food_aw.other_humectants", lot=lot.lot) for lot in taken if same and not lot.same_humectants]
    used = same or taken
    if not used:
        return replace(known, remarks=tuple(remarks))
    weights = [1.0 / (known.lot_sd**2 + _reading_sd(known, lot) ** 2 / len(lot.readings)) for lot in used]
    precision = 1.0 / known.sd**2 + sum(weights)
    mean = known.mean / known.sd**2 + sum(weight * _z(lot) for weight, lot in zip(weights, used, strict=True))
    return replace(
        known,
        mean=mean / precision,
        sd=1.0 / math.sqrt(precision),
        lots=known.lots + len(used),
        low=min(known.low, *(lot.model_aw for lot in used)),
        high=max(known.high, *(lot.model_aw for lot in used)),
        same_humectants=bool(same) and known.same_humectants,
        remarks=tuple(remarks),
    )


def applied(known: Correction, model_aw: float) -> Applied:
    """Return mean and sd of z at a computed aw.

    Where the lots were read, what they taught. More than 0.05 beyond them, or if they had other humectants, nothing is
    allowed that no reading at all would not allow: the doubt is the prior's again, and the mean goes half-way back to
    the prior's, but only where it read wetter. A remark says so. (The review re-inflates to half the prior; readings of
    wet product would then let another be pulled heavier.)

    >>> near = learn(prior(Klass.SALTED), [LotResult("A", 0.850, (0.860,))])
    >>> applied(near, 0.86).sd < applied(near, 0.93).sd == 0.15
    True
    """
    if known.lots == 0:
        return Applied(known.mean, known.sd)
    beyond = not known.low - BELIEVED_BEYOND_AW <= model_aw <= known.high + BELIEVED_BEYOND_AW
    if not beyond and known.same_humectants:
        return Applied(known.mean, known.sd)
    remark = message("food_aw.correction_other_humectants") if not beyond else message(
        "food_aw.correction_stretched", aw=f"{model_aw:.3f}", low=f"{known.low:.3f}", high=f"{known.high:.3f}"
    )  # fmt: skip
    back = known.mean + BACK_TO_PRIOR * (known.prior_mean - known.mean)
    return Applied(min(back, known.prior_mean), max(known.sd, known.prior_sd), (remark,))


def computed_for(known: Correction, aw: float) -> float:
    """Return the aw the model computes where the product really is at ``aw``; ``applied`` asks for the computed one.

    >>> wet = learn(prior(Klass.SALTED), [LotResult("A", 0.850, (0.860,))])
    >>> computed_for(prior(Klass.SALTED), 0.85), round(computed_for(wet, 0.858), 3)
    (0.85, 0.85)
    """
    return math.exp(-math.exp(math.log(-math.log(aw)) - known.mean))


def new_lot_sd(known: Correction | Applied, lot_sd: float, reading_sd: float) -> float:
    """Return the sd of z of one reading on a lot not yet made: doubt of the mean, scatter of lots, and of the reading.

    The review prints 0.0225 in aw at 0.85 for a product never read.

    >>> round(0.138 * new_lot_sd(prior(Klass.SALTED), 0.05, 0.04), 4)
    0.0225
    """
    return math.sqrt(known.sd**2 + lot_sd**2 + reading_sd**2)


def _reading_sd(known: Correction, lot: LotResult) -> float:
    """The sd of z of one reading: of wet product a meter's own doubt counts for more, because -ln aw is small."""
    read = min(fmean(lot.readings), COMPUTED_HIGH)
    meter_aw = known.reading_sd * REFERENCE_SLOPE
    return max(known.reading_sd, meter_aw / (-read * math.log(read)))


def _z(lot: LotResult) -> float:
    return fmean(math.log(-math.log(reading)) for reading in lot.readings) - math.log(-math.log(lot.model_aw))


def _shown(readings: tuple[float, ...]) -> str:
    return ", ".join(f"{reading:g}" for reading in readings)
