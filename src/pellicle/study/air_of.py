"""The same setup in other air: faster or slower by a share, or as a place of the house has it."""

from __future__ import annotations

import math
from dataclasses import replace

from pellicle.air.humid import humidity_ratio_from_wet_bulb, saturation_pressure_pa, wet_bulb_c
from pellicle.passage import Position
from pellicle.run.setup import RunSetup, RunStep


def in_air(setup: RunSetup, log_share: float) -> RunSetup:
    """Return the setup with every film coefficient times exp(``log_share``)."""
    steps = tuple(replace(step, film_w_m2k=step.film_w_m2k * math.exp(log_share)) for step in setup.steps)
    return replace(setup, steps=steps)


def at_place(setup: RunSetup, place: Position) -> RunSetup:
    """Return the setup as it is at a place: the house's vapour in air warmer by so much, moving so much faster."""
    steps = tuple(_warmer(step, place.warmer_k, setup.pressure_pa) for step in setup.steps)
    return in_air(replace(setup, steps=steps), math.log(place.film_share))


def _warmer(step: RunStep, by_k: float, pressure_pa: float) -> RunStep:
    """The same vapour in warmer air: a lower relative humidity, a slightly higher wet bulb."""
    if by_k == 0.0:
        return step
    dry = step.dry_bulb_c
    warm = (dry[0] + by_k, dry[1] + by_k)
    air = step.air
    if air.relative is not None:
        first, last = (
            min(share * float(saturation_pressure_pa(cool) / saturation_pressure_pa(hot)), 1.0)
            for share, cool, hot in zip(air.relative, dry, warm, strict=True)
        )
        air = replace(air, relative=(first, last))
    if air.wet_bulb_c is not None:
        first, last = (
            float(wet_bulb_c(hot, humidity_ratio_from_wet_bulb(cool, min(sock, cool), pressure_pa), pressure_pa))
            for sock, cool, hot in zip(air.wet_bulb_c, dry, warm, strict=True)
        )
        air = replace(air, wet_bulb_c=(first, last))
    return replace(step, dry_bulb_c=warm, air=air)
