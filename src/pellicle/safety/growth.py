"""How much germs can grow on a slow start or on a cool, wet surface: cardinal temperatures, no lag.

No lag is the careful side: a real one would only take away. Over a gap in a log growth goes on at the best rate between
its two ends. C. perfringens needs to be without air and is judged for thick or oxygen-free centres only.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.measured.series import Array, Series
from pellicle.message import Message, message
from pellicle.relation import relation
from pellicle.safety.intervals import steps
from pellicle.table import keys, number, rows

TABLE = "safety/data/growth.csv"
ORGANISMS = ("aureus", "salmonella", "perfringens")
LOG10 = float(np.log(10.0))
SECONDS_PER_HOUR = 3600.0
# A centre this far from the air is counted as oxygen-free: whole pieces of 25 mm and more (common-practice).
THICK_M = 0.025
# Points at which the rate is taken within a step; a step of a log or a run is short against the shape of the rate.
POINTS = np.linspace(0.0, 1.0, 9)


@dataclass(frozen=True, slots=True)
class Cardinal:
    """The cardinal values of one organism's growth."""

    name: str
    label: str
    t_min_c: float
    t_opt_c: float
    t_max_c: float
    mu_opt_per_s: float
    aw_least: float
    aw_opt: float
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Growth:
    """Growth of one organism, log10; None where it does not apply or cannot be told, and ``why`` says which."""

    organism: str
    label: str
    log: float | None
    hours: float | None
    applies: bool
    why: Message | None
    sources: tuple[str, ...]


@cache
def cardinal(organism: str) -> Cardinal:
    """Return the cardinal values of an organism of the table; KeyError if it has none."""
    row = {row["organism"]: row for row in rows(TABLE)}[organism]
    return Cardinal(
        organism,
        row["label"],
        number(row, "t_min_c"),
        number(row, "t_opt_c"),
        number(row, "t_max_c"),
        number(row, "mu_opt_per_h") / SECONDS_PER_HOUR,
        number(row, "aw_min"),
        number(row, "aw_opt"),
        keys(row),
    )


@relation("rosso-1993", valid={"temperature_c": (0.0, 60.0), "result": (0.0, 1.0)})
def gamma_temperature(temperature_c: Quantity, t_min_c: Quantity, t_opt_c: Quantity, t_max_c: Quantity) -> Quantity:
    """Return the rate as a share of the best one by temperature, 0 outside the cardinal temperatures.

    ``temperature_c``, ``t_min_c``, ``t_opt_c`` and ``t_max_c`` [C]. S. aureus grows best at 40.6 C.

    >>> float(gamma_temperature(40.6, 7.7, 40.6, 46.7)), float(gamma_temperature(50.0, 7.7, 40.6, 46.7))
    (1.0, 0.0)
    """
    inside = 1.0 * ((temperature_c > t_min_c) & (temperature_c < t_max_c))
    t = np.minimum(np.maximum(temperature_c, t_min_c), t_max_c)
    above = (t - t_max_c) * (t - t_min_c) * (t - t_min_c)
    span = t_opt_c - t_min_c
    below = span * (span * (t - t_opt_c) - (t_opt_c - t_max_c) * (t_opt_c + t_min_c - 2.0 * t))
    return inside * above / below


@relation("rosso-1993", valid={"aw": (0.5, 1.0), "result": (0.0, 1.0)})
def gamma_aw(aw: Quantity, aw_least: Quantity, aw_opt: Quantity) -> Quantity:
    """Return the rate as a share of the best one by water activity: a square, from nothing at the least to one.

    ``aw``, ``aw_least`` and ``aw_opt`` [1].

    >>> round(float(gamma_aw(0.90, 0.808, 0.994)), 3), float(gamma_aw(0.80, 0.808, 0.994))
    (0.245, 0.0)
    """
    share = np.minimum(np.maximum((aw - aw_least) / (aw_opt - aw_least), 0.0), 1.0)
    return share * share


def growth_log(organism: str, series: Series, temperature_c: Array, aw: Array) -> float:
    """Return the log10 growth of an organism over a series, no lag: ``temperature_c`` (n,) degC, ``aw`` (n,)."""
    found = cardinal(organism)
    run = steps(series, np.isfinite(temperature_c) & np.isfinite(aw))
    warm = _between(temperature_c[run.first], temperature_c[run.last])
    wet = _between(aw[run.first], aw[run.last])
    rate = gamma_temperature(warm, found.t_min_c, found.t_opt_c, found.t_max_c) * gamma_aw(
        wet, found.aw_least, found.aw_opt
    )
    mean = np.trapezoid(rate, POINTS, axis=0)
    mean = np.where(run.lower | ~run.counts, np.max(rate, axis=0, initial=0.0), mean)
    return float(np.sum(mean * run.seconds)) * found.mu_opt_per_s / LOG10


def growing_hours(organism: str, series: Series, temperature_c: Array, aw: Array) -> float:
    """Return for how long an organism could grow at all, h."""
    found = cardinal(organism)
    run = steps(series, np.isfinite(temperature_c) & np.isfinite(aw))
    warm = _between(temperature_c[run.first], temperature_c[run.last])
    wet = _between(aw[run.first], aw[run.last])
    can = (warm > found.t_min_c) & (warm < found.t_max_c) & (wet > found.aw_least)
    return float(np.sum(np.mean(can, axis=0) * run.seconds)) / SECONDS_PER_HOUR


def growth(
    series: Series,
    surface_aw: float | None = None,
    thickness_m: float | None = None,
    oxygen_free: bool = False,
    until_s: float | None = None,
) -> tuple[Growth, ...]:
    """Return the growth of each organism at the place where it grows most: core or either face.

    ``surface_aw`` is the water activity at the start, used where the series has none of its own; unknown, the best for
    growth is taken. ``thickness_m`` and ``oxygen_free`` decide whether C. perfringens applies. ``until_s`` is when heat
    had done with what could grow; nothing after it is counted.
    """
    before = series.time_s <= (np.inf if until_s is None else until_s)
    places = [(np.where(before, warm, np.nan), wet) for warm, wet in _places(series, surface_aw)]
    found = []
    for name in ORGANISMS:
        one = cardinal(name)
        if name == "perfringens" and not oxygen_free and (thickness_m is None or thickness_m < THICK_M):
            reason = "perfringens_thickness" if thickness_m is None else "perfringens_thin"
            why = message(f"safety.{reason}", thick=f"{1000 * THICK_M:.0f} mm")
            found.append(Growth(name, one.label, None, None, thickness_m is None, why, one.sources))
        elif not places:
            found.append(Growth(name, one.label, None, None, True, message("safety.growth_unknown"), one.sources))
        else:
            amounts = [(growth_log(name, series, *place), growing_hours(name, series, *place)) for place in places]
            log, hours = max(amounts)
            found.append(Growth(name, one.label, log, hours, True, None, one.sources))
    return tuple(found)


def recook_log(needed: float, growths: tuple[float, ...]) -> float:
    """Return what a second cook has to reach after growth on a slow start: the largest growth is added.

    After growth of 2.5 and 3.0 log a 6.5-log product has to be cooked to at least 9.5 log (a published example).

    >>> recook_log(6.5, (2.5, 3.0))
    9.5
    """
    return needed + max((0.0, *growths))


def _places(series: Series, surface_aw: float | None) -> list[tuple[Array, Array]]:
    rows_count = series.time_s.size
    start = np.full(rows_count, 1.0 if surface_aw is None else surface_aw)
    places = [] if series.core_c is None else [(series.core_c, start)]
    if series.face_c is not None:
        wet = np.stack([start, start], axis=1) if series.face_aw is None else series.face_aw
        places += list(zip(series.face_c.T, wet.T, strict=True))
    return places


def _between(first: Array, last: Array) -> Array:
    """Return values at the points of every step, (points, m)."""
    return first[None, :] + POINTS[:, None] * (last - first)[None, :]
