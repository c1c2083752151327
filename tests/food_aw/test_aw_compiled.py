"""The model's one body gives the same value as a Python float, as an array and compiled."""

from __future__ import annotations

import numpy as np
import pytest

from pellicle.food import water_model as model
from pellicle.food.electrolytes import VIRIALS
from pellicle.food.water_activity import COMPILABLE, AwInputs, AwParameters, aw, aw_scalar

RANDOM = 20260101
COUNT = 300


def mixtures() -> tuple[AwInputs, AwParameters]:
    draws = np.random.default_rng(RANDOM)
    some = draws.random(COUNT) > 0.2
    potassium = VIRIALS["potassium chloride"]
    return AwInputs(
        water=10 ** draws.uniform(-3, 1, COUNT),
        protein=some * draws.uniform(0.0, 1.0, COUNT),
        muscle=some * draws.uniform(0.0, 1.0, COUNT),
        salt_mol=draws.uniform(0.0, 2.0, COUNT),
        sugar_mol=draws.uniform(0.0, 2.0, COUNT),
        root_k=draws.uniform(1.0, 2.6, COUNT),
        other_osmol=draws.uniform(0.0, 0.1, COUNT),
        salt_b0=draws.uniform(potassium.b0, model.NACL_B0, COUNT),
        salt_b1=draws.uniform(potassium.b1, model.NACL_B1, COUNT),
        salt_c=draws.uniform(potassium.c, model.NACL_C, COUNT),
    ), AwParameters(draws.uniform(0.7, 1.1, COUNT), draws.uniform(1.0, 2.0, COUNT), draws.uniform(-0.05, 0.05, COUNT))


def rows(read: AwInputs, parameters: AwParameters) -> list[tuple[float, ...]]:
    columns = [read.water, read.protein, read.muscle, read.salt_mol, read.sugar_mol, read.root_k, read.other_osmol]
    columns += [parameters.protein_water_factor, parameters.intrinsic_osmol_per_kg_protein]
    columns += [parameters.salt_sugar_interaction, np.full(COUNT, -0.1), read.salt_b0, read.salt_b1, read.salt_c]
    return [tuple(float(value) for value in row) for row in np.column_stack(columns)]


def test_single_numbers_give_what_arrays_give() -> None:
    read, parameters = mixtures()
    together = aw(read, parameters, -0.1)
    one_by_one = [aw_scalar(*row) for row in rows(read, parameters)]
    np.testing.assert_allclose(together, one_by_one, rtol=1e-12)


@pytest.mark.slow
def test_the_compiled_scalar_gives_what_arrays_give() -> None:
    numba = pytest.importorskip("numba")
    for function in COMPILABLE:
        numba.extending.register_jitable(function)
    compiled = numba.njit(aw_scalar)
    read, parameters = mixtures()
    together = aw(read, parameters, -0.1)
    np.testing.assert_allclose([compiled(*row) for row in rows(read, parameters)], together, rtol=1e-12)


def test_the_search_ends_long_before_its_bound() -> None:
    """Product-like mixtures take a handful of steps; the bound is for what no one makes."""
    draws = np.random.default_rng(RANDOM)
    water, capacity = draws.uniform(0.1, 0.75, COUNT), draws.uniform(0.15, 0.25, COUNT)
    dissolved = (draws.uniform(0.1, 0.8, COUNT), draws.uniform(0.0, 0.6, COUNT), 2.2, 0.35, 0.0)
    virial = (model.NACL_B0, model.NACL_B1, model.NACL_C)
    state = (model.first_guess(water, capacity), 1e-30 * water, water, np.full(COUNT, 100.0))
    for _ in range(6):
        before = state[0]
        state = model.solvent_step(*state, water, capacity, *dissolved, *virial)
    assert np.all(np.abs(state[0] - before) <= model.TOLERANCE * state[0])


def test_random_extremes_all_come_to_an_end() -> None:
    """A past search circled between two guesses when nearly all the water was the protein's."""
    draws = np.random.default_rng(RANDOM)
    count = 20_000
    water = 10 ** draws.uniform(-6, 3, count)
    capacity = draws.choice([0.0, 1.0], count) * 10 ** draws.uniform(-6, 2, count)
    dissolved = [draws.choice([0.0, 1.0], count) * 10 ** draws.uniform(-9, 2, count) for _ in range(2)]
    osmol = 10 ** draws.uniform(-9, 1, count)
    arguments = (*dissolved, draws.uniform(0, 2.6, count), osmol, draws.uniform(-0.1, 0.1, count))
    virial = (model.NACL_B0, model.NACL_B1, model.NACL_C)
    state = (model.first_guess(water, capacity), 1e-30 * water, water, np.full(count, 100.0))
    for _ in range(model.MOST_STEPS):
        before = state[0]
        state = model.solvent_step(*state, water, capacity, *arguments, *virial)
        if np.all(np.abs(state[0] - before) <= model.TOLERANCE * state[0]):
            return
    raise AssertionError("some mixture was not solved within the bound")
