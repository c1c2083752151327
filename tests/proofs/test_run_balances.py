"""Whatever the schedule, what leaves a piece is what it lost, and a run always comes to an end."""

from __future__ import annotations

import pytest

from pellicle.run.flags import Status
from pellicle.run.simulate import LOOSEST, RunOptions, simulate
from pieces_to_run import random_setup

CLOSES = 1e-9
QUICK, MANY, HOSTILE = range(20), range(20, 500), range(3000)


def closes(seed: int) -> None:
    done = simulate(random_setup(seed))
    assert done.status is Status.DONE, str(done.problem)
    assert done.balances.worst < CLOSES


@pytest.mark.parametrize("seed", QUICK)
def test_water_heat_salts_sugars_and_house_close(seed: int) -> None:
    closes(seed)


@pytest.mark.slow
def test_they_close_over_many_random_runs() -> None:
    for seed in MANY:
        closes(seed)


@pytest.mark.slow
def test_no_hostile_run_fails() -> None:
    for seed in HOSTILE:
        done = simulate(random_setup(seed, hostile=True), RunOptions(tolerance=LOOSEST))
        assert done.status is Status.DONE, f"seed {seed}: {done.problem}"
        assert done.balances.worst < CLOSES
