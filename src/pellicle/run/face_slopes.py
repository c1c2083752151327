"""Derivatives of what passes a face to the air: added to the blocks, kept for the totals and the house's humidity."""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.air.film import STEFAN_BOLTZMANN
from pellicle.air.humid import saturation_log_slope, saturation_pressure_pa, vapour_pressure_pa
from pellicle.air.wet_surface import evaporation_heat_j_kg
from pellicle.food.water_model import AW_FLOOR
from pellicle.piece.surface import DRY_AIR_CP, LEAST_AIR_SHARE, VAPOUR_CP, WATER_CP, vapour_coefficient, vapour_flux
from pellicle.run import layout as at
from pellicle.run.face_water import node_aw, node_aw_slopes
from pellicle.run.layout import Scalar
from pellicle.run.rates import LEAST_WATER, node_values, solutes_at
from pellicle.run.slopes import EXCESS, IN_SALT, IN_SUGAR, OWN, SQUARE, TEMPERATURE
from pellicle.units.kinds import ICE_POINT_K

LATENT_SLOPE = evaporation_heat_j_kg(1.0) - evaporation_heat_j_kg(0.0)  # J/kg/K, of a straight line
NUDGE_RATIO = 1e-6  # kg/kg, by which the house's humidity is moved to see what it does to the vapour pressure


def face_slopes(
    fields: Any, nodes: Any, i: int, side: int, open_share: Scalar, grid: Any, piece: Any, step: Any,
    air_c: Scalar, ratio: Scalar, air_vapour: Scalar, by_state: Any, blocks: Any, by_memory: Any, totals: Any,
    by_house: Any, solvent: Any, counts: Any,
) -> Scalar:  # fmt: skip
    """Add a face's derivatives to its node's blocks; return the water activity there.

    ``totals`` (2, FACE_EXTRAS, f + 1): d(vapour, drip of water, salts, sugars, heat in, heat out)/d(fields, memory).
    ``by_house`` (2, f + 1): d(rates of the face's node)/d(house's humidity ratio), last d(vapour)/d(that). Clamps are
    counted in ``counts``.
    """
    many = len(fields)
    temperature, _, _, _, square, excess, c1, c2 = node_values(fields, nodes, i, grid, piece)
    if many < 4:
        c1, c2 = 0.0, 0.0
    density = np.sqrt(square)
    salts, sugars = solutes_at(fields, nodes, i, piece)
    film, emissivity, pressure = step[at.FILM], step[at.EMISSIVITY], piece[at.PRESSURE]
    water = max(nodes[i, at.X], LEAST_WATER)
    activity, solvent[side] = node_aw(water, salts, sugars, piece, solvent[side])
    kelvin = temperature + ICE_POINT_K
    cools = -open_share * (film + 4.0 * emissivity * STEFAN_BOLTZMANN * kelvin * kelvin * kelvin)
    vapour: Scalar = 0.0
    wets: Scalar = 0.0
    drip, by_face, runs = 0.0, 0.0, 0.0
    by_x, by_1, by_2 = 0.0, 0.0, 0.0
    if step[at.HUMIDITY_KIND] != at.SEALED:
        if activity <= AW_FLOOR:
            counts[at.AW_FLOORED] += 1
        by_x, by_1, by_2 = node_aw_slopes(water, salts, sugars, piece, activity, solvent[side])
        coefficient = open_share * vapour_coefficient(film, ratio, piece[at.LEWIS])
        full = saturation_pressure_pa(temperature)
        wets = activity * full * saturation_log_slope(temperature)
        vapour = vapour_flux(coefficient, air_vapour, activity * full, pressure)
        room = pressure - activity * full
        if room < LEAST_AIR_SHARE * pressure:
            counts[at.NEAR_BOILING] += 1
            room = LEAST_AIR_SHARE * pressure
        by_face = coefficient / room
        by_x, by_1, by_2 = by_x * full, by_1 * full, by_2 * full
        runs = open_share * piece[at.DRIP_SPEED]
        drip = runs * density * excess
        if step[at.HUMIDITY_KIND] == at.DAMPER:
            # vapour falls with the house's humidity: through the air's own vapour and, a little, its heat capacity
            more = vapour_pressure_pa(ratio + NUDGE_RATIO, pressure)
            by_air = -coefficient / (pressure - air_vapour) * (more - air_vapour) / NUDGE_RATIO
            by_air -= vapour * VAPOUR_CP / (DRY_AIR_CP + VAPOUR_CP * ratio)
            leaves = WATER_CP * temperature + evaporation_heat_j_kg(temperature)
            by_house[side, at.X] = -by_air / grid[at.MASS, i]
            by_house[side, at.H] = -by_air * leaves / grid[at.MASS, i]
            by_house[side, many] = by_air
    with_vapour = WATER_CP * temperature + evaporation_heat_j_kg(temperature)
    mixed = WATER_CP + piece[at.CP_SALT] * c1 + piece[at.CP_SUGAR] * c2
    per_mass = 1.0 / grid[at.MASS, i]
    for v in range(many):
        by_t = by_state[i, TEMPERATURE, v]
        d_face = wets * by_t
        if v == at.X:
            d_face += by_x
        elif v == at.S1:
            d_face += by_1
        elif v == at.S2:
            d_face += by_2
        d_vapour = by_face * d_face
        d_drip = runs * (density * by_state[i, EXCESS, v] + excess * by_state[i, SQUARE, v] / (2.0 * density))
        d_1, d_2, d_mixed = 0.0, 0.0, 0.0
        if many > 2:
            d_1 = d_drip * c1 + drip * by_state[i, IN_SALT, v]
            d_2 = d_drip * c2 + drip * by_state[i, IN_SUGAR, v]
            d_mixed = piece[at.CP_SALT] * by_state[i, IN_SALT, v] + piece[at.CP_SUGAR] * by_state[i, IN_SUGAR, v]
        d_heat = cools * by_t
        d_out = (
            d_vapour * with_vapour
            + vapour * (WATER_CP + LATENT_SLOPE) * by_t
            + (d_drip * mixed + drip * d_mixed) * temperature
            + drip * mixed * by_t
        )
        blocks[i, OWN, at.X, v] -= (d_vapour + d_drip) * per_mass
        blocks[i, OWN, at.H, v] += (d_heat - d_out) * per_mass
        if many > 2:
            blocks[i, OWN, at.S1, v] -= d_1 * per_mass
            blocks[i, OWN, at.S2, v] -= d_2 * per_mass
        totals[side, 0, v], totals[side, 1, v], totals[side, 2, v] = d_vapour, d_drip, d_1
        totals[side, 3, v], totals[side, 4, v], totals[side, 5, v] = d_2, d_heat, d_out
    d_drip = runs * density * by_state[i, EXCESS, at.X] * piece[at.PRESSED_PER_LOSS]
    d_out = d_drip * mixed * temperature
    by_memory[i, OWN, at.X] -= d_drip * per_mass
    by_memory[i, OWN, at.H] -= d_out * per_mass
    totals[side, 0, many], totals[side, 1, many], totals[side, 4, many], totals[side, 5, many] = 0.0, d_drip, 0.0, d_out
    totals[side, 2, many], totals[side, 3, many] = d_drip * c1, d_drip * c2
    if many > 2:
        by_memory[i, OWN, at.S1] -= d_drip * c1 * per_mass
        by_memory[i, OWN, at.S2] -= d_drip * c2 * per_mass
    return activity


COMPILABLE = (face_slopes,)
