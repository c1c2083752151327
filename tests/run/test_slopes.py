"""The derivatives written out by hand against differences of the rates, and the whole step's linear algebra."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pellicle.run import layout as at
from pellicle.run.blocks import factor, solve
from pellicle.run.integrate import workspace
from pellicle.run.kernel import derivatives
from pellicle.run.rates import rates
from pellicle.run.setup import Air, RunSetup, RunStep, arrays, move
from pieces_to_run import pork

DAMPER = RunStep("damper", (62.0, 66.0), Air(fresh_kg_s=0.01, fresh_ratio=0.008, volume_m3=8.0), 20.0, 600.0)


def mixed_up(drag: float, uniform: bool, below: float) -> RunSetup:
    film = {} if uniform else {"film_depth_m": 7e-4, "loaded": (0.3, 0.04, 0.1)}
    return replace(
        pork(steps=(DAMPER,), open_share_below=below, load_kg=80.0, house_ratio=0.08, cells=4, uniform=uniform, **film),
        move=move({"solute_drag": drag}),
    )


@pytest.mark.parametrize(("drag", "uniform"), [(-1.0, False), (0.0, False), (1.0, False), (-1.0, True)])
@pytest.mark.parametrize("below", [0.0, 0.6, 1.0])
def test_written_out_slopes_are_those_of_the_rates(drag: float, uniform: bool, below: float) -> None:
    given = arrays(mixed_up(drag, uniform, below))
    count, width = given.nodes.shape
    many = width - 1
    nodes = given.nodes.copy()
    nodes[:, at.X] *= np.linspace(1.0, 0.7, count)
    nodes[:, at.H] *= np.linspace(11.0, 12.0, count)
    nodes[:, many] = np.linspace(0.05, 0.16, count)
    work = workspace(count, many)
    solvent, counts, faces = np.zeros(count + 3), np.zeros(at.COUNTERS, dtype=np.int64), np.zeros(2)
    step, extra = given.steps[0], given.extra
    derivatives(given.fields, 5.0, nodes, extra, given.grid, given.piece, step, work, solvent, counts, faces)
    blocks, by_memory, by_house = work[13], work[14], work[17 + 1]

    def change(i: int, v: int) -> np.ndarray:
        size = 1e-6 * max(abs(nodes[i, v]), 0.1)
        found = []
        for sign in (1.0, -1.0):
            moved = nodes.copy()
            moved[i, v] += sign * size
            out, out_extra = np.zeros_like(nodes), np.zeros(at.EXTRAS)
            rates(given.fields, 5.0, moved, extra, given.grid, given.piece, step, out, out_extra, solvent)
            found.append(out)
        slope: np.ndarray = (found[0] - found[1]) / (2.0 * size)
        return slope

    scale = np.array([1.0, 4e5, 1.0, 1.0])[:many]
    for i in range(count):
        for v in range(width):
            slope = change(i, v)
            for b, j in ((1, i), (2, i - 1), (0, i + 1)):
                if 0 <= j < count:
                    written = blocks[j, b, :, v] if v < many else by_memory[i, (1, 0, 2)[(1, 2, 0).index(b)]]
                    unit = scale[v] if v < many else 1.0
                    np.testing.assert_allclose(
                        written * unit / scale, slope[j, :many] * unit / scale, atol=2e-7, rtol=2e-5
                    )
    assert by_house[1, at.X] > 0.0


def test_blocks_are_solved_as_a_full_matrix_is() -> None:
    draw = np.random.default_rng(3)
    count, many = 6, 4
    matrix = draw.normal(size=(count, 3, many, many))
    matrix[:, 1] += 8.0 * np.eye(many)
    full = np.zeros((count * many, count * many))
    for i in range(count):
        for b, j in ((0, i - 1), (1, i), (2, i + 1)):
            if 0 <= j < count:
                full[i * many : (i + 1) * many, j * many : (j + 1) * many] = matrix[i, b]
    right = draw.normal(size=(count, many))
    expected = np.linalg.solve(full, right.ravel()).reshape(count, many)
    assert factor((0.0,) * many, matrix)
    solve((0.0,) * many, matrix, right)
    np.testing.assert_allclose(right, expected, rtol=1e-10, atol=1e-12)
