"""The same setup in other air: faster or slower by a share, as a place of the house has it, or as a run found it."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from pellicle.air.humid import humidity_ratio_from_wet_bulb, saturation_pressure_pa, wet_bulb_c
from pellicle.passage import Position
from pellicle.run.setup import Air, RunSetup, RunStep
from pellicle.run.simulate import Run
from pellicle.run.trace import Trace

# Straight pieces that a step's air is cut into.
SEGMENTS = 24


def in_air(setup: RunSetup, log_share: float) -> RunSetup:
    """Return the setup with every film coefficient times exp(``log_share``)."""
    steps = tuple(replace(step, film_w_m2k=step.film_w_m2k * math.exp(log_share)) for step in setup.steps)
    return replace(setup, steps=steps)


def at_place(setup: RunSetup, place: Position) -> RunSetup:
    """Return the setup as it is at a place: the house's vapour in air warmer by so much, moving so much faster."""
    steps = tuple(_warmer(step, place.warmer_k, setup.pressure_pa) for step in setup.steps)
    return in_air(replace(setup, steps=steps), math.log(place.film_share))


def held_as(setup: RunSetup, run: Run) -> RunSetup:
    """Return the setup with the humidity that a run of it has found, where that is left to the house.

    One piece does not make the house's air, the load does: what other pieces find there is what the middle one, of
    which the load is thought to consist, has made.
    """
    steps: list[RunStep] = []
    for which, step in enumerate(setup.steps):
        if step.air.sealed or step.air.relative is not None or step.air.wet_bulb_c is not None:
            steps.append(step)
            continue
        steps += _segments(step, run.trace, np.flatnonzero(run.trace.step == which))
    return replace(setup, steps=tuple(steps))


def _segments(step: RunStep, trace: Trace, rows: NDArray[np.intp]) -> list[RunStep]:
    """Return a step cut into pieces over which temperature and humidity run straight between what was found."""
    chosen = rows[np.unique(np.linspace(0, rows.size - 1, min(rows.size, SEGMENTS + 1)).astype(int))]
    made = []
    for first, last in itertools.pairwise(chosen.tolist()):
        seconds = float(trace.time_s[last] - trace.time_s[first])
        if seconds > 0.0:
            air = Air(relative=(float(trace.humidity[first]), float(trace.humidity[last])))
            dry = (float(trace.air_c[first]), float(trace.air_c[last]))
            made.append(replace(step, dry_bulb_c=dry, air=air, lasts_s=seconds, ramp_s=seconds))
    return made or [step]


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
