"""One step of the Rosenbrock method on a piece: all stages, the house as a border, totals as quadrature rows.

The nodes' equations are block-tridiagonal. The memory of each node is eliminated by hand (it is local), the house's
humidity by a bordering solve, and the totals need no solve at all: their own column is empty.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.run import layout as at
from pellicle.run.air_now import house_balance
from pellicle.run.blocks import AFTER, BEFORE, OWN, factor, fold, solve
from pellicle.run.rates import rates
from pellicle.run.tableau import RODAS3 as METHOD
from pellicle.run.tableau import checked, derived

checked(METHOD)
STAGES = METHOD.b.size
GAMMA = METHOD.gamma
A, C, B, E = METHOD.a, METHOD.c, METHOD.b, METHOD.e
ALPHA = derived(METHOD)[1]
TIME_WEIGHT = derived(METHOD)[3]
# whether a stage stands where the one before it stood, so that the rates need not be taken again; 0 begins a step
FRESH = np.array([i > 0 and not np.array_equal(A[i], A[i - 1]) and bool(A[i].any()) for i in range(STAGES)])
AT_START = np.array([not A[i].any() for i in range(STAGES)])
EXPONENT = 1.0 / (METHOD.estimate + 1.0)

# Weights of the error: what one unit of tolerance is worth in each field.
KELVIN_PER_TOLERANCE = 100.0
WATER_OFFSET = 0.05  # kg/kg: below this moisture errors count absolutely
SOLUTE_OFFSET = 0.02
MEMORY_SCALE = 0.1  # share of raw weight
HOUSE_OFFSET = 0.01  # kg/kg
DRIEST = 1e-6  # kg/kg: a step that dries a node further is not taken


def attempt(
    fields: Any, time_s: float, h: float, nodes: Any, extra: Any, grid: Any, piece: Any, step: Any, work: Any,
    solvent: Any, tolerance: float, ratio: float, air_c: float,
) -> float:  # fmt: skip
    """Fill ``work``'s candidate state after ``h`` seconds; return the error in units of the tolerance, or infinity.

    ``work`` holds the rates at the start (``f0``, ``x0``), their time derivatives and the derivatives of ``slopes``.
    """
    (
        f0, x0, f_t, x_t, stage, stage_x, there, there_x, now, now_x, right, border, matrix, blocks, by_memory,
        by_state, memory, totals, by_house, new, new_x,
    ) = work  # fmt: skip
    many = len(fields)
    count = nodes.shape[0]
    inverse = 1.0 / (GAMMA * h)
    size = count * (many + 1)
    flat, flat_there = stage.reshape((STAGES, size)), there.reshape(size)
    flat_nodes, flat_rise = nodes.reshape(size), f_t.reshape(size)
    house = step[at.HUMIDITY_KIND] == at.DAMPER
    two_faces = piece[at.LOWER_OPEN] > 0.0
    fold(fields, blocks, by_memory, by_state, memory, inverse, matrix)
    if not factor(fields, matrix):
        return np.inf
    last = count - 1
    per_air, own_slope, fresh_slope, walls_slope, gives, complement = 0.0, 0.0, 0.0, 0.0, 0.0, 1.0
    if house:
        _, _, slope = house_balance(step, air_c, ratio, piece[at.PRESSURE])
        fresh_slope = -step[at.FRESH]
        walls_slope = fresh_slope - slope
        gives = piece[at.LOAD_PER_AREA] * (1.0 + step[at.FLAME])
        per_air = 1.0 / step[at.HOUSE_AIR]
        own_slope = (slope + gives * (by_house[0, many] + by_house[1, many])) * per_air
        for i in range(count):
            for v in range(many):
                border[i, v] = 0.0
        for v in range(many):
            border[last, v] += by_house[1, v]
            border[0, v] += by_house[0, v]
        solve(fields, matrix, border)
        reads = 0.0
        for v in range(many):
            reads += totals[1, 0, v] * border[last, v] + totals[0, 0, v] * border[0, v]
        complement = inverse - own_slope - gives * per_air * reads
    for s in range(STAGES):
        source, source_x = now, now_x
        if AT_START[s]:
            source, source_x = f0, x0
        elif FRESH[s]:
            for k in range(size):
                flat_there[k] = flat_nodes[k]
            for j in range(s):
                if A[s, j] != 0.0:
                    for k in range(size):
                        flat_there[k] += A[s, j] * flat[j, k]
            for i in range(count):
                if not there[i, at.X] > 0.0:
                    return np.inf
            there_x[at.HOUSE] = extra[at.HOUSE]
            for j in range(s):
                there_x[at.HOUSE] += A[s, j] * stage_x[j, at.HOUSE]
            rates(fields, time_s + ALPHA[s] * h, there, there_x, grid, piece, step, now, now_x, solvent)
        weight = TIME_WEIGHT[s] * h
        flat_source = source.reshape(size)
        for k in range(size):
            flat[s, k] = flat_source[k] + weight * flat_rise[k]
        for j in range(s):
            by = C[s, j] / h
            if by != 0.0:
                for k in range(size):
                    flat[s, k] += by * flat[j, k]
        for i in range(count):
            for v in range(many):
                right[i, v] = stage[s, i, v]
        for i in range(count):
            own = stage[s, i, many] / (inverse - memory[i, 1])
            if own != 0.0:
                for v in range(many):
                    right[i, v] += by_memory[i, OWN, v] * own
                    if i > 0:
                        right[i - 1, v] += by_memory[i, BEFORE, v] * own
                    if i < last:
                        right[i + 1, v] += by_memory[i, AFTER, v] * own
        solve(fields, matrix, right)
        for k in range(at.EXTRAS):
            value = source_x[k] + weight * x_t[k]
            for j in range(s):
                value += C[s, j] / h * stage_x[j, k]
            stage_x[s, k] = value
        moved = 0.0
        if house:
            reads = 0.0
            for v in range(many):
                reads += totals[1, 0, v] * right[last, v] + totals[0, 0, v] * right[0, v]
            moved = (stage_x[s, at.HOUSE] + gives * per_air * reads) / complement
            for i in range(count):
                for v in range(many):
                    right[i, v] += border[i, v] * moved
        for i in range(count):
            by = 0.0
            for v in range(many):
                stage[s, i, v] = right[i, v]
                by += by_state[i, 0, v] * right[i, v]
            stage[s, i, many] = (stage[s, i, many] + memory[i, 0] * by) / (inverse - memory[i, 1])
        stage_x[s, at.HOUSE] = moved
        vapour_before = stage_x[s, at.VAPOUR]
        for k in range(at.FACE_EXTRAS):
            value = stage_x[s, at.VAPOUR + k]
            for v in range(many + 1):
                value += totals[1, k, v] * stage[s, last, v]
                if two_faces:
                    value += totals[0, k, v] * stage[s, 0, v]
            stage_x[s, at.VAPOUR + k] = value
        if house:
            by_air = by_house[0, many] + by_house[1, many]
            stage_x[s, at.VAPOUR] += by_air * moved
            # the heat that this vapour takes: the border's own row of enthalpy, per node mass
            stage_x[s, at.HEAT_OUT] -= moved * (
                by_house[1, at.H] * grid[at.MASS, last] + by_house[0, at.H] * grid[at.MASS, 0]
            )
            change = stage_x[s, at.VAPOUR] - vapour_before
            stage_x[s, at.VENTED] += fresh_slope * moved
            stage_x[s, at.CONDENSED] += walls_slope * moved
            stage_x[s, at.STEAMED] += step[at.FLAME] * piece[at.LOAD_PER_AREA] * change
        for k in range(at.VAPOUR, at.EXTRAS):
            stage_x[s, k] /= inverse
    worst = 0.0
    for i in range(count):
        for v in range(many + 1):
            value, error = nodes[i, v], 0.0
            for s in range(STAGES):
                value += B[s] * stage[s, i, v]
                error += E[s] * stage[s, i, v]
            new[i, v] = value
            if v == at.X:
                scale = abs(value) + WATER_OFFSET
            elif v == at.H:
                scale = KELVIN_PER_TOLERANCE / by_state[i, 0, at.H]
            elif v == many:
                scale = MEMORY_SCALE
            else:
                scale = abs(value) + SOLUTE_OFFSET
            size = abs(error) / scale
            if not size <= worst:
                worst = size
        if not new[i, at.X] > DRIEST:
            return np.inf
    for k in range(at.EXTRAS):
        value = extra[k]
        for s in range(STAGES):
            value += B[s] * stage_x[s, k]
        new_x[k] = value
    if house:
        error = 0.0
        for s in range(STAGES):
            error += E[s] * stage_x[s, at.HOUSE]
        size = abs(error) / (abs(new_x[at.HOUSE]) + HOUSE_OFFSET)
        if not size <= worst:
            worst = size
    if not worst >= 0.0:
        return np.inf
    return worst / tolerance


COMPILABLE = (attempt,)
