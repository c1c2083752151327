"""How fast germs die at a temperature and a water activity: one log-linear line when wet, slower as it dries.

A dried surface protects: time for one log rises as ``aw_shift`` and temperature counts less (``z_value_c``). Both are
a compromise between published sets and say so. Everything is on the local water activity at process temperature.
"""

from __future__ import annotations

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.relation import relation

REVIEW = "lethality-review"

# Water activity from which on, upwards, a surface counts as fully wet (review, section 2.2).
WET_AW = 0.99
# Amplitude of the shift in log10 D for meat, salt and dried protein, and what sugar adds to it (review, section 2.2).
AMPLITUDE_MEAT = 2.7
AMPLITUDE_SUGAR = 1.9


@relation(
    (REVIEW, "carlson-2005", "mccann-2009"),
    valid={"aw": (0.5, 1.0), "amplitude": (2.2, 4.6), "result": (0.0, 4.2)},
)
def aw_shift(aw: Quantity, amplitude: Quantity) -> Quantity:
    """Return what dryness adds to log10 of the time for one log: A (1 - exp(-(0.99 - aw) / 0.243)), 0 from 0.99 up.

    ``aw`` [1] local water activity at process temperature, ``amplitude`` [1] A: 2.7 in meat, up to 4.6 in sugar. Beef
    surfaces dried to 0.95, 0.85 and 0.70 took 0.49, 1.35 and 1.55 more (a published set at 60 C).

    >>> [round(float(aw_shift(aw, 2.7)), 2) for aw in (0.99, 0.95, 0.85, 0.70)]
    [0.0, 0.41, 1.18, 1.88]
    """
    below: Quantity = np.maximum(WET_AW - aw, 0.0)
    return amplitude * (1.0 - np.exp(-below / 0.243))


@relation((REVIEW, "mattick-2001"), valid={"aw": (0.5, 1.0), "z_wet_c": (4.0, 9.0), "result": (4.0, 16.0)})
def z_value_c(aw: Quantity, z_wet_c: Quantity) -> Quantity:
    """Return the rise in temperature that makes killing ten times as fast, K: zw + 6.44 clip((0.99 - aw) / 0.29, 0, 1).

    ``aw`` [1] local water activity, ``z_wet_c`` [K] zw when wet. Foods and syrups at 0.84 to 0.87 had 8.5 to 9.0.

    >>> round(float(z_value_c(0.70, 5.56)), 2), round(float(z_value_c(0.85, 5.56)), 1)
    (12.0, 8.7)
    """
    dry: Quantity = np.minimum(np.maximum((WET_AW - aw) / 0.29, 0.0), 1.0)
    return z_wet_c + 6.44 * dry


@relation(
    (REVIEW, "salmonella-envelope-2000"),
    valid={"temperature_c": (50.0, 80.0), "aw": (0.5, 1.0), "d60_s": (30.0, 900.0)},
)
def log_d_s(
    temperature_c: Quantity,
    aw: Quantity,
    d60_s: Quantity,
    z_below_c: Quantity,
    z_above_c: Quantity,
    amplitude: Quantity,
) -> Quantity:
    """Return log10 of the time for one log, in seconds: log10 D60 - (T - 60) / z + shift.

    ``temperature_c`` [C] T, ``aw`` [1], ``d60_s`` [s] D60 when wet, ``z_below_c`` and ``z_above_c`` [K] z when wet
    on either side of 60 C, ``amplitude`` [1] of ``aw_shift``. The review's own table prints 26.2 min at 60 C and 0.85.

    >>> round(float(10.0 ** log_d_s(60.0, 0.85, 103.2, 5.56, 5.56, 2.7)) / 60, 1)
    26.2
    >>> round(float(10.0 ** log_d_s(57.2, 0.95, 103.2, 5.56, 5.56, 2.7)) / 60, 1)
    12.0
    """
    warmer: Quantity = np.maximum(temperature_c - 60.0, 0.0)
    cooler: Quantity = np.minimum(temperature_c - 60.0, 0.0)
    shift = aw_shift(aw, amplitude)
    return np.log10(d60_s) - warmer / z_value_c(aw, z_above_c) - cooler / z_value_c(aw, z_below_c) + shift


@relation("own-arithmetic", valid={})
def ramp_mean(first: Quantity, last: Quantity) -> Quantity:
    """Return the mean of a rate whose logarithm runs straight from ``first`` to ``last``: (b - a) / ln(b / a).

    ``first`` and ``last`` [any rate], above 0. Exact where temperature runs straight and water activity stands still;
    a trapezoid over a rise of one z gives 41 % more.

    >>> round(float(ramp_mean(1.0, 10.0)), 3)
    3.909
    """
    ratio = np.log(last / first)
    near = np.abs(ratio) < 1e-6
    # the series near equal ends: a (1 + x / 2)
    return np.where(near, first * (1.0 + 0.5 * ratio), (last - first) / np.where(near, 1.0, ratio))


def amplitude(sugar_share: float) -> float:
    """Return the amplitude of ``aw_shift`` for the share of sugars and polyols in what lowers water activity (0 to 1).

    >>> round(amplitude(0.0), 2), round(amplitude(1.0), 2)
    (2.7, 4.6)
    """
    return AMPLITUDE_MEAT + AMPLITUDE_SUGAR * min(max(sugar_share, 0.0), 1.0)
