"""What a run costs and how exact it is, beside two established integrators on the same compiled rates; one core, warm.

Three named schedules, moving solutes. The rivals integrate the nodes alone (no totals, which would widen their band),
restarted at every step with a banded Jacobian; steps that wait are timed at the converged run's end, for all.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from pellicle.run import layout as at
from pellicle.run.compile import compiled
from pellicle.run.events import core_c, weight_share
from pellicle.run.integrate import run_arrays
from pellicle.run.setup import Arrays, RunSetup, arrays
from pellicle.run.simulate import TOLERANCE, simulate

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))
from pieces_to_run import DRY, MIX, check_case, pork

TARGET_MS = {"half": 1.3, "whole": 2.2}
WEIGHT_POINTS, CORE_K = 0.03, 0.1
ENSEMBLE, ENSEMBLE_S, SCALING, FASTER = 10_000, 8.0, 1.8, 4.0
FIRST_CALL_S = 1.0
REPEATS, BATCH, TURNS = 15, 300, 3


def schedules() -> dict[str, RunSetup]:
    """Return the named schedules; the last step of P1 as long as the converged run takes."""
    waits = check_case("p1")
    end_s = run_arrays(arrays(replace(waits, cells=80)), 1e-6, most_steps=100_000).ends[-1, 0]
    last = replace(waits.steps[-1], until_aw=None, lasts_s=float(end_s) - 65.0 * 60.0)
    return {"MIX": pork(steps=MIX), "DRY": pork(steps=DRY), "P1": replace(waits, steps=(*waits.steps[:-1], last))}


def ends(given: Arrays, states: list[Any]) -> Any:
    """Return core temperature and weight share at the end of every step."""
    return np.array(
        [
            (core_c(given.fields, nodes, given.piece), weight_share(given.fields, nodes, given.grid, given.piece))
            for nodes in states
        ]
    )


def own_ends(given: Arrays, tolerance: float, most: int = 5000) -> Any:
    raw = run_arrays(given, tolerance, most_steps=most)
    rows = [np.flatnonzero(raw.columns[:, 1] == which)[-1] for which in range(len(given.steps))]
    return ends(given, [raw.states[row] for row in rows])


def median_ms(job: Callable[[], object], repeats: int = REPEATS) -> float:
    """Return the median time of a job, ms, after one run that warms it."""
    times = []
    for _ in range(repeats + 1):
        began = time.perf_counter()
        job()
        times.append(time.perf_counter() - began)
    return statistics.median(times[1:]) * 1e3


def errors(found: Any, reference: Any) -> dict[str, float]:
    off = np.abs(found - reference).max(axis=0)
    return {"core_k": float(off[0]), "weight_points": float(off[1]) * 100.0}


class Rival:
    """The rates of the nodes alone as a Python callback, counted and timed."""

    def __init__(self, given: Arrays) -> None:
        self.given, self.calls = given, 0
        doors = compiled()
        assert doors is not None
        self.door = doors["rates"]
        count, width = given.nodes.shape
        self.count, self.size = count, count * width
        self.full, self.out = np.zeros(self.size + at.EXTRAS), np.zeros(self.size + at.EXTRAS)
        self.solvent = np.zeros(count + 3)
        self.band = 2 * width - 1
        scale = np.ones((count, width))
        scale[:, at.H] = 3e5
        self.scale = scale.ravel()

    def rates(self, time_s: float, state: Any, step: Any) -> Any:
        self.calls += 1
        self.full[: self.size] = state
        given = self.given
        self.door(given.fields, time_s, self.full, self.count, given.grid, given.piece, step, self.out, self.solvent)
        return self.out[: self.size]

    def callback_ms(self) -> float:
        """Return what one callback costs, ms: the least mean of several batches."""
        state, step = self.given.nodes.ravel().copy(), self.given.steps[0]
        spent = []
        for _ in range(REPEATS):
            began = time.perf_counter()
            for _ in range(BATCH):
                self.rates(1.0, state, step)
            spent.append((time.perf_counter() - began) / BATCH * 1e3)
        self.calls = 0
        return min(spent)

    def filling(self, step: Any) -> Callable[[float, Any, Any], None]:
        """Return the callback as CVODE wants it: filling an array, of three arguments."""

        def change(time_s: float, state: Any, slope: Any) -> None:
            slope[:] = self.rates(time_s, state, step)

        return change

    def lsoda(self, relative: float) -> list[Any]:
        from scipy.integrate import ode

        flat, states = self.given.nodes.ravel().copy(), []
        for step in self.given.steps:
            solver = ode(lambda time_s, state, step=step: self.rates(time_s, state, step).copy())
            solver.set_integrator(
                "lsoda", rtol=relative, atol=relative * self.scale / 10.0, lband=self.band, uband=self.band,
                nsteps=100_000, first_step=0.5,
            )  # fmt: skip
            flat = solver.set_initial_value(flat, 0.0).integrate(step[at.LASTS])
            states.append(flat.reshape(self.given.nodes.shape).copy())
        return states

    def cvode(self, relative: float) -> list[Any]:
        from sksundae.cvode import CVODE

        flat, states = self.given.nodes.ravel().copy(), []
        for step in self.given.steps:
            solver = CVODE(
                self.filling(step), rtol=relative, atol=relative * self.scale / 10.0, linsolver="band", lband=self.band,
                uband=self.band, first_step=0.5, max_num_steps=100_000,
            )  # fmt: skip
            found = solver.solve(np.array([0.0, step[at.LASTS]]), flat)
            flat = np.array(found.y[-1])
            states.append(flat.reshape(self.given.nodes.shape).copy())
        return states


def curve(name: str, setup: RunSetup) -> dict[str, Any]:
    """Return time and error of the three over tolerances on one grid, and how much faster ours is at equal error."""
    given = arrays(setup)
    reference = own_ends(given, 1e-7, 400_000)
    rows: dict[str, list[dict[str, float]]] = {"own": [], "cvode": [], "lsoda": []}
    for tolerance in (4e-3, 2e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5):
        own = own_ends(given, tolerance, 100_000)
        rows["own"].append(
            {
                "tolerance": tolerance,
                "ms": median_ms(lambda t=tolerance: run_arrays(given, t)),
                **errors(own, reference),
            }
        )
    rival = Rival(given)
    each = rival.callback_ms()
    for kind in ("cvode", "lsoda"):
        job = getattr(rival, kind)
        for tolerance in (1e-3, 1e-4, 1e-5, 1e-6, 1e-7):
            rival.calls = 0
            found = ends(given, job(tolerance))
            calls = rival.calls
            spent = median_ms(lambda t=tolerance, j=job: j(t), 3)
            rows[kind].append(
                {
                    "tolerance": tolerance, "ms": spent, **errors(found, reference), "callbacks": calls,
                    "callback_share": round(calls * each / spent, 2),
                }
            )  # fmt: skip
    return {
        "callback_us": round(each * 1e3, 2),
        "curve": {kind: [rounded(row) for row in found] for kind, found in rows.items()},
        "faster_than": {kind: at_equal_error(rows["own"], rows[kind]) for kind in ("cvode", "lsoda")},
    }


def rounded(row: dict[str, float]) -> dict[str, float]:
    return {name: float(f"{value:.3g}") for name, value in row.items()}


def at_equal_error(own: list[dict[str, float]], other: list[dict[str, float]]) -> dict[str, Any]:
    """Return the ratio of times at every error of the rival that ours covers: each, the least and the middle one.

    Our time at that error lies on the straight line, in logarithms, between the two of our tolerances around it; at a
    larger error than our loosest it is that one's.
    """

    def frontier(rows: list[dict[str, float]]) -> list[tuple[float, float]]:
        found = [(max(row["weight_points"] / WEIGHT_POINTS, row["core_k"] / CORE_K), row["ms"]) for row in rows]
        return sorted(found, reverse=True)

    mine = frontier(own)
    errors_of, times = (np.log([each[at_] for each in mine]) for at_ in (0, 1))
    ratios = []
    for error, spent in frontier(other):
        if error >= mine[-1][0]:
            ours = float(np.exp(np.interp(np.log(error), errors_of[::-1], times[::-1])))
            ratios.append((round(error, 5), round(spent / ours, 1)))
    every = [ratio for _, ratio in ratios]
    return {"least": min(every), "median": round(statistics.median(every), 1), "by_error": ratios} if every else {}


def ensemble() -> dict[str, Any]:
    """Return how long many symmetric pieces take on one thread and on two, in turns; each with its own film and
    thickness. The best of either counts: whatever else the machine does only adds."""
    draw = np.random.default_rng(1)
    given = [
        arrays(
            pork(
                thickness_m=6e-3 * float(np.exp(0.08 * draw.normal())),
                steps=tuple(replace(step, film_w_m2k=20.0 * float(np.exp(0.2 * draw.normal()))) for step in MIX),
            )
        )
        for _ in range(1000)
    ]

    def share(first: int, every: int) -> None:
        for at_ in range(first, ENSEMBLE, every):
            run_arrays(given[at_ % len(given)], TOLERANCE)

    one, two = [], []
    for _ in range(TURNS):
        began = time.perf_counter()
        share(0, 1)
        one.append(time.perf_counter() - began)
        began = time.perf_counter()
        with ThreadPoolExecutor(2) as pool:
            list(pool.map(lambda first: share(first, 2), range(2)))
        two.append(time.perf_counter() - began)
    return {
        "pieces": ENSEMBLE,
        "one_thread_s": [round(each, 2) for each in one],
        "two_threads_s": [round(each, 2) for each in two],
        "scaling": round(min(one) / min(two), 2),
    }


FIRST = """
import time; began = time.perf_counter()
import sys; sys.path.insert(0, "tests")
from pieces_to_run import pork
from pellicle.run.simulate import simulate
loaded = time.perf_counter(); simulate(pork()); print(time.perf_counter() - loaded, time.perf_counter() - began)
"""


def first_call() -> dict[str, float]:
    """Return the first run of a new process with the compiled code on disk, s: by itself, and with all imports."""
    for _ in range(2):  # the first of them may have to compile
        done = subprocess.run([sys.executable, "-c", FIRST], capture_output=True, text=True, check=True)
    alone, everything = (round(float(text), 2) for text in done.stdout.split())
    return {"first_run_s": alone, "with_imports_s": everything}


def main() -> None:
    """Measure everything and print one JSON object."""
    found: dict[str, Any] = {}
    met = True
    for name, setup in schedules().items():
        reference = own_ends(arrays(replace(setup, cells=80)), 1e-6, 400_000)
        rows = {}
        for kind in ("half", "whole"):
            chosen = replace(setup, whole=kind == "whole")
            given = arrays(chosen)
            off = errors(own_ends(given, TOLERANCE), reference)
            spent = median_ms(lambda g=given: run_arrays(g, TOLERANCE))
            met &= off["weight_points"] <= WEIGHT_POINTS and off["core_k"] <= CORE_K and spent <= TARGET_MS[kind]
            rows[kind] = {
                "ms": round(spent, 2), **off, "with_python_ms": round(median_ms(lambda c=chosen: simulate(c)), 2)
            }  # fmt: skip
        compared = curve(name, setup)
        met &= all(ratio.get("median", 0.0) >= FASTER for ratio in compared["faster_than"].values())
        found[name] = {"default": rows, **compared}
    many, first = ensemble(), first_call()
    met &= (
        min(many["two_threads_s"]) <= ENSEMBLE_S and many["scaling"] >= SCALING and first["first_run_s"] <= FIRST_CALL_S
    )
    print(
        json.dumps(
            {
                "schedules": found, "ensemble": many, "first_call": first, "repeats": REPEATS,
                "target": {"ms": TARGET_MS, "faster": FASTER, "ensemble_s": ENSEMBLE_S, "scaling": SCALING},
                "met": bool(met),
            },
            indent=2,
        )
    )  # fmt: skip


if __name__ == "__main__":
    main()
