"""What a run tells: ends of steps, trace, series, flags, cancelling, and the way without a compiler."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from everything import TOP
from pellicle.errors import InputError
from pellicle.run.setup import Air, RunStep, move
from pellicle.run.simulate import EndedBy, RunOptions, series_from, simulate
from pieces_to_run import DRY, held, pork

pytestmark = pytest.mark.slow  # the first of them compiles


def test_an_end_is_met_exactly() -> None:
    aim = {"until_core_c": 40.0, "until_weight": 0.7, "until_aw": 0.95}
    for name, value in aim.items():
        run = simulate(pork(steps=(held("wait", 70.0, 2000, 0.25, **{name: value}),)))
        reached = {
            "until_core_c": run.trace.core_c[-1],
            "until_weight": run.weight_share,
            "until_aw": run.aw_mean,
        }
        assert reached[name] == pytest.approx(value, abs=1e-6)
        assert run.steps[0].ended_by in (EndedBy.CORE, EndedBy.WEIGHT, EndedBy.AW)


def test_a_rest_ends_when_water_activity_is_even() -> None:
    rest = RunStep("rest", (20.0, 20.0), Air(sealed=True), 10.0, 2e5, until_gap=0.02)
    run = simulate(pork(steps=(*DRY, rest)))
    assert run.steps[-1].ended_by is EndedBy.GAP
    assert np.ptp(run.trace.outer_aw[-1]) < 0.021
    assert run.trace.weight_share[-1] == pytest.approx(run.trace.weight_share[run.trace.step == 2][-1], abs=1e-12)


def test_an_end_already_reached_says_so() -> None:
    run = simulate(pork(steps=(held("wait", 60.0, 60, 0.3, until_core_c=3.0), held("dry", 60.0, 10, 0.3))))
    assert run.steps[0].ended_by is EndedBy.ALREADY
    assert run.steps[1].minutes == pytest.approx(10.0)


def test_a_ramp_moves_the_air_as_stated() -> None:
    ramp = RunStep("ramp", (30.0, 70.0), Air(relative=(0.6, 0.3)), 20.0, 3600.0, ramp_s=1800.0)
    trace = simulate(pork(steps=(ramp,))).trace
    expected = 30.0 + 40.0 * np.minimum(trace.time_s / 1800.0, 1.0)
    np.testing.assert_allclose(trace.air_c, expected, atol=1e-9)
    assert 1800.0 in trace.time_s


def test_the_series_has_a_jump_where_the_air_changes() -> None:
    run = simulate(pork(steps=DRY))
    series = series_from(run)
    jumps = np.flatnonzero(np.diff(series.time_s) == 0.0)
    assert jumps.size == len(DRY) - 1
    assert series.air_c is not None
    assert series.air_c[jumps[0] + 1] - series.air_c[jumps[0]] == pytest.approx(13.0)
    assert series.outer_weight is not None
    assert series.outer_weight.sum() == pytest.approx(1.0)


def test_a_trace_is_read_between_its_rows() -> None:
    trace = simulate(pork(steps=DRY)).trace
    wanted = np.array([0.0, 1000.0, 5000.0, trace.time_s[-1]])
    fine = simulate(pork(steps=DRY), RunOptions(longest_s=30.0)).trace
    np.testing.assert_allclose(trace.at("core_c", wanted), fine.at("core_c", wanted), atol=0.1)


def test_a_run_stops_when_told_to() -> None:
    run = simulate(pork(steps=DRY), RunOptions(cancel=np.ones(1, dtype=np.int64)))
    assert run.status == "cancelled"
    assert "stopped" in str(run.problem)


def test_a_dry_face_flags_itself() -> None:
    run = simulate(pork(steps=DRY))
    assert any("water activity" in str(flag) for flag in run.flags)


def test_solutes_leave_with_the_juice() -> None:
    humid = (held("humid", 68.0, 120, wet_bulb_c=62.0),)
    losses = simulate(pork(steps=humid)).losses
    assert losses.drip > 0.05
    assert losses.salts_lost == pytest.approx(losses.drip_water / 0.6, rel=0.6)
    assert simulate(pork(steps=humid, uniform=True)).losses.drip_salts == 0.0


def test_neutral_solutes_are_not_unmixed_by_drying_and_dragged_ones_make_a_rind() -> None:
    for drag, most, least in ((-1.0, 1.05, 0.95), (1.0, 99.0, 2.0)):
        run = simulate(pork(steps=DRY, move=move({"solute_drag": drag, "cookout_factor": 0.0})))
        sugar = run.trace.states[-1][:, 3]
        assert least <= sugar[-1] / sugar[0] <= most


def test_a_thickness_that_is_none_is_refused() -> None:
    with pytest.raises(InputError, match="80 mm"):
        simulate(replace(pork(), thickness_m=0.08))


def test_without_a_compiler_the_run_comes_out_the_same() -> None:
    code = (
        "from pieces_to_run import pork, held\n"
        "from pellicle.run.simulate import simulate\n"
        "run = simulate(pork(steps=(held('dry', 60.0, 30, 0.3),), cells=4))\n"
        "print(run.compiled, run.weight_share, run.trace.core_c[-1])\n"
    )
    environment = {**os.environ, "PYTHONPATH": f"{TOP / 'src'}{os.pathsep}{TOP / 'tests'}"}
    both = []
    for disabled in ("0", "1"):
        done = subprocess.run(
            [sys.executable, "-c", code], env={**environment, "NUMBA_DISABLE_JIT": disabled}, capture_output=True,
            text=True, check=True,
        )  # fmt: skip
        both.append(done.stdout.split())
    assert [line[0] for line in both] == ["True", "False"]
    assert float(both[0][1]) == pytest.approx(float(both[1][1]), abs=3e-4)
    assert float(both[0][2]) == pytest.approx(float(both[1][2]), abs=0.1)
