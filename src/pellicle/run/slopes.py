"""Derivatives of the rates, written out: node properties by the chain rule, then faces between nodes, then the surface.

Blocks of a block-tridiagonal matrix, d(rates of node i)/d(state of node i-1, i, i+1). The memory of cooking is left out
of them: it acts only through the juice of its own node, so its column is kept apart (``by_memory``) and folded in when
the step size is known. Read ``rates`` first; ``tests/run`` compares both by differences.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.piece.cookout import (
    EXCESS_WIDTH,
    LARGEST_LOSS,
    LOSS_WIDTH_K,
    MEMORY_WIDTH,
    cookout_share,
)
from pellicle.piece.diffusion import (
    GAS_CONSTANT,
    LEAST_LOG_FACTOR,
    MOISTURE_REFERENCE,
)
from pellicle.piece.surface import WATER_CP
from pellicle.run import layout as at
from pellicle.run.layout import Scalar
from pellicle.run.rates import LEAST_WATER, WATER_VOLUME, conductance, heat_capacity, node_values, solutes_at
from pellicle.run.solute_face import solute_flux, solute_flux_slopes, spread_mean
from pellicle.units.kinds import ICE_POINT_K

# properties of a node whose derivatives are kept, rows of ``by_state[i]``
TEMPERATURE, MOVES, CONDUCTS, SPREADS, SQUARE, EXCESS, IN_SALT, IN_SUGAR, PROPERTIES = range(9)
BEFORE, OWN, AFTER = 0, 1, 2


def node_slopes(fields: Any, nodes: Any, i: int, grid: Any, piece: Any, values: Any, by_state: Any) -> None:
    """Fill ``by_state[i]`` (property, field) from the properties that ``node_values`` found for node ``i``."""
    many = len(fields)
    temperature, moves, conducts, spreads, square, _, c1, c2 = values
    water = max(nodes[i, at.X], LEAST_WATER)
    wet = 1.0 if nodes[i, at.X] > LEAST_WATER else 0.0
    salts, sugars = solutes_at(fields, nodes, i, piece)
    density = np.sqrt(square)
    capacity = heat_capacity(nodes[i, at.X], salts, sugars, piece)
    kelvin = temperature + ICE_POINT_K
    warms = piece[at.EA_WATER] / (GAS_CONSTANT * kelvin * kelvin)
    spreads_warms = piece[at.EA_SOLUTE] / (GAS_CONSTANT * kelvin * kelvin)
    dry = 1.0 + salts + sugars
    slope = piece[at.SLOPE_WATER]
    if slope * (1.0 / MOISTURE_REFERENCE - dry / water) <= LEAST_LOG_FACTOR:
        slope = 0.0
    share = water * WATER_VOLUME * density
    stands = 4.0 / (share * (2.0 - share))
    above = nodes[i, at.X] - grid[at.REFERENCE, i] + piece[at.PRESSED_PER_LOSS] * nodes[i, many]
    for v in range(many):
        cp, volume, heats = WATER_CP, WATER_VOLUME * wet, piece[at.CONDUCTS_WATER] * wet
        by_dryness = slope * dry / (water * water) * wet
        if v == at.H:
            cp, volume, heats, by_dryness = 0.0, 0.0, 0.0, 0.0
        elif v == at.S1:
            cp, volume, heats = piece[at.CP_SALT], piece[at.VOLUME_SALT], piece[at.CONDUCTS_SALT]
            by_dryness = -slope / water
        elif v == at.S2:
            cp, volume, heats = piece[at.CP_SUGAR], piece[at.VOLUME_SUGAR], piece[at.CONDUCTS_SUGAR]
            by_dryness = -slope / water
        by_temperature = 1.0 / capacity if v == at.H else -temperature * cp / capacity
        thins = -2.0 * density * volume
        by_state[i, TEMPERATURE, v] = by_temperature
        by_state[i, MOVES, v] = moves * (warms * by_temperature + by_dryness + thins)
        by_state[i, CONDUCTS, v] = square * heats + conducts * thins
        by_state[i, SQUARE, v] = square * thins
        if many > 2:
            by_share = -share * density * volume
            if v == at.X:
                by_share += WATER_VOLUME * density * wet
            by_state[i, SPREADS, v] = spreads * (spreads_warms * by_temperature + stands * by_share + thins)
            by_state[i, IN_SALT, v] = 0.0
            by_state[i, IN_SUGAR, v] = 0.0
        by_state[i, EXCESS, v] = 0.0
    by_state[i, EXCESS, at.X] = (1.0 + above / np.sqrt(above * above + EXCESS_WIDTH * EXCESS_WIDTH)) / 2.0
    if many > 2:
        by_state[i, IN_SALT, at.X], by_state[i, IN_SALT, at.S1] = -c1 / water * wet, 1.0 / water
        by_state[i, IN_SUGAR, at.X], by_state[i, IN_SUGAR, at.S2] = -c2 / water * wet, 1.0 / water


def memory_slopes(temperature: Scalar, memory: Scalar, speed: Scalar) -> tuple[Scalar, Scalar]:
    """Return d(memory rate)/d(temperature) and d(memory rate)/d(memory)."""
    share = cookout_share(temperature)
    short = share - memory
    if short <= 0.0:
        return 0.0, 0.0
    steep = speed * min(short / MEMORY_WIDTH, 1.0)
    return steep * share * (1.0 - share / LARGEST_LOSS) / LOSS_WIDTH_K, -steep


def slopes(
    fields: Any, nodes: Any, grid: Any, piece: Any, blocks: Any, by_memory: Any, by_state: Any, memory: Any
) -> None:
    """Fill the blocks (n, 3, f, f) of the inside, the memory's columns and own slopes; the surface comes after.

    ``by_memory`` (n, 3, f): d(rates of node i-1, i, i+1)/d(memory of node i). ``by_state`` (n, properties, f) of every
    node. ``memory`` (n, 2): d(memory rate)/d(temperature) and d(memory).
    """
    many = len(fields)
    count = nodes.shape[0]
    for i in range(count):
        for r in range(many):
            for b in range(3):
                by_memory[i, b, r] = 0.0
            for v in range(many):
                blocks[i, OWN, r, v] = 0.0
    left = node_values(fields, nodes, 0, grid, piece)
    node_slopes(fields, nodes, 0, grid, piece, left, by_state)
    for i in range(count):
        memory[i, 0], memory[i, 1] = memory_slopes(left[TEMPERATURE], nodes[i, many], piece[at.MEMORY_SPEED])
        if i + 1 < count:
            right = node_values(fields, nodes, i + 1, grid, piece)
            node_slopes(fields, nodes, i + 1, grid, piece, right, by_state)
            _between(fields, nodes, i, grid, piece, left, right, blocks, by_memory, by_state)
            left = right


def _between(
    fields: Any, nodes: Any, i: int, grid: Any, piece: Any, left: Any, right: Any, blocks: Any, by_memory: Any,
    by_state: Any,
) -> None:  # fmt: skip
    """Add the derivatives of what passes between nodes i and i+1."""
    many = len(fields)
    t_l, g_l, k_l, s_l, r_l, e_l, c1_l, c2_l = left
    t_r, g_r, k_r, s_r, r_r, e_r, c1_r, c2_r = right
    per = 1.0 / grid[at.GAP, i]
    down, up = 1.0 / grid[at.MASS, i], 1.0 / grid[at.MASS, i + 1]
    rise_x, rise_e = (nodes[i + 1, at.X] - nodes[i, at.X]) * per, (e_r - e_l) * per
    rise_t, middle = (t_r - t_l) * per, (t_l + t_r) / 2.0
    water_face, heat_face = conductance(g_l, g_r), 2.0 * k_l * k_r / (k_l + k_r)
    juice_face = piece[at.D_JUICE] * (r_l + r_r) / 2.0
    diffuse, juice = -water_face * rise_x, -juice_face * rise_e
    drag = piece[at.DRAG]
    carries = max(drag, 0.0)
    cp_1, cp_2, d_salt, d_sugar = piece[at.CP_SALT], piece[at.CP_SUGAR], piece[at.D_SALT], piece[at.D_SUGAR]
    carried = WATER_CP * (diffuse + juice)
    mean_l, mean_r = 0.0, 0.0
    flow_1, from_1l, from_1r, by_1, own_1 = 0.0, 0.0, 0.0, 0.0, 0.0
    flow_2, from_2l, from_2r, by_2, own_2 = 0.0, 0.0, 0.0, 0.0, 0.0
    if many > 2:
        mean, mean_l, mean_r = spread_mean(drag, s_l, s_r, nodes, i, per)
        in_1l, in_1r, in_2l, in_2r = nodes[i, at.S1], nodes[i + 1, at.S1], nodes[i, at.S2], nodes[i + 1, at.S2]
        carried += cp_1 * solute_flux(drag, diffuse, juice, d_salt * mean, c1_l, c1_r, in_1l, in_1r)
        carried += cp_2 * solute_flux(drag, diffuse, juice, d_sugar * mean, c2_l, c2_r, in_2l, in_2r)
        flow_1, from_1l, from_1r, by_1, own_1 = solute_flux_slopes(
            drag, diffuse, juice, d_salt * mean, c1_l, c1_r, in_1l, in_1r
        )
        flow_2, from_2l, from_2r, by_2, own_2 = solute_flux_slopes(
            drag, diffuse, juice, d_sugar * mean, c2_l, c2_r, in_2l, in_2r
        )
    for side in range(2):
        j = i + side
        sign, spread, wet = 1.0, s_l, nodes[j, at.X]
        other, warm, mean_by, from_1, from_2 = g_r, heat_face / k_l, mean_l, from_1l, from_2l
        if side == 1:
            sign, spread = -1.0, s_r
            other, warm, mean_by, from_1, from_2 = g_l, heat_face / k_r, mean_r, from_1r, from_2r
        warm = warm * warm / 2.0
        other /= g_l + g_r
        opens = 1.0 / 4.0 + other * other
        for v in range(many):
            d_diffuse = -opens * by_state[j, MOVES, v] * rise_x
            if v == at.X:
                d_diffuse += sign * water_face * per
            d_juice = (
                sign * juice_face * per * by_state[j, EXCESS, v]
                - piece[at.D_JUICE] * by_state[j, SQUARE, v] / 2.0 * rise_e
            )
            d_x = d_diffuse + d_juice
            d_1, d_2 = 0.0, 0.0
            if many > 2:
                d_mean = mean_by * by_state[j, SPREADS, v]
                if drag >= 0.0:
                    d_mean *= wet
                    if v == at.X:
                        d_mean += mean_by * spread
                d_flow = carries * d_diffuse + d_juice
                d_1 = flow_1 * d_flow + from_1 * by_state[j, IN_SALT, v] + by_1 * d_salt * d_mean
                d_2 = flow_2 * d_flow + from_2 * by_state[j, IN_SUGAR, v] + by_2 * d_sugar * d_mean
                if v == at.S1:
                    d_1 += sign * own_1
                if v == at.S2:
                    d_2 += sign * own_2
            d_h = (
                (WATER_CP * d_x + cp_1 * d_1 + cp_2 * d_2) * middle
                + (carried / 2.0 + sign * heat_face * per) * by_state[j, TEMPERATURE, v]
                - warm * by_state[j, CONDUCTS, v] * rise_t
            )
            if side == 0:
                blocks[i, OWN, at.X, v] -= d_x * down
                blocks[i, OWN, at.H, v] -= d_h * down
                blocks[i + 1, BEFORE, at.X, v] = d_x * up
                blocks[i + 1, BEFORE, at.H, v] = d_h * up
                if many > 2:
                    blocks[i, OWN, at.S1, v] -= d_1 * down
                    blocks[i, OWN, at.S2, v] -= d_2 * down
                    blocks[i + 1, BEFORE, at.S1, v] = d_1 * up
                    blocks[i + 1, BEFORE, at.S2, v] = d_2 * up
            else:
                blocks[i, AFTER, at.X, v] = -d_x * down
                blocks[i, AFTER, at.H, v] = -d_h * down
                blocks[i + 1, OWN, at.X, v] += d_x * up
                blocks[i + 1, OWN, at.H, v] += d_h * up
                if many > 2:
                    blocks[i, AFTER, at.S1, v] = -d_1 * down
                    blocks[i, AFTER, at.S2, v] = -d_2 * down
                    blocks[i + 1, OWN, at.S1, v] += d_1 * up
                    blocks[i + 1, OWN, at.S2, v] += d_2 * up
        push = sign * juice_face * per * by_state[j, EXCESS, at.X] * piece[at.PRESSED_PER_LOSS]
        for r in range(many):
            pushed = push
            if r == at.H:
                pushed = push * (WATER_CP + cp_1 * flow_1 + cp_2 * flow_2) * middle
            elif r == at.S1:
                pushed = push * flow_1
            elif r == at.S2:
                pushed = push * flow_2
            by_memory[j, 1 - side, r] -= pushed * down
            by_memory[j, 2 - side, r] += pushed * up


COMPILABLE = (node_slopes, memory_slopes, slopes, _between)
