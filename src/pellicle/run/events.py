"""What ends a step: how far the piece still is from the nearest of the things the step waits for."""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.air.humid import wet_bulb_c
from pellicle.run import layout as at
from pellicle.run.face_water import node_aw
from pellicle.run.rates import heat_capacity, solutes_at

MEAN = 2  # place of the mean composition's guess among the solvent waters; every node's own come after it
NODES = 3


def waits(step: Any) -> bool:
    """Return whether a step waits for anything but time."""
    for k in range(at.UNTIL_CORE, at.UNTIL_GAP + 1):  # noqa: SIM110 - a loop the compiler knows
        if not np.isnan(step[k]):
            return True
    return False


def short_of(fields: Any, nodes: Any, grid: Any, piece: Any, step: Any, solvent: Any) -> tuple[float, int]:
    """Return how far the nearest end is away, at most 0 once it is reached, and which it is.

    Core temperature in K over 100 K, weight in shares of the marinated weight, mean water activity and gap as they are.
    """
    nearest, which = np.inf, at.TIME
    if not np.isnan(step[at.UNTIL_CORE]):
        far = (step[at.UNTIL_CORE] - core_c(fields, nodes, piece)) / KELVIN
        if far < nearest:
            nearest, which = far, at.CORE
    if not np.isnan(step[at.UNTIL_WEIGHT]):
        far = weight_share(fields, nodes, grid, piece) - step[at.UNTIL_WEIGHT]
        if far < nearest:
            nearest, which = far, at.WEIGHT
    if not np.isnan(step[at.UNTIL_AW]):
        far = mean_aw(fields, nodes, grid, piece, solvent) - step[at.UNTIL_AW]
        if far < nearest:
            nearest, which = far, at.AW
    if not np.isnan(step[at.UNTIL_GAP]):
        far = aw_gap(fields, nodes, piece, solvent) - step[at.UNTIL_GAP]
        if far < nearest:
            nearest, which = far, at.GAP_REACHED
    return nearest, which


def core_c(fields: Any, nodes: Any, piece: Any) -> float:
    """Return the temperature at the middle of the piece, C."""
    i = int(piece[at.MIDDLE])
    salts, sugars = solutes_at(fields, nodes, i, piece)
    return nodes[i, at.H] / heat_capacity(nodes[i, at.X], salts, sugars, piece)  # type: ignore[no-any-return]


def weight_share(fields: Any, nodes: Any, grid: Any, piece: Any) -> float:
    """Return the mass now as share of the marinated mass."""
    total = 0.0
    for i in range(nodes.shape[0]):
        salts, sugars = solutes_at(fields, nodes, i, piece)
        total += grid[at.MASS, i] * (1.0 + nodes[i, at.X] + salts + sugars)
    return total / piece[at.GREEN]  # type: ignore[no-any-return]


def mean_aw(fields: Any, nodes: Any, grid: Any, piece: Any, solvent: Any) -> Any:
    """Return the water activity of the mean composition: that of the piece once it has come to rest."""
    water, salts, sugars = 0.0, 0.0, 0.0
    for i in range(nodes.shape[0]):
        own_salts, own_sugars = solutes_at(fields, nodes, i, piece)
        water += grid[at.MASS, i] * nodes[i, at.X]
        salts += grid[at.MASS, i] * own_salts
        sugars += grid[at.MASS, i] * own_sugars
    matrix = piece[at.MATRIX]
    found, solvent[MEAN] = node_aw(water / matrix, salts / matrix, sugars / matrix, piece, solvent[MEAN])
    return found


def aw_gap(fields: Any, nodes: Any, piece: Any, solvent: Any) -> Any:
    """Return the widest difference of water activity between nodes."""
    low, high = np.inf, -np.inf
    for i in range(nodes.shape[0]):
        salts, sugars = solutes_at(fields, nodes, i, piece)
        found, solvent[NODES + i] = node_aw(nodes[i, at.X], salts, sugars, piece, solvent[NODES + i])
        low, high = min(low, found), max(high, found)
    return high - low


def read_rows(fields: Any, states: Any, air: Any, grid: Any, piece: Any, first: int, columns: Any, outer: Any) -> None:
    """Fill, for every row of a trace, core and both faces [C], weight share, mean water activity and wet bulb [C].

    ``air`` are the kernel's own columns; ``columns`` (rows, 6); ``outer`` (rows, nodes, 2): temperature [C] and water
    activity from node ``first`` on.
    """
    count = states.shape[1]
    solvent = np.zeros(NODES + count)
    for row in range(states.shape[0]):
        nodes = states[row]
        columns[row, 0] = core_c(fields, nodes, piece)
        for side in range(2):
            i = side * (count - 1)
            salts, sugars = solutes_at(fields, nodes, i, piece)
            columns[row, 1 + side] = nodes[i, at.H] / heat_capacity(nodes[i, at.X], salts, sugars, piece)
        columns[row, 3] = weight_share(fields, nodes, grid, piece)
        columns[row, 4] = mean_aw(fields, nodes, grid, piece, solvent)
        columns[row, 5] = wet_bulb_c(air[row, 2], air[row, 3], piece[at.PRESSURE])
        for i in range(first, count):
            salts, sugars = solutes_at(fields, nodes, i, piece)
            outer[row, i - first, 0] = nodes[i, at.H] / heat_capacity(nodes[i, at.X], salts, sugars, piece)
            outer[row, i - first, 1], solvent[NODES + i] = node_aw(
                nodes[i, at.X], salts, sugars, piece, solvent[NODES + i]
            )


KELVIN = 100.0  # K for which a unit of distance stands

COMPILABLE = (waits, short_of, core_c, weight_share, mean_aw, aw_gap)
