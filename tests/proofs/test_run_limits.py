"""Where theory has an answer of its own: Crank's slab, a film that spreads, a lumped plate, a wet surface, no flux."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pellicle.food.composition import Composition
from pellicle.piece.diffusion import obstruction, solute_warming
from pellicle.piece.mixture import mixture
from pellicle.run import layout as at
from pellicle.run.setup import Air, RunSetup, RunStep, move
from pellicle.run.simulate import Run, RunOptions, simulate
from pieces_to_run import held, pork

pytestmark = pytest.mark.slow
FINE = RunOptions(tolerance=1e-5)
PLAIN = Composition(water=74.0, protein=22.0, fat=3.0, ash=1.0, muscle=22.0, solutes={"salt": 0.01})
NO_JUICE = {"cookout_factor": 0.0, "drip_speed_m_s": 0.0, "juice_diffusivity": 0.0}


def mean_water(run: Run, row: int) -> float:
    return float(np.sum(run.arrays.grid[at.MASS] * run.trace.states[row][:, at.X]) / run.arrays.piece[at.MATRIX])


def test_uptake_of_a_slab_follows_crank() -> None:
    """Crank, Mathematics of Diffusion: mean uptake at constant surface; a step small enough to be linear."""
    half_m, diffusivity = 2e-3, 5e-11
    start = Composition(water=40.0, protein=22.0, fat=3.0, ash=1.0, muscle=22.0, solutes={"salt": 2.0})
    moves = move({**NO_JUICE, "water_dryness_slope": 0.0, "water_diffusivity_60_c": diffusivity})
    setup = RunSetup(mixture(start), 2.0 * half_m, (), move=moves, start_c=60.0, cells=40)
    rest = RunStep("rest", (60.0, 60.0), Air(sealed=True), 1.0, 1.0)
    before = float(simulate(replace(setup, steps=(rest,))).trace.face_aw[0, 1])

    def after(fourier: float) -> float:
        humidity = before - 1e-4
        step = held("dry", 60.0, fourier * half_m**2 / diffusivity / 60.0, humidity, film=1e5)
        run = simulate(replace(setup, steps=(step,)), FINE)
        return mean_water(run, 0) - mean_water(run, -1)

    whole = after(8.0)
    crank = {0.05: 0.2523, 0.1: 0.3568, 0.2: 0.5041, 0.3: 0.6132, 0.5: 0.7640, 1.0: 0.9313}
    for fourier, share in crank.items():
        assert after(fourier) / whole == pytest.approx(share, abs=0.001)


def test_a_film_of_salt_spreads_as_its_fourier_series() -> None:
    depth, hours = 0.2, (1.0, 3.0, 6.0)
    salt = mixture(PLAIN).salts
    setup = RunSetup(
        mixture(PLAIN), 6e-3, (RunStep("rest", (20.0, 20.0), Air(sealed=True), 10.0, 3600.0 * hours[-1]),),
        move=move(NO_JUICE), start_c=20.0, film_depth_m=6e-4, loaded=(0.0, salt, 0.0), cells=100, log_ratio=0.0,
    )  # fmt: skip
    run = simulate(setup, RunOptions(tolerance=1e-6, longest_s=60.0))
    volume = run.thickness_m / 2.0 / run.arrays.piece[at.MATRIX]
    share = mixture(PLAIN).water * 1e-3 / volume
    diffusivity = 2e-10 * float(solute_warming(20.0, 25e3)) * float(obstruction(share))
    n = np.arange(1, 400)
    for hour in hours:
        row = int(np.argmin(np.abs(run.trace.time_s - 3600.0 * hour)))
        decay = np.exp(-((n * np.pi) ** 2) * diffusivity * run.trace.time_s[row] / (run.thickness_m / 2.0) ** 2)
        weights = 2.0 * np.sin(n * np.pi * depth) / (n * np.pi * depth) * decay
        face, middle = 1.0 + weights.sum(), 1.0 + (weights * np.cos(n * np.pi)).sum()
        nodes = run.trace.states[row]
        assert nodes[-1, at.S1] / salt == pytest.approx(face, abs=2e-3)
        assert nodes[0, at.S1] / salt == pytest.approx(middle, abs=2e-3)


def test_a_thin_sealed_plate_warms_as_one_lump() -> None:
    rest = RunStep("warm", (50.0, 50.0), Air(sealed=True), 5.0, 900.0)
    run = simulate(pork(thickness_m=1e-3, steps=(rest,)), FINE)
    nodes, piece = run.trace.states[0], run.arrays.piece
    per_area = piece[at.MATRIX] * nodes[0, at.H] / 5.0
    expected = 50.0 - 45.0 * np.exp(-5.0 * run.trace.time_s / per_area)
    np.testing.assert_allclose(run.trace.core_c, expected, atol=0.15)


def test_nothing_moves_where_nothing_drives() -> None:
    rest = RunStep("rest", (20.0, 20.0), Air(sealed=True), 10.0, 1e5)
    run = simulate(replace(pork(steps=(rest,)), start_c=20.0), FINE)
    np.testing.assert_allclose(run.trace.states[-1], run.trace.states[0], rtol=1e-9)
    assert run.losses.vapour == 0.0


@pytest.mark.parametrize(
    ("air_c", "humidity", "expected"),
    [
        (43.0, 0.25, 25.41), (57.0, 0.35, 39.45), (60.0, 0.25, 37.35), (66.0, 0.35, 46.57),
        (68.0, 0.35, 48.17), (79.0, 0.35, 57.03), (75.0, 0.15, 41.27), (68.0, 0.05, 28.36),
    ],
)  # fmt: skip
def test_a_wet_piece_rests_where_heat_and_vapour_balance(air_c: float, humidity: float, expected: float) -> None:
    """The balance solved by itself (own table); nearly pure water on a trace of protein, so that its aw is 1."""
    water = Composition(water=99.0, protein=0.5, ash=0.5, solutes={})
    setup = RunSetup(
        mixture(water), 6e-3, (held("dry", air_c, 60, humidity),), move=move(NO_JUICE), start_c=25.0, cells=12
    )
    assert simulate(setup, FINE).trace.face_c[-1, 1] == pytest.approx(expected, abs=0.02)
