"""Amounts as the scale can show them: rounded to its division, and where a scale is too coarse for a line."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pellicle.errors import InputError
from pellicle.formula.ions import AGENTS
from pellicle.formula.parts import Formula, Part, with_kg
from pellicle.formula.printed import metric_mass, percent
from pellicle.formula.restricted import ACCELERATOR_GROUP, PHOSPHATE_GROUP
from pellicle.formula.strength import agent_share
from pellicle.message import Message, message

# How far off a weighing may be because of the scale's division alone. assumed: common practice, no source
CURE_TOLERANCE = 0.02
OTHER_TOLERANCE = 0.05
# Divisions that scales come with, in any power of ten. assumed: common practice
STEPS = (5.0, 2.0, 1.0)
# What is kept of a rounded mass: too few digits for the dust of binary fractions, enough for ounces counted in kg.
KEPT_DIGITS = 12
DUST = 1e-9  # relative; what binary fractions lose must not decide a tie


@dataclass(frozen=True, slots=True)
class TooCoarse:
    """A part that the scale cannot weigh well enough: what half a division is of it, and the division that would do."""

    part: Part
    relative_error: float
    division_kg: float
    message: Message


@dataclass(frozen=True, slots=True)
class Rounded:
    """A formula with the masses [kg] that are printed, and the parts for which the scale is too coarse."""

    formula: Formula
    too_coarse: tuple[TooCoarse, ...]


def round_to_scale(formula: Formula, division_kg: float | None) -> Rounded:
    """Return the formula with each part rounded to the nearest division [kg]; None leaves it as it is.

    What a law limits is rounded down. The meat keeps its weight. A part is flagged where half a division is more
    than 2 % of it for what brings cure, more than 5 % for anything else: what the scale shows cannot be told closer
    than that. InputError for a division that is not a positive number, or that rounds a line to nothing.
    """
    if division_kg is None:
        return Rounded(formula, ())
    if not (math.isfinite(division_kg) and division_kg > 0):
        raise InputError("formula.bad_division", field="scale.division", read=f"{division_kg:g} kg")
    printed = [
        round_down_kg(part.kg, division_kg) if limited(part) else round_kg(part.kg, division_kg)
        for part in formula.parts
    ]
    for part, shown in zip(formula.parts, printed, strict=True):
        if part.kg > 0 and not shown > 0:
            raise _rounds_to_nothing(part, division_kg)
    found = (_judge(part, division_kg) for part in formula.parts)
    return Rounded(with_kg(formula, printed), tuple(item for item in found if item is not None))


def round_kg(kg: float, division_kg: float) -> float:
    """Return a mass rounded to the nearest division, halves up; both in kg.

    >>> round_kg(0.0567, 0.005), round_kg(0.0025, 0.005)
    (0.055, 0.005)
    """
    return _clean(math.floor(kg / division_kg * (1 + DUST) + 1 / 2) * division_kg)


def fitting_division_kg(kg: float, tolerance: float) -> float:
    """Return the largest division (1, 2 or 5 times a power of ten, in kg) of which half is within a share of a mass.

    >>> fitting_division_kg(0.057, 0.02), fitting_division_kg(0.0025, 0.05)
    (0.002, 0.0002)
    """
    most = 2 * tolerance * kg
    power = 10.0 ** math.floor(math.log10(most))
    step = next((step for step in STEPS if step * power <= most * (1 + DUST)), STEPS[-1])
    return _clean(step * power)


def _clean(kg: float) -> float:
    return kg if kg == 0 else round(kg, KEPT_DIGITS - 1 - math.floor(math.log10(abs(kg))))


def round_down_kg(kg: float, division_kg: float) -> float:
    """Return a mass rounded down to a division, both in kg, so that a scale never adds to what a limit allows.

    >>> round_down_kg(0.0249, 0.001), round_down_kg(0.0250, 0.001)
    (0.024, 0.025)
    """
    return _clean(math.floor(kg / division_kg * (1 + DUST)) * division_kg)


def limited(part: Part) -> bool:
    """Return whether a law limits what a part brings: cure, what speeds it up, phosphates."""
    composition = part.ingredient.composition
    cure = any(agent_share(composition, agent) for agent in AGENTS)
    return cure or part.ingredient.group in (ACCELERATOR_GROUP, PHOSPHATE_GROUP)


def _rounds_to_nothing(part: Part, division_kg: float) -> InputError:
    return InputError(
        "formula.rounds_to_nothing",
        field="scale.division",
        name=part.ingredient.name,
        mass=metric_mass(part.kg),
        division=metric_mass(division_kg),
        fitting=metric_mass(fitting_division_kg(part.kg, OTHER_TOLERANCE)),
    )


def _judge(part: Part, division_kg: float) -> TooCoarse | None:
    if part.kg <= 0:
        return None
    cure = any(agent_share(part.ingredient.composition, agent) for agent in AGENTS)
    tolerance = CURE_TOLERANCE if cure else OTHER_TOLERANCE
    error = division_kg / 2 / part.kg
    if error <= tolerance:
        return None
    fitting = fitting_division_kg(part.kg, tolerance)
    values = {
        "name": part.ingredient.name,
        "division": metric_mass(division_kg),
        "error": percent(error, 2),
        "tolerance": percent(tolerance),
        "fitting": metric_mass(fitting),
    }
    return TooCoarse(part, error, fitting, message("formula.scale_too_coarse", **values))
