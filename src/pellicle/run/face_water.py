"""Water activity at a node as the kernel needs it: solved from a near guess, with its derivatives.

The relations are those of ``food.water_model``; only the loop is ours, because a step knows a good first guess.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from pellicle.food.sorption import PROTEIN, gab_aw, gab_slope
from pellicle.food.water_model import (
    AW_FLOOR,
    FIRST_REACH,
    MOST_STEPS,
    SOLVENT_FLOOR,
    TOLERANCE,
    aw_of_solution,
    first_guess,
    log_aw_rise,
    log_aw_solution,
    solvent_step,
)
from pellicle.run import layout as at
from pellicle.run.layout import Scalar

MONOLAYER, GAB_C, GAB_K = PROTEIN.monolayer, PROTEIN.c, PROTEIN.k
# How far, relative, an amount of solute is moved to see what it does.
NUDGE = 1e-6


def node_aw(water: Scalar, salts: Scalar, sugars: Scalar, piece: Any, guess: Scalar) -> tuple[Scalar, Scalar]:
    """Return the water activity of a node and its solvent water (the next guess), per kg of matrix."""
    capacity = piece[at.CAPACITY]
    salt, sugar = piece[at.SALT_MOL] * salts, piece[at.SUGAR_MOL] * sugars
    osmol = piece[at.OSMOL] + piece[at.OSMOL_SALT] * salts
    root_k, cross, b0, b1, c = piece[at.ROOT_K], piece[at.INTERACTION], piece[at.B0], piece[at.B1], piece[at.C]
    low: Scalar = SOLVENT_FLOOR * water
    high: Scalar = water
    reach: Scalar = FIRST_REACH
    solvent: Scalar = guess if low < guess < high else first_guess(water, capacity)
    for _ in range(MOST_STEPS):
        before = solvent
        solvent, low, high, reach = solvent_step(
            solvent, low, high, reach, water, capacity, salt, sugar, root_k, osmol, cross, b0, b1, c
        )
        if abs(solvent - before) <= TOLERANCE * solvent:
            break
    log_aw = log_aw_solution(solvent, salt, sugar, root_k, osmol, cross, b0, b1, c)
    activity: Scalar = aw_of_solution(log_aw, water, capacity, piece[at.LOG_CORRECTION])
    # below the model's floor dry protein alone decides, or a face would go on drying when there is nothing left
    if activity <= AW_FLOOR:
        activity = min(activity, gab_aw(water / capacity, MONOLAYER, GAB_C, GAB_K))
    return activity, solvent


def node_aw_slopes(
    water: Scalar, salts: Scalar, sugars: Scalar, piece: Any, activity: Scalar, solvent: Scalar
) -> tuple[Scalar, Scalar, Scalar]:
    """Return d aw / d water, d salts and d sugars at the solution that ``node_aw`` found."""
    capacity = piece[at.CAPACITY]
    if activity < AW_FLOOR:
        return 1.0 / (capacity * gab_slope(activity, MONOLAYER, GAB_C, GAB_K)), 0.0, 0.0
    if activity <= AW_FLOOR:
        return 0.0, 0.0, 0.0
    salt, sugar = piece[at.SALT_MOL] * salts, piece[at.SUGAR_MOL] * sugars
    osmol = piece[at.OSMOL] + piece[at.OSMOL_SALT] * salts
    root_k, cross, b0, b1, c = piece[at.ROOT_K], piece[at.INTERACTION], piece[at.B0], piece[at.B1], piece[at.C]
    log_aw = log_aw_solution(solvent, salt, sugar, root_k, osmol, cross, b0, b1, c)
    rise = log_aw_rise(solvent, salt, sugar, root_k, osmol, cross, b0, b1, c) / solvent
    own = np.exp(log_aw)
    held = capacity * gab_slope(own, MONOLAYER, GAB_C, GAB_K) * own
    by_log = activity * np.exp(piece[at.LOG_CORRECTION])
    gives = 1.0 / (1.0 + held * rise)
    more = NUDGE * (salts + NUDGE)
    salted = log_aw_solution(
        solvent, salt + piece[at.SALT_MOL] * more, sugar, root_k, osmol + piece[at.OSMOL_SALT] * more, cross, b0, b1, c
    )
    by_salt = (salted - log_aw) / more
    more = NUDGE * (sugars + NUDGE)
    sweetened = log_aw_solution(solvent, salt, sugar + piece[at.SUGAR_MOL] * more, root_k, osmol, cross, b0, b1, c)
    by_sugar = (sweetened - log_aw) / more
    return by_log * rise * gives, by_log * by_salt * gives, by_log * by_sugar * gives


COMPILABLE = (node_aw, node_aw_slopes)
