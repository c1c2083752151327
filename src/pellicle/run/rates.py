"""How fast everything changes: a pure function of time and state, the same for the compiled stepper and for SciPy.

Finite volumes on the matrix coordinate, a node on each face. Water's conductance through a gap lies between two means
of its ends: the harmonic alone would let a bone-dry face cut itself off from the water behind it. Water moves by
diffusion and, pressed out by cooked protein, down the gradient of what the meat no longer holds; solutes by diffusion
and with the juice; heat by conduction and with all that moves. Nodes are read from left (lower face) to right (upper).
"""

from __future__ import annotations

from typing import Any

from pellicle.air.humid import saturation_pressure_pa
from pellicle.air.wet_surface import evaporation_heat_j_kg
from pellicle.piece.cookout import cookout_share, memory_rate, soft_excess
from pellicle.piece.diffusion import obstruction, solute_warming, water_diffusivity
from pellicle.piece.surface import (
    WATER_CP,
    heat_flux,
    vapour_coefficient,
    vapour_flux,
)
from pellicle.run import layout as at
from pellicle.run.air_now import air_now, house_balance
from pellicle.run.face_water import node_aw
from pellicle.run.layout import Scalar
from pellicle.run.solute_face import solute_flux, spread_mean

WATER_VOLUME = 1e-3  # m3/kg
# Below this the properties stop changing, kg/kg: a state that dry is refused by the stepper anyway.
LEAST_WATER = 1e-6


def solutes_at(fields: Any, nodes: Any, i: int, piece: Any) -> tuple[Scalar, Scalar]:
    """Return salts and sugars of a node, kg per kg matrix, whether they move or not."""
    if len(fields) > 2:
        return nodes[i, at.S1], nodes[i, at.S2]
    return piece[at.FIXED_SALT], piece[at.FIXED_SUGAR]


def heat_capacity(water: Scalar, salts: Scalar, sugars: Scalar, piece: Any) -> Scalar:
    """Return the heat capacity per kg of matrix, J/K: that of everything that belongs to it."""
    return piece[at.CP_MATRIX] + WATER_CP * water + piece[at.CP_SALT] * salts + piece[at.CP_SUGAR] * sugars


def conductance(left: Scalar, right: Scalar) -> Scalar:
    """Return how well a gap conducts whose ends differ: halfway between the arithmetic and the harmonic mean."""
    return (left + right) / 4.0 + left * right / (left + right)


def node_values(
    fields: Any, nodes: Any, i: int, grid: Any, piece: Any
) -> tuple[Scalar, Scalar, Scalar, Scalar, Scalar, Scalar, Scalar, Scalar]:
    """Return of a node: temperature, water density^2 diffusivity, k density, solute factor, squared density, excess.

    Then its concentrations of salts and sugars in the water. Per kg of matrix and matrix coordinate throughout.
    """
    water = max(nodes[i, at.X], LEAST_WATER)
    salts, sugars = solutes_at(fields, nodes, i, piece)
    memory = nodes[i, len(fields)]
    temperature = nodes[i, at.H] / heat_capacity(nodes[i, at.X], salts, sugars, piece)
    volume = (
        piece[at.VOLUME_MATRIX] + water * WATER_VOLUME + salts * piece[at.VOLUME_SALT] + sugars * piece[at.VOLUME_SUGAR]
    )
    density = 1.0 / volume
    square = density * density
    moisture = water / (1.0 + salts + sugars)
    moves = square * water_diffusivity(
        temperature, moisture, piece[at.D_WATER], piece[at.EA_WATER], piece[at.SLOPE_WATER]
    )
    conducts = square * (
        piece[at.CONDUCTS_MATRIX]
        + piece[at.CONDUCTS_WATER] * water
        + piece[at.CONDUCTS_SALT] * salts
        + piece[at.CONDUCTS_SUGAR] * sugars
    )
    spreads: Scalar = 0.0
    if len(fields) > 2:
        spreads = (
            square * solute_warming(temperature, piece[at.EA_SOLUTE]) * obstruction(water * WATER_VOLUME * density)
        )
    excess = soft_excess(nodes[i, at.X] - grid[at.REFERENCE, i] + piece[at.PRESSED_PER_LOSS] * memory)
    return temperature, moves, conducts, spreads, square, excess, salts / water, sugars / water


def rates(
    fields: Any, time_s: Scalar, nodes: Any, extra: Any, grid: Any, piece: Any, step: Any, out: Any, out_extra: Any,
    solvent: Any,
) -> None:  # fmt: skip
    """Fill ``out`` (nodes by fields and memory) and ``out_extra`` with the rates of change, per second.

    ``time_s`` since the step began; ``solvent`` (2,) holds the last solvent water of the faces as first guesses.
    """
    many = len(fields)
    count = nodes.shape[0]
    cp_salt, cp_sugar = piece[at.CP_SALT], piece[at.CP_SUGAR]
    drag = piece[at.DRAG]
    t_l, g_l, k_l, s_l, r_l, e_l, c1_l, c2_l = node_values(fields, nodes, 0, grid, piece)
    into_x, into_h, into_1, into_2 = 0.0, 0.0, 0.0, 0.0
    for i in range(count):
        share = cookout_share(t_l)
        out[i, many] = memory_rate(share, nodes[i, many], piece[at.MEMORY_SPEED])
        if i + 1 < count:
            t_r, g_r, k_r, s_r, r_r, e_r, c1_r, c2_r = node_values(fields, nodes, i + 1, grid, piece)
            per = 1.0 / grid[at.GAP, i]
            diffuse = -conductance(g_l, g_r) * (nodes[i + 1, at.X] - nodes[i, at.X]) * per
            juice = -piece[at.D_JUICE] * (r_l + r_r) / 2.0 * (e_r - e_l) * per
            flux_x = diffuse + juice
            flux_1, flux_2 = 0.0, 0.0
            if many > 2:
                mean, _, _ = spread_mean(drag, s_l, s_r, nodes, i, per)
                flux_1 = solute_flux(
                    drag, diffuse, juice, piece[at.D_SALT] * mean, c1_l, c1_r, nodes[i, at.S1], nodes[i + 1, at.S1]
                )
                flux_2 = solute_flux(
                    drag, diffuse, juice, piece[at.D_SUGAR] * mean, c2_l, c2_r, nodes[i, at.S2], nodes[i + 1, at.S2]
                )
            carried = WATER_CP * flux_x + cp_salt * flux_1 + cp_sugar * flux_2
            flux_h = carried * (t_l + t_r) / 2.0 - 2.0 * k_l * k_r / (k_l + k_r) * (t_r - t_l) * per
        else:
            flux_x, flux_h, flux_1, flux_2 = 0.0, 0.0, 0.0, 0.0
            t_r, g_r, k_r, s_r, r_r, e_r, c1_r, c2_r = t_l, g_l, k_l, s_l, r_l, e_l, c1_l, c2_l
        per_mass = 1.0 / grid[at.MASS, i]
        out[i, at.X] = (into_x - flux_x) * per_mass
        out[i, at.H] = (into_h - flux_h) * per_mass
        if many > 2:
            out[i, at.S1] = (into_1 - flux_1) * per_mass
            out[i, at.S2] = (into_2 - flux_2) * per_mass
        into_x, into_h, into_1, into_2 = flux_x, flux_h, flux_1, flux_2
        t_l, g_l, k_l, s_l, r_l, e_l, c1_l, c2_l = t_r, g_r, k_r, s_r, r_r, e_r, c1_r, c2_r
    for k in range(at.EXTRAS):
        out_extra[k] = 0.0
    air_c, ratio, air_vapour = air_now(time_s, step, extra[at.HOUSE], piece[at.PRESSURE])
    _face(fields, nodes, count - 1, 1, 1.0, grid, piece, step, air_c, ratio, air_vapour, out, out_extra, solvent)
    if piece[at.LOWER_OPEN] > 0.0:
        _face(
            fields, nodes, 0, 0, piece[at.LOWER_OPEN], grid, piece, step, air_c, ratio, air_vapour, out, out_extra,
            solvent,
        )  # fmt: skip
    if step[at.HUMIDITY_KIND] == at.DAMPER:
        fresh, walls, _ = house_balance(step, air_c, extra[at.HOUSE], piece[at.PRESSURE])
        load = piece[at.LOAD_PER_AREA] * out_extra[at.VAPOUR]
        steamed = step[at.STEAM] + step[at.FLAME] * load
        out_extra[at.HOUSE] = (fresh + steamed + load - walls) / step[at.HOUSE_AIR]
        out_extra[at.VENTED] = fresh
        out_extra[at.STEAMED] = steamed
        out_extra[at.CONDENSED] = walls


def _face(
    fields: Any, nodes: Any, i: int, side: int, open_share: Scalar, grid: Any, piece: Any, step: Any,
    air_c: Scalar, ratio: Scalar, air_vapour: Scalar, out: Any, out_extra: Any, solvent: Any,
) -> None:  # fmt: skip
    """Take from a face's node what leaves through it, and add it to the totals."""
    temperature, _, _, _, square, excess, c1, c2 = node_values(fields, nodes, i, grid, piece)
    heat = open_share * heat_flux(temperature, air_c, step[at.FILM], step[at.EMISSIVITY])
    vapour: Scalar = 0.0
    drip: Scalar = 0.0
    if step[at.HUMIDITY_KIND] != at.SEALED:
        salts, sugars = solutes_at(fields, nodes, i, piece)
        activity, solvent[side] = node_aw(max(nodes[i, at.X], LEAST_WATER), salts, sugars, piece, solvent[side])
        coefficient = open_share * vapour_coefficient(step[at.FILM], ratio, piece[at.LEWIS])
        face_vapour = activity * saturation_pressure_pa(temperature)
        vapour = vapour_flux(coefficient, air_vapour, face_vapour, piece[at.PRESSURE])
        drip = open_share * piece[at.DRIP_SPEED] * square**0.5 * excess
    if len(fields) < 4:
        c1, c2 = 0.0, 0.0
    with_vapour = WATER_CP * temperature + evaporation_heat_j_kg(temperature)
    with_drip = (WATER_CP + piece[at.CP_SALT] * c1 + piece[at.CP_SUGAR] * c2) * temperature
    taken = vapour * with_vapour + drip * with_drip
    per_mass = 1.0 / grid[at.MASS, i]
    out[i, at.X] -= (vapour + drip) * per_mass
    out[i, at.H] += (heat - taken) * per_mass
    if len(fields) > 2:
        out[i, at.S1] -= drip * c1 * per_mass
        out[i, at.S2] -= drip * c2 * per_mass
    out_extra[at.VAPOUR] += vapour
    out_extra[at.DRIP_WATER] += drip
    out_extra[at.DRIP_SALT] += drip * c1
    out_extra[at.DRIP_SUGAR] += drip * c2
    out_extra[at.HEAT_IN] += heat
    out_extra[at.HEAT_OUT] += taken


def rates_door(
    fields: Any, time_s: Scalar, flat: Any, count: int, grid: Any, piece: Any, step: Any, out: Any, solvent: Any
) -> None:
    """Fill ``out`` with the rates of a flat state (nodes one after the other, then the extras), as SciPy wants it."""
    width = len(fields) + 1
    size = count * width
    rates(
        fields, time_s, flat[:size].reshape((count, width)), flat[size:], grid, piece, step,
        out[:size].reshape((count, width)), out[size:], solvent,
    )  # fmt: skip


COMPILABLE = (solutes_at, heat_capacity, conductance, node_values, _face, rates)
