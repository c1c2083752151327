"""How fast water and solutes move inside the piece: with temperature, with moisture and past what stands in the way.

Per kg of dry matrix a concentration times the density of the matrix is a mass per volume, so every flux below carries
the square of that density (one from the concentration, one from the shrinking coordinate).
"""

from __future__ import annotations

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.relation import relation
from pellicle.units.kinds import ICE_POINT_K

GAS_CONSTANT = 8.314462618  # J/mol/K, by definition
WATER_REFERENCE_K = 333.15  # 60 C, where the diffusivity of water is stated
SOLUTE_REFERENCE_K = 277.15  # 4 C, where those of solutes are
MOISTURE_REFERENCE = 2.5  # kg water per kg dry solids at which the diffusivity of water is stated
LEAST_LOG_FACTOR = -30.0  # keeps a bone-dry face from stopping for good: its diffusivity is down by 1e13
RAW_WATER_VOLUME = 0.78  # volume share of water in raw meat, where solute diffusivities were measured

REVIEW = "transport-review"


@relation(
    REVIEW,
    valid={
        "temperature_c": (0.0, 95.0),
        "moisture": (0.1, 6.0),
        "at_60_c": (5e-11, 3e-9),
        "activation": (10e3, 60e3),
        "slope": (0.0, 0.6),
    },
)
def water_diffusivity(
    temperature_c: Quantity, moisture: Quantity, at_60_c: Quantity, activation: Quantity, slope: Quantity
) -> Quantity:
    """Return the diffusivity of water in meat, m2/s: D60 exp(-Ea/R (1/T - 1/333.15)) exp(-b (1/X - 0.4)).

    ``temperature_c`` [C], ``moisture`` [kg/kg] water per dry solids, ``at_60_c`` [m2/s] D60 at 2.5 kg/kg,
    ``activation`` [J/mol] Ea, ``slope`` [1] b. At 60 C and X 2.5 it is D60; at X 0.30 with b 0.15 the review gives a
    factor of 0.65.

    >>> round(float(water_diffusivity(60.0, 0.30, 1.0, 30e3, 0.15)), 2)
    0.64
    """
    heat = activation / GAS_CONSTANT * (1.0 / WATER_REFERENCE_K - 1.0 / (temperature_c + ICE_POINT_K))
    dryness = np.maximum(slope * (1.0 / MOISTURE_REFERENCE - 1.0 / moisture), LEAST_LOG_FACTOR)
    diffusivity: Quantity = at_60_c * np.exp(heat + dryness)
    return diffusivity


@relation((REVIEW, "mackie-meares-1955"), valid={"water_volume": (0.1, 1.0), "result": (0.0, 2.5)})
def obstruction(water_volume: Quantity) -> Quantity:
    """Return how much the solid hinders a solute, against raw meat: o(f)/o(0.78), o = (f/(2 - f))^2 (Mackie, Meares).

    ``water_volume`` [1] is the volume share f of water. Half water: own arithmetic, (1/3)^2 over (0.78/1.22)^2.

    >>> round(obstruction(0.5), 4)
    0.2718
    """
    free = water_volume / (2.0 - water_volume) * ((2.0 - RAW_WATER_VOLUME) / RAW_WATER_VOLUME)
    return free * free


@relation(REVIEW, valid={"temperature_c": (0.0, 95.0), "activation": (10e3, 60e3), "result": (0.5, 60.0)})
def solute_warming(temperature_c: Quantity, activation: Quantity) -> Quantity:
    """Return the diffusivity of a solute against 4 C: exp(-Ea/R (1/T - 1/277.15)).

    ``temperature_c`` [C], ``activation`` [J/mol]. The review states about six times at 60 C.

    >>> round(float(solute_warming(60.0, 25e3)), 1)
    6.2
    """
    heat = activation / GAS_CONSTANT * (1.0 / SOLUTE_REFERENCE_K - 1.0 / (temperature_c + ICE_POINT_K))
    factor: Quantity = np.exp(heat)
    return factor


@relation("scharfetter-gummel-1969", valid={"peclet": (-50.0, 50.0), "result": (0.0, 51.0)})
def bernoulli(peclet: Quantity) -> Quantity:
    """Return x/(exp(x) - 1): how diffusion and flow share a face exactly (Scharfetter and Gummel).

    ``peclet`` [1] is flow over diffusion. Own arithmetic: 1 without flow, and B(-x) = B(x) + x.

    >>> round(float(bernoulli(0.0)), 12), round(float(bernoulli(-2.0) - bernoulli(2.0)), 12)
    (1.0, 2.0)
    """
    small = 1.0 * (np.abs(peclet) < SMALL_PECLET)
    x = np.minimum(np.maximum(peclet, -LARGE_PECLET), LARGE_PECLET) + small * SMALL_PECLET * 2.0
    series = 1.0 - peclet / 2.0 + peclet * peclet / 12.0
    return small * series + (1.0 - small) * x / np.expm1(x)  # type: ignore[no-any-return]


@relation("scharfetter-gummel-1969", valid={"peclet": (-50.0, 50.0), "result": (-1.0, 0.0)})
def bernoulli_slope(peclet: Quantity) -> Quantity:
    """Return dB/dx of ``bernoulli``; ``peclet`` [1]. Own arithmetic: -1/2 without flow.

    >>> round(float(bernoulli_slope(0.0)), 6), round(float(bernoulli_slope(3.0)), 6)
    (-0.5, -0.113027)
    """
    small = 1.0 * (np.abs(peclet) < SMALL_PECLET)
    x = np.minimum(np.maximum(peclet, -LARGE_PECLET), LARGE_PECLET) + small * SMALL_PECLET * 2.0
    below = np.expm1(x)
    return small * (peclet / 6.0 - 1.0 / 2.0) + (1.0 - small) * (below - x * (below + 1.0)) / (below * below)  # type: ignore[no-any-return]


# Where the series takes over from the quotient (its error is x^4/720), and where the exponential would overflow.
SMALL_PECLET = 1e-3
LARGE_PECLET = 200.0

COMPILABLE = (water_diffusivity, obstruction, solute_warming, bernoulli, bernoulli_slope)
