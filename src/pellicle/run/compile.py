"""From plain functions to machine code: everything the kernel calls is made known to the compiler, then one door built.

Without the compiler the same functions run as they are, only slowly; ``simulate`` then integrates with SciPy instead.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from functools import cache
from typing import Any

from pellicle.air import humid, wet_surface
from pellicle.food import water_model
from pellicle.piece import cookout, diffusion, surface
from pellicle.run import (
    air_now,
    blocks,
    events,
    face_slopes,
    face_water,
    kernel,
    rates,
    slopes,
    solute_face,
    stepper,
)
from pellicle.run.cache import cache_folder

MODULES = (
    water_model, humid, wet_surface, cookout, diffusion, surface, face_water, air_now, solute_face, rates, slopes,
    face_slopes, blocks, stepper, events, kernel,
)  # fmt: skip


def compiled() -> dict[str, Callable[..., Any]] | None:
    """Return the compiled doors by name, or None where there is no compiler or it is switched off.

    Whichever thread asks first builds them, and the others wait.
    """
    with _BUILDING:
        return _built()


_BUILDING = threading.Lock()


@cache
def _built() -> dict[str, Callable[..., Any]] | None:
    on_disk = cache_folder()
    try:
        import numba
        from numba.extending import register_jitable
    except ImportError:
        return None
    if numba.config.DISABLE_JIT:  # type: ignore[attr-defined]
        return None
    for module in MODULES:
        for function in module.COMPILABLE:
            register_jitable(error_model="numpy")(function)
    jit = numba.njit(nogil=True, cache=on_disk, error_model="numpy")
    return {
        "advance": jit(kernel.advance),
        "rates": jit(rates.rates_door),
        "read_rows": jit(events.read_rows),
    }
