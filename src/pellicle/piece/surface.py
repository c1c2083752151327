"""What passes through a face: vapour by the analogy of heat and mass, heat from air and walls."""

from __future__ import annotations

import numpy as np

from pellicle.air.film import STEFAN_BOLTZMANN
from pellicle.air.wet_surface import MOLAR_MASS_RATIO
from pellicle.food.composition import Quantity
from pellicle.relation import relation
from pellicle.units.kinds import ICE_POINT_K

REVIEW = "transport-review"

DRY_AIR_CP = 1006.0  # J/kg/K (ashrae-psychrometrics)
VAPOUR_CP = 1860.0  # J/kg/K (ashrae-psychrometrics)
WATER_CP = 4190.0  # J/kg/K (REVIEW: a constant is enough)
# assumed: below this share of the pressure the logarithm is replaced by its tangent, so that boiling has no pole.
LEAST_AIR_SHARE = 0.01


@relation(REVIEW, valid={"film_coefficient": (2.0, 100.0), "humidity_ratio": (0.0, 20.0), "lewis_factor": (0.8, 1.1)})
def vapour_coefficient(film_coefficient: Quantity, humidity_ratio: Quantity, lewis_factor: Quantity) -> Quantity:
    """Return the vapour flux per unit of the logarithm in ``vapour_flux``, kg/m2/s (Chilton and Colburn).

    h/((1006 + 1860 W) Le^(2/3)) 18.015/28.97; ``film_coefficient`` [W/m2/K] h, ``humidity_ratio`` [kg/kg] W,
    ``lewis_factor`` [1] Le^(2/3). Own arithmetic.

    >>> round(vapour_coefficient(20.0, 0.0, 0.92), 6)
    0.013438
    """
    return film_coefficient / ((DRY_AIR_CP + VAPOUR_CP * humidity_ratio) * lewis_factor) * MOLAR_MASS_RATIO


@relation(REVIEW, valid={"air_vapour_pa": (0.0, 1.1e5), "face_vapour_pa": (0.0, 1.1e5), "pressure_pa": (5e4, 1.1e5)})
def vapour_flux(
    coefficient: Quantity, air_vapour_pa: Quantity, face_vapour_pa: Quantity, pressure_pa: Quantity
) -> Quantity:
    """Return the vapour leaving a face with Stefan's correction, kg/m2/s: k ln((P - pa)/(P - ps)).

    ``coefficient`` [kg/m2/s] of ``vapour_coefficient``, ``air_vapour_pa`` [Pa] pa, ``face_vapour_pa`` [Pa] ps,
    ``pressure_pa`` [Pa] P. Below 0 it condenses. Near boiling the logarithm goes on as its tangent. Own arithmetic:
    dry air against a face at half the pressure gives ln 2.

    >>> round(float(vapour_flux(1.0, 0.0, 50000.0, 100000.0)), 4)
    0.6931
    """
    least = LEAST_AIR_SHARE * pressure_pa
    room = pressure_pa - face_vapour_pa
    inside = np.maximum(room, least)
    logarithm = np.log((pressure_pa - air_vapour_pa) / inside)
    return coefficient * (logarithm + (inside - room) / least)


@relation(REVIEW, valid={"face_c": (0.0, 130.0), "air_c": (0.0, 130.0), "emissivity": (0.0, 1.0)})
def heat_flux(face_c: Quantity, air_c: Quantity, film_coefficient: Quantity, emissivity: Quantity) -> Quantity:
    """Return the heat into a face from air and walls of one temperature, W/m2: h (Ta - Ts) + eps sigma (Ta^4 - Ts^4).

    ``face_c`` and ``air_c`` [C], ``film_coefficient`` [W/m2/K], ``emissivity`` [1] times view factor. Radiation is
    worth 7.9 W/m2/K at 65 C and emissivity 0.9 (the review's own figure).

    >>> round((heat_flux(64.5, 65.5, 0.0, 0.9)), 1)
    7.9
    """
    face, air = face_c + ICE_POINT_K, air_c + ICE_POINT_K
    face2, air2 = face * face, air * air
    return film_coefficient * (air_c - face_c) + emissivity * STEFAN_BOLTZMANN * (air2 * air2 - face2 * face2)


COMPILABLE = (vapour_coefficient, vapour_flux, heat_flux)
