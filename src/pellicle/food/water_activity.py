"""Water activity of a composition: value, range, expected bias, what causes it, and what to be warned of.

``inputs`` reads a composition, ``aw`` and ``water_at`` solve the model both ways for floats and arrays, and
``aw_scalar`` is the same model ready to be compiled. The model itself stands in ``water_model``.
"""

from __future__ import annotations

from pellicle.food.aw_inputs import AwInputs, AwParameters, default_parameters, inputs
from pellicle.food.water_model import AW_FLOOR, COMPILABLE, aw_scalar
from pellicle.food.water_solve import aw, solvent_water, water_at

__all__ = [
    "AW_FLOOR",
    "COMPILABLE",
    "AwInputs",
    "AwParameters",
    "aw",
    "aw_scalar",
    "default_parameters",
    "inputs",
    "solvent_water",
    "water_at",
]
