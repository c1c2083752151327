"""The water activity model solved for floats and arrays, forwards (aw from water) and backwards (water from aw)."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import numpy as np

from pellicle.errors import InputError
from pellicle.food import water_model as model
from pellicle.food.aw_inputs import AwInputs, AwParameters
from pellicle.food.composition import Quantity
from pellicle.food.electrolytes import WATER_MOLAR_MASS
from pellicle.food.sorption import PROTEIN, gab_water
from pellicle.food.water_model import AW_FLOOR, FIRST_REACH, MOST_STEPS, SOLVENT_FLOOR, TOLERANCE

# How far from the amount of an ideal solution the solvent can lie, as a ratio in logarithms.
INVERSE_REACH = 20.0


def aw(inputs: AwInputs, parameters: AwParameters, log_correction: Quantity = 0.0) -> Quantity:
    """Return water activity at 25 C, a float for floats and an array for arrays (all arguments broadcast together).

    ``log_correction`` is added to ln(-ln aw): what a product's readings have taught. Pure water gives 1; nothing is
    below 0.02. Valid from 0.75 to 1. InputError if an amount is negative or not finite, or there is no water.
    Robinson and Stokes give 0.8932 for 3 mol of salt in a kg of water (from memory).

    >>> from pellicle.food.aw_inputs import default_parameters
    >>> round(aw(AwInputs(water=1.0, salt_mol=3.0), default_parameters()), 3)
    0.893
    """
    _check(inputs)
    water, capacity, solution = _arguments(inputs, parameters)
    if not isinstance(water, np.ndarray) and np.ndim(log_correction) == 0:
        return float(
            model.aw_scalar(
                water,
                inputs.protein,  # type: ignore[arg-type]
                inputs.muscle,  # type: ignore[arg-type]
                inputs.salt_mol,  # type: ignore[arg-type]
                inputs.sugar_mol,  # type: ignore[arg-type]
                inputs.root_k,  # type: ignore[arg-type]
                inputs.other_osmol,  # type: ignore[arg-type]
                parameters.protein_water_factor,  # type: ignore[arg-type]
                parameters.intrinsic_osmol_per_kg_protein,  # type: ignore[arg-type]
                parameters.salt_sugar_interaction,  # type: ignore[arg-type]
                log_correction,  # type: ignore[arg-type]
                *solution[-3:],
            )
        )
    solvent = solvent_water(inputs, parameters)
    found: Quantity = model.aw_of_solution(model.log_aw_solution(solvent, *solution), water, capacity, log_correction)
    return found


def solvent_water(inputs: AwInputs, parameters: AwParameters) -> Quantity:
    """Return the water that dissolves things, in kg: what the protein does not hold back at the product's own aw."""
    water, capacity, solution = _arguments(inputs, parameters)
    solvent: Any = model.first_guess(water, capacity)
    low, high, reach = SOLVENT_FLOOR * water, 1.0 * water, FIRST_REACH + 0.0 * water
    for _ in range(MOST_STEPS):
        before = solvent
        solvent, low, high, reach = model.solvent_step(solvent, low, high, reach, water, capacity, *solution)
        if np.all(np.abs(solvent - before) <= TOLERANCE * solvent):
            break
    found: Quantity = solvent
    return found


def water_at(
    aw_target: Quantity, inputs: AwInputs, parameters: AwParameters, log_correction: Quantity = 0.0
) -> Quantity:
    """Return the water [kg] at which the product of ``inputs`` (whose own water is ignored) has a water activity.

    The inverse of ``aw``: the solvent in which the solutes reach that aw, plus what the protein holds there.
    Broadcasts. InputError if a target is not between 0.02 and 1 (exclusive). Water for 3 mol of salt at 0.8932, own
    arithmetic on the table of Robinson and Stokes:

    >>> from pellicle.food.aw_inputs import default_parameters
    >>> round(water_at(0.8932, AwInputs(water=1.0, salt_mol=3.0), default_parameters()), 2)
    1.0
    """
    target = np.asarray(aw_target, dtype=float)
    if not np.all((target > AW_FLOOR) & (target < 1.0)):
        raise InputError("food_aw.target", value=f"{float(target.flat[0]):g}", floor=f"{AW_FLOOR:g}")
    _check(inputs)
    water, capacity, solution = _arguments(inputs, parameters)
    salt, sugar, root_k, osmol, interaction, *virial = solution
    depression: Any = -np.log(target) * np.exp(-np.asarray(log_correction, dtype=float)) + 0.0 * water
    amount: Any = 2.0 * salt + sugar + osmol
    nothing = 1.0 * (amount <= 0.0)
    dissolved = (salt, sugar, root_k, osmol + nothing, interaction, *virial)
    solvent: Any = WATER_MOLAR_MASS * (amount + nothing) / depression
    low, high = solvent * np.exp(-INVERSE_REACH), solvent * np.exp(INVERSE_REACH)
    reach: Any = FIRST_REACH + 0.0 * solvent
    for _ in range(MOST_STEPS):
        before = solvent
        solvent, low, high, reach = _dilution_step(solvent, low, high, reach, depression, dissolved)
        if np.all(np.abs(solvent - before) <= TOLERANCE * solvent):
            break
    held = gab_water(np.exp(-depression), PROTEIN.monolayer, PROTEIN.c, PROTEIN.k)
    found = (1.0 - nothing) * solvent + capacity * held
    return found if np.ndim(found) else float(found)


def _dilution_step(
    solvent: Any, low: Any, high: Any, reach: Any, depression: Any, dissolved: tuple[Any, ...]
) -> tuple[Any, Any, Any, Any]:
    """Return the next guess of the solvent at a given -ln aw: the guarded Newton step of the model, on ln(-ln aw)."""
    found = -model.log_aw_solution(solvent, *dissolved)
    strong = found > depression
    low, high = np.where(strong, solvent, low), np.where(strong, high, solvent)
    move = np.log(found / depression) * found / model.log_aw_rise(solvent, *dissolved)
    newton = solvent * np.exp(np.clip(move, -FIRST_REACH, FIRST_REACH))
    kept = (newton >= low) & (newton <= high) & (np.abs(move) <= reach)
    then = np.where(kept, newton, np.sqrt(low * high))
    return then, low, high, np.maximum(np.abs(np.log(then / solvent)) / 2.0, model.LEAST_REACH)


def _arguments(inputs: AwInputs, parameters: AwParameters) -> tuple[Any, Any, tuple[Any, ...]]:
    """Return water, the protein's capacity and the arguments of ``log_aw_solution`` after the solvent."""
    own = parameters.intrinsic_osmol_per_kg_protein * inputs.muscle
    solution = (
        inputs.salt_mol,
        inputs.sugar_mol,
        inputs.root_k,
        own + inputs.other_osmol,
        parameters.salt_sugar_interaction,
        inputs.salt_b0,
        inputs.salt_b1,
        inputs.salt_c,
    )
    capacity = parameters.protein_water_factor * inputs.protein
    shape = np.broadcast_shapes(*(np.shape(value) for value in (inputs.water, capacity, *solution)))
    water = np.broadcast_to(inputs.water, shape) if shape else inputs.water
    return water, capacity, solution


def _check(inputs: AwInputs) -> None:
    for entry in fields(inputs):
        value = getattr(inputs, entry.name)
        if not np.all(np.isfinite(value)):
            raise InputError("food_aw.not_finite", field=entry.name, name=entry.name)
        if entry.name in AMOUNTS and np.any(np.asarray(value) < 0.0):
            raise InputError("food_aw.negative", field=entry.name, name=AMOUNTS[entry.name])
    if not np.all(np.asarray(inputs.water) > 0.0):
        raise InputError("food_aw.no_water", field="water")


# What a negative amount is called in the sentence that refuses it.
AMOUNTS = {
    "water": "water",
    "protein": "protein",
    "muscle": "muscle protein",
    "salt_mol": "salts",
    "sugar_mol": "sugars and polyols",
    "other_osmol": "other dissolved matter",
}
