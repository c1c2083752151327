"""What a product's own readings teach of its water activity: each lot's weights give the computed value, the meter the
real one."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from pellicle.errors import InputError
from pellicle.food.correction import Correction, Klass, LotResult, learn, prior
from pellicle.product import LotReading
from pellicle.study.mixture import UncertainMixture, aw_at, water_left


def correction_from_readings(
    readings: Sequence[LotReading],
    klass: Klass,
    facts: UncertainMixture,
    raw_kg: float,
    overrides: Mapping[str, float],
) -> Correction:
    """Return what is known of the product's correction after its readings; the class prior where there are none.

    ``facts`` is the mixture without a correction, for ``raw_kg`` of green weight, with what differs between batches
    drawn; a lot's weight when it was read stands for the same share of green weight there. What a lot was computed to
    read is the median over the draws, so that usual losses are not learnt as an error. A lot teaches less where its
    weights tell less: what its meat, uptake and losses leave open counts as scatter between lots. InputError for a lot
    whose weights cannot be this product's.
    """
    known = prior(klass, overrides)
    if not readings:
        return known
    results = [_result(reading, at, facts, raw_kg) for at, reading in enumerate(readings, start=1)]
    spread = max(facts_sd(facts, raw_kg * reading.out_kg / reading.raw_kg) for reading in readings)
    taught = learn(replace(known, lot_sd=math.hypot(known.lot_sd, spread)), results)
    return replace(taught, lot_sd=known.lot_sd)


def facts_sd(facts: UncertainMixture, kg: float) -> float:
    """Return the standard deviation of ln(-ln aw) at a weight [kg] over what differs between batches."""
    computed = aw_at(facts, kg)
    inside = computed[(computed > 0) & (computed < 1)]
    return float(np.std(np.log(-np.log(inside)))) if inside.size else 0.0


def _result(reading: LotReading, at: int, facts: UncertainMixture, raw_kg: float) -> LotResult:
    kg = raw_kg * reading.out_kg / reading.raw_kg
    start_kg = float(np.max(facts.start_kg))
    percent = f"{100 * reading.out_kg / reading.raw_kg:.1f} %"
    if float(np.median(water_left(facts, kg))) <= 0:
        raise InputError("learn.all_dry", field=f"reading[{at}].out", lot=reading.lot, percent=percent)
    if kg > start_kg:
        raise InputError(
            "learn.heavier",
            field=f"reading[{at}].out",
            lot=reading.lot,
            percent=percent,
            start=f"{100 * start_kg / raw_kg:.1f} %",
        )
    return LotResult(
        reading.lot, float(np.median(aw_at(facts, kg))), reading.aw, reading.standard_checked, reading.same_humectants
    )
