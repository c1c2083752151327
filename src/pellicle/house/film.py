"""The film coefficient a step has, with its range: stated, from an air speed, or what the kind of house gives."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from pellicle import parameter
from pellicle.air.film import forced_film_w_m2k, joined_film_w_m2k, still_film_w_m2k

LEVEL_Z = 1.6448536269514722  # standard normal deviate of a two-sided 90 % range


class FilmFrom(StrEnum):
    """What a film coefficient rests on, from the surest to the least sure."""

    STATED = "stated"
    SPEED = "air speed"
    KIND = "kind of house"


@dataclass(frozen=True, slots=True)
class Film:
    """A film coefficient (W/m2K): the middle and the standard deviation of its logarithm, and what it rests on."""

    w_m2k: float
    log_sd: float
    rests_on: FilmFrom

    @property
    def low_w_m2k(self) -> float:
        """Lower end of the 90 % range."""
        return self.w_m2k * math.exp(-LEVEL_Z * self.log_sd)

    @property
    def high_w_m2k(self) -> float:
        """Upper end of the 90 % range."""
        return self.w_m2k * math.exp(LEVEL_Z * self.log_sd)


def stated_film(w_m2k: float, model: Mapping[str, float] = parameter.NO_OVERRIDES) -> Film:
    """Return a film coefficient that a file states.

    >>> film = stated_film(20.0)
    >>> round(film.low_w_m2k, 1), round(film.high_w_m2k, 1)
    (17.0, 23.6)
    """
    return Film(w_m2k, parameter.value("film_log_sd_stated", model), FilmFrom.STATED)


def film_from_speed(
    speed_m_s: float,
    length_m: float,
    dry_bulb_c: float,
    pressure_pa: float,
    model: Mapping[str, float] = parameter.NO_OVERRIDES,
) -> Film:
    """Return the film coefficient that air of a speed (m/s) gives a piece of a length (m) along it.

    Laminar flow over a plate times the factor of turbulence and wakes, joined with free convection, which is all that
    is left in still air. ``dry_bulb_c`` [C], ``pressure_pa`` [Pa].

    >>> round(film_from_speed(1.0, 0.10, 65.0, 101325.0).w_m2k, 1), round(film_from_speed(0, 0.15, 65, 101325).w_m2k)
    (18.6, 5)
    """
    forced = parameter.value("film_wake_factor", model) * forced_film_w_m2k(
        speed_m_s, length_m, dry_bulb_c, pressure_pa
    )
    still = still_film_w_m2k(length_m, parameter.value("still_air_difference_k", model), dry_bulb_c, pressure_pa)
    joined = float(joined_film_w_m2k(forced, still))
    return Film(joined, parameter.value("film_log_sd_speed", model), FilmFrom.SPEED)
