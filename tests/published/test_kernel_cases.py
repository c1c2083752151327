"""Three check cases of the drying kernel, from product files, against an independent prototype converged to 1e-4.

The prototype remembers cooking as the running maximum of temperature; ours follows within 20 seconds. That moves what
evaporates against what drips by up to 0.0017 of the marinated weight, and with moving solutes the final weight by
0.0002 (docs/kernel.md); so drip is held to 0.003, and everything else to the figures' own tolerance.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from pellicle.run.simulate import Run, RunOptions, simulate
from pieces_to_run import check_case

# minutes, weight of marinated, water per matrix, core C, upper face C, aw upper, lower, mean, vapour, drip, mm
CASES = {
    ("p1", True): (169.36, 0.4404, 0.6324, 50.34, 50.35, 0.7840, 0.7840, 0.8600, 0.4837, 0.0759, 1.593),
    ("p1", False): (171.02, 0.4271, 0.5979, 50.37, 50.37, 0.7828, 0.7828, 0.8600, 0.4923, 0.0806, 1.545),
    ("p2", True): (249.81, 0.5000, 0.8487, 44.36, 44.38, 0.5246, 0.5246, 0.8502, 0.4968, 0.0032, 3.395),
    ("p2", False): (249.49, 0.5000, 0.8504, 44.32, 44.33, 0.5260, 0.5260, 0.8511, 0.4964, 0.0036, 3.397),
    ("p3", True): (156.49, 0.4212, 0.4763, 61.09, 61.11, 0.4482, 0.8640, 0.8000, 0.5560, 0.0229, 1.235),
    ("p3", False): (156.84, 0.4188, 0.4695, 61.17, 61.20, 0.4460, 0.8640, 0.8000, 0.5579, 0.0234, 1.228),
}
EACH = pytest.mark.parametrize(("name", "uniform"), CASES)


@cache
def fine(name: str, uniform: bool) -> Run:
    return simulate(replace(check_case(name, uniform), cells=40), RunOptions(tolerance=1e-5))


@pytest.mark.slow
@EACH
def test_weight_and_water_at_the_end(name: str, uniform: bool) -> None:
    minutes, weight, water, *_, thickness = CASES[name, uniform]
    run = fine(name, uniform)
    assert run.weight_share == pytest.approx(weight, abs=0.003)
    assert run.moisture_per_matrix == pytest.approx(water, abs=0.003)
    assert run.steps[-1].end_s / 60.0 == pytest.approx(minutes, abs=0.15)
    assert run.thickness_m * 1e3 == pytest.approx(thickness, abs=0.003)


@pytest.mark.slow
@EACH
def test_temperatures_at_the_end(name: str, uniform: bool) -> None:
    core, face = CASES[name, uniform][3:5]
    trace = fine(name, uniform).trace
    assert trace.core_c[-1] == pytest.approx(core, abs=0.1)
    assert trace.face_c[-1, 1] == pytest.approx(face, abs=0.1)


@pytest.mark.slow
@EACH
def test_water_activity_at_the_end(name: str, uniform: bool) -> None:
    upper, lower, mean = CASES[name, uniform][5:8]
    run = fine(name, uniform)
    assert run.trace.face_aw[-1, 1] == pytest.approx(upper, abs=0.003)
    assert run.trace.face_aw[-1, 0] == pytest.approx(lower, abs=0.003)
    assert run.aw_mean == pytest.approx(mean, abs=0.003)


@pytest.mark.slow
@EACH
def test_what_evaporated_and_what_dripped(name: str, uniform: bool) -> None:
    vapour, drip = CASES[name, uniform][8:10]
    losses = fine(name, uniform).losses
    assert losses.vapour == pytest.approx(vapour, abs=0.003)
    assert losses.drip == pytest.approx(drip, abs=0.003)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["p1", "p2", "p3"])
def test_default_settings_stay_near_the_converged_run(name: str) -> None:
    """What the speed figures promise: 0.03 points of weight and 0.1 K."""
    run = simulate(check_case(name))
    assert run.weight_share == pytest.approx(fine(name, False).weight_share, abs=3e-4)
    assert run.trace.core_c[-1] == pytest.approx(fine(name, False).trace.core_c[-1], abs=0.1)
