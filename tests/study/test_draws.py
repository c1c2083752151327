"""Draws are stratified, repeatable, and one quantity's do not move another's."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from pellicle.study.draws import Prior, draw


def test_the_same_prior_gives_the_same_draws():
    first, second = (draw({"a": Prior(1.0, 0.1)}, 200)["a"] for _ in range(2))

    assert np.array_equal(first, second)


def test_a_further_quantity_does_not_move_the_others():
    alone = draw({"a": Prior(1.0, 0.1)}, 200)["a"]
    together = draw({"b": Prior(5.0, 1.0), "a": Prior(1.0, 0.1)}, 200)["a"]

    assert np.array_equal(alone, together)


def test_quantities_are_not_correlated():
    values = draw({"a": Prior(0.0, 1.0), "b": Prior(0.0, 1.0)}, 4096)

    assert abs(np.corrcoef(values["a"], values["b"])[0, 1]) < 0.05


@given(st.floats(-5, 5), st.floats(0.01, 3))
def test_quantiles_are_those_of_the_normal_distribution(centre: float, spread: float):
    values = draw({"x": Prior(centre, spread)}, 1000)["x"]

    # 95 % point of the standard normal distribution: 1.6449, any printed table
    assert abs(np.quantile(values, 0.95) - (centre + 1.6449 * spread)) < 0.01 * spread


def test_a_half_normal_is_one_sided_and_bounds_hold():
    drip = draw({"drip": Prior(0.0, 0.2, "half-normal", 0.0, 0.3)}, 1000)["drip"]

    assert drip.min() >= 0
    assert drip.max() == 0.3


def test_a_certain_quantity_does_not_vary():
    assert set(draw({"x": Prior(0.4, 0.2, "none")}, 50)["x"]) == {0.4}
