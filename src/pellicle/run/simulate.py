"""The door of the room: a setup in, a run out, with its balances, losses, energy and everything it has to say."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from pellicle.measured.series import Series
from pellicle.message import Message, message
from pellicle.run import layout as at
from pellicle.run.compile import compiled
from pellicle.run.flags import STATUS, Status, flags, status_message
from pellicle.run.integrate import NO_LIMIT_S, Raw, run_arrays
from pellicle.run.rates import WATER_VOLUME
from pellicle.run.setup import Arrays, RunSetup, arrays
from pellicle.run.trace import Trace, series, trace_of
from pellicle.units.kinds import HOUR_S

Array = NDArray[np.float64]

# Time error on the named schedules below 0.03 points of weight and 0.1 K (docs/kernel.md). Never looser than LOOSEST.
TOLERANCE = 3e-3
LOOSEST = 4e-3
SCIPY_RELATIVE = 1e-5


class EndedBy(StrEnum):
    """What ended a step; ``already`` when what it waits for was there before it began."""

    TIME = "time"
    CORE = "core temperature"
    WEIGHT = "weight"
    AW = "water activity"
    GAP = "gap"
    ALREADY = "already reached"
    NOT_RUN = "not run"


ENDED = {
    at.TIME: EndedBy.TIME,
    at.CORE: EndedBy.CORE,
    at.WEIGHT: EndedBy.WEIGHT,
    at.AW: EndedBy.AW,
    at.GAP_REACHED: EndedBy.GAP,
    at.PASSED: EndedBy.ALREADY,
}


@dataclass(frozen=True, slots=True, eq=False)
class RunOptions:
    """How exactly to run: ``tolerance`` (relative error per step of moisture; 0.3 K at 3e-3), ``longest_s`` a step.

    ``cancel`` (1,) stops the run when it turns from 0, also from another thread. ``scipy`` leaves the compiled stepper
    aside.
    """

    tolerance: float = TOLERANCE
    longest_s: float = NO_LIMIT_S
    cancel: NDArray[np.int64] | None = None
    scipy: bool = False


@dataclass(frozen=True, slots=True)
class StepEnd:
    """When a step ended, s since the start, how long it took, and why."""

    name: str
    end_s: float
    minutes: float
    ended_by: EndedBy


@dataclass(frozen=True, slots=True)
class Losses:
    """What left the piece, as shares of its marinated mass; solutes as shares of what it held."""

    vapour: float
    drip_water: float
    drip_salts: float
    drip_sugars: float
    salts_lost: float
    sugars_lost: float

    @property
    def drip(self) -> float:
        """Return all that dripped."""
        return self.drip_water + self.drip_salts + self.drip_sugars


@dataclass(frozen=True, slots=True)
class Balances:
    """By how much each balance misses, relative to what was there or passed: water, heat, salts, sugars, house."""

    water: float
    heat: float
    salts: float
    sugars: float
    house: float

    @property
    def worst(self) -> float:
        """Return the largest miss."""
        return max(abs(float(getattr(self, entry.name))) for entry in dataclasses.fields(self))


@dataclass(frozen=True, slots=True)
class Energy:
    """Heat per kg of marinated meat, J/kg: what came in from air and walls, what vapour and drip took along."""

    received: float
    left_with_water: float


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """A run: what happened over time, what ended each step, what left, how well it closes and what to say of it.

    ``weight_share`` and ``aw_mean`` at the end; ``status`` with its sentence in ``problem`` where it did not reach the
    end. ``thickness_m`` at the end.
    """

    setup: RunSetup
    status: Status
    problem: Message | None
    trace: Trace
    steps: tuple[StepEnd, ...]
    weight_share: float
    aw_mean: float
    thickness_m: float
    moisture_per_matrix: float
    losses: Losses
    balances: Balances
    energy: Energy
    flags: tuple[Message, ...]
    compiled: bool
    tolerance: float
    counts: NDArray[np.int64]
    arrays: Arrays


def simulate(setup: RunSetup, options: RunOptions | None = None) -> Run:
    """Return the run of a setup; InputError where a number of the setup cannot be. Never raises for a hard schedule.

    Without a compiler, or with ``options.scipy``, SciPy integrates the same rates, slower and closer.
    """
    chosen = options or RunOptions()
    given = arrays(setup)
    built = compiled() is not None and not chosen.scipy
    if built:
        raw = run_arrays(given, min(chosen.tolerance, LOOSEST), chosen.longest_s, chosen.cancel)
    else:
        from pellicle.run.with_scipy import integrate_with_scipy

        raw = integrate_with_scipy(given, min(SCIPY_RELATIVE, chosen.tolerance / 10.0))
    return run_of(setup, given, raw, built, chosen.tolerance)


def run_of(setup: RunSetup, given: Arrays, raw: Raw, built: bool, tolerance: float) -> Run:
    """Return the run that the kernel's arrays stand for."""
    trace = trace_of(setup, given, raw)
    status = STATUS[raw.status]
    steps = _steps(setup, raw)
    at_step = setup.steps[int(trace.step[-1])].name
    said = flags(
        raw.counts, trace.face_aw, float(trace.face_c.max()), raw.tolerance < min(tolerance, LOOSEST) and built
    )
    if not built:
        said = (*said, message("run.slow"))
    return Run(
        setup=setup,
        status=status,
        problem=status_message(status, at_step, float(trace.time_s[-1]) / HOUR_S),
        trace=trace,
        steps=steps,
        weight_share=float(trace.weight_share[-1]),
        aw_mean=float(trace.aw_mean[-1]),
        thickness_m=_thickness(setup, given, raw.nodes),
        moisture_per_matrix=float(np.sum(given.grid[at.MASS] * raw.nodes[:, at.X]) / given.piece[at.MATRIX]),
        losses=_losses(given, raw),
        balances=_balances(given, raw),
        energy=Energy(
            float(raw.extra[at.HEAT_IN] / given.piece[at.GREEN]), float(raw.extra[at.HEAT_OUT] / given.piece[at.GREEN])
        ),
        flags=said,
        compiled=built,
        tolerance=raw.tolerance,
        counts=raw.counts,
        arrays=given,
    )


def series_from(run: Run) -> Series:
    """Return a run's trace as what a lethality computation reads."""
    return series(run.trace, run.setup.open_share_below)


def _steps(setup: RunSetup, raw: Raw) -> tuple[StepEnd, ...]:
    found, began = [], 0.0
    for step, (end, why) in zip(setup.steps, raw.ends, strict=True):
        if np.isnan(end):
            found.append(StepEnd(step.name, float(raw.columns[-1, 0]), 0.0, EndedBy.NOT_RUN))
            continue
        found.append(StepEnd(step.name, float(end), (float(end) - began) / MINUTE_S, ENDED[int(why)]))
        began = float(end)
    return tuple(found)


def _thickness(setup: RunSetup, given: Arrays, nodes: Array) -> float:
    made = setup.mixture
    moving = nodes.shape[1] > 3
    salts = nodes[:, at.S1] if moving else made.salts
    sugars = nodes[:, at.S2] if moving else made.sugars
    volume = made.matrix.volume + nodes[:, at.X] * WATER_VOLUME + salts * made.salt.volume + sugars * made.sugar.volume
    halves = 1.0 if given.mesh.whole else 2.0
    return float(np.sum(given.grid[at.MASS] * volume) * halves)


def _losses(given: Arrays, raw: Raw) -> Losses:
    green, extra = given.piece[at.GREEN], raw.extra
    salts, sugars = (float(np.sum(given.grid[at.MASS] * _solute(given, place))) for place in (at.S1, at.S2))
    return Losses(
        vapour=float(extra[at.VAPOUR] / green),
        drip_water=float(extra[at.DRIP_WATER] / green),
        drip_salts=float(extra[at.DRIP_SALT] / green),
        drip_sugars=float(extra[at.DRIP_SUGAR] / green),
        salts_lost=float(extra[at.DRIP_SALT] / salts) if salts else 0.0,
        sugars_lost=float(extra[at.DRIP_SUGAR] / sugars) if sugars else 0.0,
    )


def _solute(given: Arrays, place: int) -> Array:
    return given.nodes[:, place] if len(given.fields) > 2 else np.zeros(given.nodes.shape[0])


def _balances(given: Arrays, raw: Raw) -> Balances:
    mass, extra = given.grid[at.MASS], raw.extra
    gone = [float(np.sum(mass * (given.nodes[:, v] - raw.nodes[:, v]))) for v in range(len(given.fields))]
    had = [float(np.sum(mass * np.abs(given.nodes[:, v]))) for v in range(len(given.fields))]
    water = (gone[at.X] - extra[at.VAPOUR] - extra[at.DRIP_WATER]) / had[at.X]
    passed = abs(extra[at.HEAT_IN]) + abs(extra[at.HEAT_OUT]) + had[at.H]
    heat = (gone[at.H] + extra[at.HEAT_IN] - extra[at.HEAT_OUT]) / passed if passed else 0.0
    salts = sugars = 0.0
    if len(given.fields) > 2:
        salts = (gone[at.S1] - extra[at.DRIP_SALT]) / had[at.S1] if had[at.S1] else 0.0
        sugars = (gone[at.S2] - extra[at.DRIP_SUGAR]) / had[at.S2] if had[at.S2] else 0.0
    return Balances(float(water), float(heat), float(salts), float(sugars), _house_balance(given, raw))


def _house_balance(given: Arrays, raw: Raw) -> float:
    """Return by how much the water of the house's air misses, over all steps whose humidity is left to it."""
    worst = 0.0
    for which, step in enumerate(given.steps):
        rows = np.flatnonzero(raw.columns[:, 1] == which)
        if step[at.HUMIDITY_KIND] != at.DAMPER or rows.size < 2:
            continue
        change = raw.extras[rows[-1]] - raw.extras[rows[0]]
        loaded = given.piece[at.LOAD_PER_AREA] * change[at.VAPOUR]
        parts = [loaded, change[at.VENTED], change[at.STEAMED], -change[at.CONDENSED]]
        held = step[at.HOUSE_AIR] * change[at.HOUSE]
        size = sum(abs(part) for part in parts) + step[at.HOUSE_AIR] * raw.extras[rows[0], at.HOUSE]
        worst = max(worst, abs(held - sum(parts)) / size if size else 0.0)
    return float(worst)


MINUTE_S = 60.0
