"""Compile the kernel before somebody waits for it: by the set-up scripts, and by whatever serves many people."""

from __future__ import annotations

import time

from pellicle.food.composition import Composition
from pellicle.piece.mixture import mixture
from pellicle.run.cache import is_warm
from pellicle.run.compile import compiled
from pellicle.run.setup import Air, RunSetup, RunStep
from pellicle.run.simulate import simulate


def warm() -> float | None:
    """Return how long compiling both forms of the kernel took, s; 0 if they were on disk, None without a compiler."""
    if is_warm():
        return 0.0
    if compiled() is None:
        return None
    began = time.monotonic()
    made = Composition(water=75.0, protein=21.0, fat=3.0, ash=1.0, muscle=21.0, solutes={"salt": 2.0, "sucrose": 4.0})
    minute = RunStep("warm", (60.0, 60.0), Air(relative=(0.5, 0.5)), 20.0, 60.0)
    for uniform in (False, True):
        simulate(RunSetup(mixture(made), thickness_m=6e-3, steps=(minute,), uniform=uniform))
    return time.monotonic() - began
