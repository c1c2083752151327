"""Grids and mixtures of a piece."""

from __future__ import annotations

import numpy as np
import pytest

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.piece.cookout import cookout_share, memory_rate
from pellicle.piece.grid import half_grid, whole_grid
from pellicle.piece.mixture import mixture

LEAN = Composition(water=74.0, protein=22.0, fat=2.9, ash=1.1, muscle=22.0, solutes={"salt": 2.0, "glycerol": 3.0})


@pytest.mark.parametrize("ratio", [0.0, 1.0, 4.0])
def test_control_volumes_fill_the_piece(ratio: float) -> None:
    for grid in (half_grid(8, ratio), whole_grid(8, ratio), whole_grid(8, ratio, one_sided=True)):
        assert grid.share.sum() == pytest.approx(1.0)
        assert (np.diff(grid.at) > 0.0).all()


@pytest.mark.parametrize("one_sided", [False, True])
def test_a_node_stands_exactly_in_the_middle(one_sided: bool) -> None:
    grid = whole_grid(9, 2.0, one_sided)
    assert grid.at[grid.middle] == 0.5


def test_a_grid_is_finest_at_the_face() -> None:
    gaps = np.diff(half_grid(10, 2.0).at)
    assert gaps[0] / gaps[-1] == pytest.approx(np.exp(2.0))


def test_a_mixture_weighs_what_went_into_it() -> None:
    made = mixture(LEAN)
    matrix = 22.0 + 2.9 + 1.1
    assert made.green * matrix == pytest.approx(float(LEAN.total))
    assert made.salts * matrix == pytest.approx(2.0)
    assert made.sugars * matrix == pytest.approx(3.0)
    assert made.sugar.volume == pytest.approx(1.0 / 1260.0)


def test_a_piece_without_protein_is_none() -> None:
    with pytest.raises(InputError, match="protein"):
        mixture(Composition(water=10.0, solutes={"salt": 1.0}))


def test_the_memory_of_cooking_never_falls() -> None:
    hot, cool = float(cookout_share(70.0)), float(cookout_share(40.0))
    assert memory_rate(hot, cool, 0.05) > 0.0
    assert memory_rate(cool, hot, 0.05) == 0.0
