"""How well moving air heats a piece: film coefficients from air speed and length, still air, and radiation.

Laminar flow over a plate is the least a house gives; real houses are turbulent and full of wakes, so the forced part is
multiplied by a factor with a range (``film_wake_factor`` among the parameters).
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from pellicle.air.humid import DRY_AIR_GAS_CONSTANT
from pellicle.relation import relation
from pellicle.units.kinds import ICE_POINT_K

Quantity: TypeAlias = float | NDArray[np.float64]

PLATE = "laminar-plate"
AIR = "standard-atmosphere-1976"
STEFAN_BOLTZMANN = 5.670374419e-8  # W/m2/K4, exact by definition of the constants it is made of
AIR_CP = 1006.0  # J/kg/K (AIR)
GRAVITY = 9.80665  # m/s2, exact by convention


@relation(AIR, valid={"temperature_c": (-40.0, 200.0), "result": (1.4e-5, 2.7e-5)})
def air_viscosity_pa_s(temperature_c: Quantity) -> Quantity:
    """Return the viscosity of dry air, Pa s: 1.458e-6 T^1.5 / (T + 110.4) (Sutherland).

    ``temperature_c`` [C]. The standard atmosphere prints 1.7894e-5 at 15 C.

    >>> round(air_viscosity_pa_s(15.0) * 1e5, 4)
    1.7894
    """
    t = temperature_c + ICE_POINT_K
    return 1.458e-6 * t**1.5 / (t + 110.4)


@relation(AIR, valid={"temperature_c": (-40.0, 200.0), "result": (0.02, 0.04)})
def air_conductivity_w_mk(temperature_c: Quantity) -> Quantity:
    """Return the thermal conductivity of dry air, W/mK: 2.64638e-3 T^1.5 / (T + 245.4 10^(-12/T)).

    ``temperature_c`` [C]. The standard atmosphere prints 0.025326 at 15 C.

    >>> round(float(air_conductivity_w_mk(15.0)), 4)
    0.0253
    """
    t = temperature_c + ICE_POINT_K
    return 2.64638e-3 * t**1.5 / (t + 245.4 * 10.0 ** (-12.0 / t))


@relation(
    PLATE,
    valid={
        "speed_m_s": (0.0, 30.0),
        "length_m": (0.005, 1.0),
        "temperature_c": (-20.0, 150.0),
        "pressure_pa": (50000.0, 110000.0),
        "result": (0.0, 300.0),
    },
)
def forced_film_w_m2k(
    speed_m_s: Quantity, length_m: Quantity, temperature_c: Quantity, pressure_pa: Quantity
) -> Quantity:
    """Return the mean film coefficient of laminar flow along a plate, W/m2K: Nu = 0.664 Re^(1/2) Pr^(1/3).

    ``speed_m_s`` [m/s] far from the plate, ``length_m`` [m] along the flow, ``temperature_c`` [C] of the air,
    ``pressure_pa`` [Pa]. Holds for Re below 500 000. 1 m/s over 10 cm at 65 C: 12 (own table).

    >>> round(float(forced_film_w_m2k(1.0, 0.10, 65.0, 101325.0)))
    12
    """
    viscosity = air_viscosity_pa_s(temperature_c)
    conductivity = air_conductivity_w_mk(temperature_c)
    density = pressure_pa / (DRY_AIR_GAS_CONSTANT * (temperature_c + ICE_POINT_K))
    reynolds = density * speed_m_s * length_m / viscosity
    prandtl = AIR_CP * viscosity / conductivity
    return 0.664 * conductivity / length_m * reynolds**0.5 * prandtl ** (1.0 / 3.0)


@relation(
    "natural-convection",
    valid={
        "height_m": (0.01, 1.0),
        "difference_k": (0.1, 80.0),
        "temperature_c": (-20.0, 150.0),
        "pressure_pa": (50000.0, 110000.0),
        "result": (0.5, 20.0),
    },
)
def still_film_w_m2k(
    height_m: Quantity, difference_k: Quantity, temperature_c: Quantity, pressure_pa: Quantity
) -> Quantity:
    """Return the film coefficient of still air along an upright plate, W/m2K: Nu = 0.59 Ra^(1/4), laminar.

    ``height_m`` [m], ``difference_k`` [K] between air and plate, ``temperature_c`` [C] of the air, ``pressure_pa``
    [Pa]. 15 cm and 20 K: near 5 (own table: 4.97).

    >>> round(float(still_film_w_m2k(0.15, 20.0, 65.0, 101325.0)), 1)
    4.9
    """
    viscosity = air_viscosity_pa_s(temperature_c)
    conductivity = air_conductivity_w_mk(temperature_c)
    kelvin = temperature_c + ICE_POINT_K
    density = pressure_pa / (DRY_AIR_GAS_CONSTANT * kelvin)
    grashof = GRAVITY / kelvin * difference_k * height_m * height_m * height_m * (density / viscosity) ** 2
    rayleigh = grashof * AIR_CP * viscosity / conductivity
    return 0.59 * conductivity / height_m * rayleigh**0.25


@relation(PLATE, valid={"forced_w_m2k": (0.0, 300.0), "still_w_m2k": (0.0, 20.0), "result": (0.0, 300.0)})
def joined_film_w_m2k(forced_w_m2k: Quantity, still_w_m2k: Quantity) -> Quantity:
    """Return the film coefficient of forced and free flow together, W/m2K: the cube root of the sum of cubes.

    ``forced_w_m2k`` [W/m2K], ``still_w_m2k`` [W/m2K]. Where both are alike it is a quarter more than either (own
    arithmetic).

    >>> round(joined_film_w_m2k(5.0, 5.0), 2)
    6.3
    """
    return (forced_w_m2k**3 + still_w_m2k**3) ** (1.0 / 3.0)


@relation("own-arithmetic", valid={"thickness_m": (1e-4, 0.1), "width_m": (0.001, 1.0), "result": (1e-5, 0.1)})
def edge_thickness_m(thickness_m: Quantity, width_m: Quantity) -> Quantity:
    """Return the thickness of an endless slab with as much surface per volume as a long strip: d w / (d + w).

    ``thickness_m`` [m] d, ``width_m`` [m] w. A strip of 6.5 mm by 25 mm gains 26 % of surface (own arithmetic).

    >>> round(0.0065 / edge_thickness_m(0.0065, 0.025), 2)
    1.26
    """
    return thickness_m * width_m / (thickness_m + width_m)


@relation("own-arithmetic", valid={"emissivity": (0.0, 1.0), "temperature_c": (-20.0, 200.0), "result": (0.0, 25.0)})
def radiation_film_w_m2k(emissivity: Quantity, temperature_c: Quantity) -> Quantity:
    """Return what radiation adds to a film coefficient, W/m2K: 4 e sigma T^3.

    ``emissivity`` [1] times view factor, ``temperature_c`` [C] mean of piece and wall. 0.9 at 65 C: 7.9 (own table).

    >>> round(radiation_film_w_m2k(0.9, 65.0), 1)
    7.9
    """
    t = temperature_c + ICE_POINT_K
    return 4.0 * emissivity * STEFAN_BOLTZMANN * t * t * t


COMPILABLE = (
    air_viscosity_pa_s,
    air_conductivity_w_mk,
    forced_film_w_m2k,
    still_film_w_m2k,
    joined_film_w_m2k,
    edge_thickness_m,
    radiation_film_w_m2k,
)
