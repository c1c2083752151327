"""The water activity model at 25 C: one set of relations for a float, an array and the compiled kernel.

Protein holds some of the water back (``sorption``); what is left dissolves salts (``electrolytes``), sugars and polyols
(``sugars``), meat's own small solutes and other osmoles. Their effects on ln aw add up. The unknown is the solvent
water; a guarded Newton step finds it, and ``water_activity`` repeats the same step on arrays.
Read ``log_aw_solution`` first, then ``aw_scalar``.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.food.electrolytes import CONTINUED_SLOPE as PHI_RISE
from pellicle.food.electrolytes import (
    PITZER_EDGE,
    SODIUM_CHLORIDE,
    WATER_MOLAR_MASS,
    osmotic_coefficient,
    osmotic_coefficient_continued,
    osmotic_slope,
)
from pellicle.food.sorption import PROTEIN, gab_aw, gab_slope, gab_water
from pellicle.food.sugars import log_aw_norrish
from pellicle.relation import relation

NACL_B0, NACL_B1, NACL_C = SODIUM_CHLORIDE.b0, SODIUM_CHLORIDE.b1, SODIUM_CHLORIDE.c
PROTEIN_MONOLAYER, PROTEIN_C, PROTEIN_K = PROTEIN.monolayer, PROTEIN.c, PROTEIN.k

# The least water activity the model gives out: below it nothing of the model is known (review, section 8).
AW_FLOOR = 0.02
# The salt-sugar cross term stops growing here, mol/kg: the end of what is known of either (review, section 3.1).
CROSS_SALT_EDGE = PITZER_EDGE
CROSS_SUGAR_EDGE = 6.0
# Where the search starts: roughly what protein holds at aw 0.82, kg/kg, and the least share of the water to dissolve.
START_HELD = 0.24
START_LEAST = 0.05
# How far below the upper end of the bracket the search goes when Newton's step leaves it, and the least solvent sought,
# as share of the water: the protein alone decides there.
BISECT_FLOOR = 1e-4
SOLVENT_FLOOR = 1e-30
# How far, as a ratio in logarithms, the first step may go, and every step however short the one before.
FIRST_REACH = 100.0
LEAST_REACH = 1e-9
# Two successive values that agree to this, relative, are the answer; a bound that no tried input comes near.
TOLERANCE = 1e-13
MOST_STEPS = 100
TINY = 1e-300

MODEL_SOURCES = ("aw-model-review", "pitzer-mayorga-1973", "chirife-1980", "brine-droplets-memory")


@relation(MODEL_SOURCES, valid={"result": (-0.29, 0.0)})
def log_aw_solution(
    solvent: Quantity,
    salt_mol: Quantity,
    sugar_mol: Quantity,
    root_k: Quantity,
    osmol: Quantity,
    interaction: Quantity,
    salt_b0: Quantity,
    salt_b1: Quantity,
    salt_c: Quantity,
) -> Quantity:
    """Return ln aw of salts, sugars and other osmoles dissolved together.

    ln aw = -2 Mw mN phi(mN) + ln aw_sugars(mS) - Mw n/w - 2 Mw L mN mS, each at its own molality in all the solvent.

    ``solvent`` [kg], ``salt_mol`` [mol] of 1:1 salts, ``sugar_mol`` [mol] of sugars and polyols, ``root_k`` [1] their
    mole-weighted mean square root of the Norrish constants, ``osmol`` [osmol] of the rest, ``interaction`` [kg/mol],
    mole-weighted Pitzer coefficients of the salts ``salt_b0`` [kg/mol], ``salt_b1`` [kg/mol] and ``salt_c`` [kg2/mol2].
    Floats or arrays. Valid for aw 0.75 to 1, up to 6 mol/kg of salt and of sucrose. A brine of
    3 mol/kg reads 0.8932 by the tables of Robinson and Stokes (from memory).

    >>> round(float(np.exp(log_aw_solution(1.0, 3.0, 0.0, 0.0, 0.0, 0.0, NACL_B0, NACL_B1, NACL_C))), 3)
    0.893
    """
    salt = salt_mol / solvent
    sugar = sugar_mol / solvent
    osmotic = osmotic_coefficient_continued(salt, salt_b0, salt_b1, salt_c)
    cross = interaction * np.minimum(salt, CROSS_SALT_EDGE) * np.minimum(sugar, CROSS_SUGAR_EDGE)
    ideal = 2.0 * salt * osmotic + osmol / solvent + 2.0 * cross
    return log_aw_norrish(sugar, root_k) - WATER_MOLAR_MASS * ideal


@relation("own-arithmetic", valid={"solvent": (TINY, 1e9), "result": (0.0, 1e9)})
def log_aw_rise(
    solvent: Quantity,
    salt_mol: Quantity,
    sugar_mol: Quantity,
    root_k: Quantity,
    osmol: Quantity,
    interaction: Quantity,
    salt_b0: Quantity,
    salt_b1: Quantity,
    salt_c: Quantity,
) -> Quantity:
    """Return d(ln aw)/d(ln solvent) of ``log_aw_solution``, from the same arguments. Own arithmetic.

    ``solvent`` [kg], ``salt_mol`` [mol] of 1:1 salts, ``sugar_mol`` [mol] of sugars and polyols, ``root_k`` [1] their
    mole-weighted mean square root of the Norrish constants, ``osmol`` [osmol] of the rest, ``interaction`` [kg/mol],
    mole-weighted Pitzer coefficients of the salts ``salt_b0`` [kg/mol], ``salt_b1`` [kg/mol] and ``salt_c`` [kg2/mol2].

    >>> mix = (2.0, 1.0, 2.5, 0.3, 0.02, NACL_B0, NACL_B1, NACL_C)
    >>> step = (log_aw_solution(1.0001, *mix) - log_aw_solution(0.9999, *mix)) / 2e-4
    >>> round(float(step), 6) == round(float(log_aw_rise(1.0, *mix)), 6)
    True
    """
    salt = salt_mol / solvent
    sugar = sugar_mol / solvent
    inside = np.minimum(salt, PITZER_EDGE)
    beyond = salt - inside
    osmotic = osmotic_coefficient(inside, salt_b0, salt_b1, salt_c) + PHI_RISE * beyond
    below_edge = 1.0 * (beyond <= 0.0)
    bend = below_edge * osmotic_slope(inside, salt_b0, salt_b1, salt_c) + (1.0 - below_edge) * PHI_RISE * salt
    amount = WATER_MOLAR_MASS * sugar
    share = amount / (1.0 + amount)
    norrish = share + 2.0 * root_k * root_k * share * share / (1.0 + amount)
    cross = interaction * np.minimum(salt, CROSS_SALT_EDGE) * np.minimum(sugar, CROSS_SUGAR_EDGE)
    growing = 1.0 * (salt < CROSS_SALT_EDGE) + 1.0 * (sugar < CROSS_SUGAR_EDGE)
    return norrish + WATER_MOLAR_MASS * (2.0 * salt * (osmotic + bend) + osmol / solvent + 2.0 * cross * growing)


@relation("own-arithmetic", valid={"solvent": (TINY, 1e9), "water": (TINY, 1e9)})
def solvent_step(
    solvent: Quantity,
    low: Quantity,
    high: Quantity,
    reach: Quantity,
    water: Quantity,
    capacity: Quantity,
    salt_mol: Quantity,
    sugar_mol: Quantity,
    root_k: Quantity,
    osmol: Quantity,
    interaction: Quantity,
    salt_b0: Quantity,
    salt_b1: Quantity,
    salt_c: Quantity,
) -> tuple[Quantity, Quantity, Quantity, Quantity]:
    """Return the next guess of the solvent water, its bracket and its reach: one guarded Newton step in logarithms.

    Solvent water plus what the protein holds at that solution's aw is the water there is. Where Newton leaves the
    bracket, or steps further than its reach (half its step before, as a ratio in logarithms), the bracket's geometric
    middle is taken instead, so that it cannot circle. Own arithmetic: without protein all the water dissolves.

    ``low``, ``high`` and ``water`` [kg], ``reach`` [1], ``capacity`` [kg] of protein times its water factor,
    ``solvent`` [kg], ``salt_mol`` [mol] of 1:1 salts, ``sugar_mol`` [mol] of sugars and polyols, ``root_k`` [1] their
    mole-weighted mean square root of the Norrish constants, ``osmol`` [osmol] of the rest, ``interaction`` [kg/mol],
    mole-weighted Pitzer coefficients of the salts ``salt_b0`` [kg/mol], ``salt_b1`` [kg/mol] and ``salt_c`` [kg2/mol2].

    >>> whole = solvent_step(0.5, 1e-9, 1.0, 9.0, 1.0, 0.0, 3.0, 0.0, 0.0, 0.0, 0.0, NACL_B0, NACL_B1, NACL_C)[0]
    >>> round(float(whole), 12)
    1.0
    """
    log_aw = log_aw_solution(solvent, salt_mol, sugar_mol, root_k, osmol, interaction, salt_b0, salt_b1, salt_c)
    rise = log_aw_rise(solvent, salt_mol, sugar_mol, root_k, osmol, interaction, salt_b0, salt_b1, salt_c)
    aw = np.exp(log_aw)
    total = solvent + capacity * gab_water(aw, PROTEIN_MONOLAYER, PROTEIN_C, PROTEIN_K)
    slope = solvent + capacity * gab_slope(aw, PROTEIN_MONOLAYER, PROTEIN_C, PROTEIN_K) * aw * rise
    short: Any = 1.0 * (total < water)
    low = short * solvent + (1.0 - short) * low
    high = short * high + (1.0 - short) * solvent
    move = np.log(water / total) * total / slope
    newton = solvent * np.exp(np.maximum(np.minimum(move, FIRST_REACH), -FIRST_REACH))
    kept: Any = 1.0 * (newton >= low) * (newton <= high) * (np.abs(move) <= reach)
    middle = np.sqrt(np.maximum(low, BISECT_FLOOR * high) * high)
    then = kept * newton + (1.0 - kept) * middle
    return then, low, high, np.maximum(np.abs(np.log(then / solvent)) / 2.0, LEAST_REACH)


@relation("own-arithmetic", valid={"water": (TINY, 1e9), "result": (TINY, 1e9)})
def first_guess(water: Quantity, capacity: Quantity) -> Quantity:
    """Return where the search for the solvent water starts [kg], from ``water`` [kg] and ``capacity`` [kg protein].

    >>> float(first_guess(1.0, 1.0))
    0.76
    """
    return np.maximum(water - START_HELD * capacity, START_LEAST * water)


@relation("own-arithmetic", valid={"result": (0.75, 1.0)})
def aw_of_solution(log_aw: Quantity, water: Quantity, capacity: Quantity, log_correction: Quantity) -> Quantity:
    """Return the water activity from that of the solution, never above what dry protein alone allows.

    ``log_aw`` [1] of the solution, ``water`` [kg], ``capacity`` [kg protein], ``log_correction`` [1] is added to
    ln(-ln aw). The limit only acts where next to nothing is dissolved and the protein holds all the water. Not below
    0.02.

    >>> round(float(aw_of_solution(float(np.log(0.85)), 1.0, 0.0, -0.1)), 4)
    0.8632
    """
    alone = gab_aw(water / (capacity + TINY), PROTEIN_MONOLAYER, PROTEIN_C, PROTEIN_K)
    log_model = np.minimum(log_aw, np.log(np.maximum(alone, AW_FLOOR)))
    corrected: Quantity = np.maximum(np.exp(np.exp(log_correction) * log_model), AW_FLOOR)
    return corrected


@relation(MODEL_SOURCES, valid={"result": (0.75, 1.0)})
def aw_scalar(
    water: float,
    protein: float,
    muscle: float,
    salt_mol: float,
    sugar_mol: float,
    root_k: float,
    other_osmol: float,
    protein_water_factor: float,
    intrinsic: float,
    interaction: float,
    log_correction: float,
    salt_b0: float = NACL_B0,
    salt_b1: float = NACL_B1,
    salt_c: float = NACL_C,
) -> float:
    """Return the water activity of one composition at 25 C, for people and for the kernel.

    ``water`` [kg], ``protein`` [kg], ``muscle`` [kg] of it that brings meat's own solutes, ``salt_mol`` [mol] of 1:1
    salts, ``sugar_mol`` [mol] of sugars, polyols and fruit acids, ``root_k`` [1] their mole-weighted mean square root
    of the Norrish constants, ``other_osmol`` [osmol], ``protein_water_factor`` [1], ``intrinsic`` [osmol/kg] of
    muscle, ``interaction`` [kg/mol], ``log_correction`` [1] added to ln(-ln aw), mole-weighted Pitzer coefficients of
    the salts ``salt_b0`` [kg/mol], ``salt_b1`` [kg/mol] and ``salt_c`` [kg2/mol2], by default those of sodium
    chloride. Valid for aw 0.75 to 1. Raw beef (72.5 % water, 22.5 % protein) reads 0.991 (published readings are near
    0.99).

    >>> round(float(aw_scalar(0.725, 0.225, 0.225, 0.0, 0.0, 0.0, 0.0, 1.0, 1.45, 0.0, 0.0)), 3)
    0.991
    """
    capacity = protein_water_factor * protein
    osmol = intrinsic * muscle + other_osmol
    solvent: Any = first_guess(water, capacity)
    low: Any = SOLVENT_FLOOR * water
    high: Any = 1.0 * water
    reach: Any = FIRST_REACH
    for _ in range(MOST_STEPS):
        before = solvent
        solvent, low, high, reach = solvent_step(
            solvent, low, high, reach, water, capacity,
            salt_mol, sugar_mol, root_k, osmol, interaction, salt_b0, salt_b1, salt_c,
        )  # fmt: skip
        if abs(solvent - before) <= TOLERANCE * solvent:
            break
    log_aw = log_aw_solution(solvent, salt_mol, sugar_mol, root_k, osmol, interaction, salt_b0, salt_b1, salt_c)
    return aw_of_solution(log_aw, water, capacity, log_correction)  # type: ignore[return-value]


# What a compiler has to know to compile aw_scalar, lowest first.
COMPILABLE: tuple[Callable[..., Any], ...] = (
    osmotic_coefficient,
    osmotic_slope,
    osmotic_coefficient_continued,
    log_aw_norrish,
    gab_water,
    gab_slope,
    gab_aw,
    log_aw_solution,
    log_aw_rise,
    solvent_step,
    first_guess,
    aw_of_solution,
    aw_scalar,
)
