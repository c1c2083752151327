"""What water activity costs: 10,000 compositions at once, one at a time in Python, and one compiled (on one core)."""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Callable

import numba
import numpy as np
from numba.extending import register_jitable
from numpy.typing import NDArray

from pellicle.food.composition import Composition
from pellicle.food.water_activity import (
    COMPILABLE,
    AwInputs,
    aw,
    aw_scalar,
    default_parameters,
    estimate,
    water_at,
)

COUNT = 10_000
REPEATS = 7
TARGET_S = 0.060


def drying() -> AwInputs:
    """Return compositions as they stand at many moments of drying: plain to sweet, wet to dry."""
    draws = np.random.default_rng(1)
    return AwInputs(
        water=draws.uniform(0.10, 0.75, COUNT),
        protein=draws.uniform(0.20, 0.24, COUNT),
        muscle=0.22,
        salt_mol=draws.uniform(0.2, 0.7, COUNT),
        sugar_mol=draws.uniform(0.0, 0.6, COUNT),
        root_k=2.2,
        other_osmol=0.02,
    )


def median_s(job: Callable[[], object]) -> float:
    """Return the median time of a job, after one run that warms it."""
    times = []
    for _ in range(REPEATS + 1):
        began = time.perf_counter()
        job()
        times.append(time.perf_counter() - began)
    return statistics.median(times[1:])


def main() -> None:
    """Measure each way and print one JSON object."""
    many, parameters = drying(), default_parameters()
    reached = aw(many, parameters)
    rows = [
        (float(water), float(protein), 0.22, float(salt), float(sugar), 2.2, 0.02, 0.9, 1.45, 0.0, 0.0)
        for water, protein, salt, sugar in zip(many.water, many.protein, many.salt_mol, many.sugar_mol, strict=True)
    ]
    for function in COMPILABLE:
        register_jitable(function)
    compiled = numba.njit(aw_scalar)
    table = np.array(rows)

    @numba.njit
    def sweep(table: NDArray[np.float64]) -> float:
        total = 0.0
        for row in table:
            total += compiled(
                row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7], row[8], row[9], row[10]
            )  # fmt: skip
        return total

    product = Composition(water=0.35, protein=0.22, muscle=0.22, solutes={"salt": 0.022, "sucrose": 0.06})
    vectorised = median_s(lambda: aw(many, parameters))
    figures = {
        "vectorised_10000_s": vectorised,
        "inverse_10000_s": median_s(lambda: water_at(reached, many, parameters)),
        "one_at_a_time_in_python_s": median_s(lambda: [aw_scalar(*row) for row in rows[:1000]]) / 1000,
        "compiled_s": median_s(lambda: sweep(table)) / COUNT,
        "full_estimate_s": median_s(lambda: [estimate(product) for _ in range(50)]) / 50,
    }
    shown = {name: float(f"{value:.3g}") for name, value in figures.items()}
    print(json.dumps({**shown, "repeats": REPEATS, "target_s": TARGET_S, "met": vectorised <= TARGET_S}, indent=2))


if __name__ == "__main__":
    main()
