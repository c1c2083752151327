"""The stepper against two integrators of SciPy on the same rates, over random schedules; its order; symmetry;
monotony."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pellicle.run import layout as at
from pellicle.run.integrate import run_arrays
from pellicle.run.setup import RunSetup, arrays, move
from pellicle.run.simulate import RunOptions, simulate
from pellicle.run.with_scipy import integrate_with_scipy
from pieces_to_run import DRY, MIX, held, pork, random_setup

pytestmark = pytest.mark.slow
FINE = RunOptions(tolerance=1e-5)
STILL = {"cookout_factor": 0.0}


def agrees(setup: RunSetup, method: str, relative: float) -> None:
    given = arrays(setup)
    own, other = run_arrays(given, 2e-6, most_steps=100_000), integrate_with_scipy(given, relative, method)
    assert own.status == other.status == at.DONE
    np.testing.assert_allclose(own.ends[:, 0], other.ends[:, 0], rtol=2e-4, atol=0.5)
    capacity = np.abs(own.nodes[:, at.H]).max()
    np.testing.assert_allclose(own.nodes[:, at.X], other.nodes[:, at.X], rtol=1e-3, atol=3e-4)
    np.testing.assert_allclose(own.nodes[:, at.H], other.nodes[:, at.H], atol=3e-4 * capacity)
    np.testing.assert_allclose(own.nodes[:, 2:-1], other.nodes[:, 2:-1], rtol=1e-3, atol=1e-4)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(seed=st.integers(0, 10_000))
def test_lsoda_agrees_on_random_schedules(seed: int) -> None:
    agrees(replace(random_setup(seed), cells=6), "LSODA", 1e-8)


@settings(max_examples=4, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(seed=st.integers(0, 10_000))
def test_radau_agrees_on_random_schedules(seed: int) -> None:
    agrees(replace(random_setup(seed), cells=4, whole=False), "Radau", 1e-6)


def test_the_error_falls_with_the_order_of_the_method() -> None:
    """Steps held below the first one's length are all alike and nest; the tolerance is left wide open."""
    given = arrays(pork(steps=(held("dry", 60.0, 1 / 3, 0.3),), move=move(STILL)))

    def state(step_s: float) -> np.ndarray:
        found: np.ndarray = run_arrays(given, 1e9, longest_s=step_s, most_steps=20_000).nodes[:, : at.S1]
        return found

    exact = state(1 / 128)
    errors = np.array([np.abs(state(step_s) - exact).max(axis=0) for step_s in (0.5, 0.25, 0.125, 0.0625)])
    orders = np.log2(errors[:-1] / errors[1:])
    assert orders.min() > 2.7
    assert orders.max() < 3.4


@pytest.mark.parametrize("steps", [MIX, DRY])
def test_half_whole_and_one_sided_are_the_same_piece(steps: tuple[object, ...]) -> None:
    half = simulate(pork(steps=steps, cells=10), FINE)
    whole = simulate(pork(steps=steps, cells=10, whole=True), FINE)
    assert whole.weight_share == pytest.approx(half.weight_share, abs=1e-6)
    np.testing.assert_allclose(whole.trace.face_aw[-1], half.trace.face_aw[-1], atol=1e-5)
    fine = simulate(pork(steps=steps, cells=40, log_ratio=1.0), FINE)
    one_sided = simulate(pork(steps=steps, cells=20, log_ratio=1.0, open_share_below=0.0, thickness_m=3e-3), FINE)
    assert one_sided.weight_share == pytest.approx(fine.weight_share, abs=1e-4)
    assert one_sided.trace.face_c[-1, 0] == pytest.approx(fine.trace.core_c[-1], abs=0.02)


def weights(changes: list[dict[str, object]], humidities: list[float] | None = None) -> list[float]:
    found = []
    for at_, change in enumerate(changes):
        humidity = 0.3 if humidities is None else humidities[at_]
        film = float(change.pop("film", 20.0))  # type: ignore[arg-type]
        setup = pork(steps=(held("dry", 65.0, 120, humidity, film=film),), move=move(STILL), **change)
        found.append(simulate(setup).weight_share)
    return found


def test_more_film_dries_faster() -> None:
    assert (np.diff(weights([{"film": film} for film in (5.0, 10.0, 20.0, 40.0, 80.0)])) < 0.0).all()


def test_thicker_pieces_keep_more() -> None:
    thick = weights([{"thickness_m": mm * 1e-3} for mm in (1.5, 3.0, 6.0, 9.0, 15.0)])
    assert (np.diff(thick) > 0.0).all()


def test_moister_air_dries_less_without_cookout() -> None:
    moist = weights([{} for _ in range(7)], [0.0, 0.1, 0.3, 0.5, 0.7, 0.9, 1.0])
    assert (np.diff(moist) > 0.0).all()
