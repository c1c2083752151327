"""The mass balance of marinating: what goes into the meat, and what is poured away with the solutes in it.

The solution goes in as it is mixed: a share ``taken_share`` of every added part, and the rest leaves with its water and
its solutes. Meat that lay long in a pickle until salt spread through it can hold more solutes than this says, never
less water.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from pellicle import parameter
from pellicle.errors import InputError
from pellicle.food.composition import Composition, Quantity
from pellicle.formula.cure import pickup_of
from pellicle.formula.parts import Formula
from pellicle.formula.printed import percent
from pellicle.message import Message, message
from pellicle.product import CureMethod, Uptake

LEVEL_Z = 1.6448536269514722  # standard normal deviate of a two-sided 90 % range
UNIFORM_WIDTH = math.sqrt(12.0)  # width of a uniform distribution in its standard deviations
IMMERSIONS = (CureMethod.IMMERSION_PICKUP, CureMethod.IMMERSION_WHOLE)


@dataclass(frozen=True, slots=True)
class Marinated:
    """The meat after marinating, and what was poured away, in kg.

    ``taken_share`` is the share of everything added that went in; ``low`` to ``high`` its 90 % range where it was
    weighed or stated (``known``, with standard deviation ``sd``), else the whole range it may lie in. ``how`` says it
    in words, ``notes`` what the balance leaves out.
    """

    taken_share: float
    low: float
    high: float
    sd: float
    kg: float
    low_kg: float
    high_kg: float
    composition: Composition
    discarded: Composition
    known: bool
    how: Message
    notes: tuple[Message, ...] = ()


def marinate(
    formula: Formula,
    uptake: Uptake,
    method: CureMethod | None = None,
    overrides: Mapping[str, float] = parameter.NO_OVERRIDES,
) -> Marinated:
    """Return the mass balance of a formula under what is known of its uptake.

    A weighed or stated uptake comes first. Without one, a formula that adds no liquid is all taken up, an immersion
    takes up a pickup between two model parameters, and any other solution a share between two others. InputError where
    the uptake cannot be: marinated meat lighter than raw, or more taken up than there is.
    """
    taken = _known_share(formula, uptake, parameter.value("pickup_sd", overrides))
    if taken is not None:
        share, how = taken
        sd = (
            parameter.value("pickup_sd", overrides) * formula.raw_kg / formula.solution_kg
            if formula.solution_kg
            else 0.0
        )
        low, high = max(0.0, share - LEVEL_Z * sd), min(1.0, share + LEVEL_Z * sd)
        return _balance(formula, method, share, low, high, sd, True, how)
    if not formula.liquid_parts:
        return _balance(formula, method, 1.0, 1.0, 1.0, 0.0, True, message("formula.uptake_dry"))
    low, high = _unknown_range(formula, method, overrides)
    how = message("formula.uptake_unknown", low=percent(low, 2), high=percent(high, 3))
    return _balance(formula, method, (low + high) / 2, low, high, (high - low) / UNIFORM_WIDTH, False, how)


def composition_at(formula: Formula, meat: Composition, taken_share: Quantity) -> Composition:
    """Return what the marinated meat is made of [kg], for a meat (kg per kg) and a share of the solution taken up.

    Floats or arrays of draws alike, in the meat, in the parts' compositions and in the share.
    """
    return meat * formula.raw_kg + formula.solution * taken_share


def _known_share(formula: Formula, uptake: Uptake, sd: float) -> tuple[float, Message] | None:
    """The share of the solution that a weighing or a statement gives, with the words for it."""
    if uptake.taken_share is not None:
        if not 0 <= uptake.taken_share <= 1:
            raise InputError("formula.taken_range", field="uptake.taken_up", read=percent(uptake.taken_share))
        return uptake.taken_share, message("formula.uptake_taken", taken=percent(uptake.taken_share))
    pickup = pickup_of(uptake)
    if pickup is None:
        return None
    weighed = uptake.marinated_share is not None
    read = f"{percent(1 + pickup if weighed else pickup)} of raw"
    if not pickup >= 0:
        raise InputError(
            "formula.marinated_below_raw" if weighed else "formula.pickup_negative",
            field="uptake.marinated" if weighed else "uptake.pickup",
            read=read,
        )
    added = formula.solution_kg / formula.raw_kg
    # a weighing that reads a little more than everything is a weighing's error; more than that is a mistake
    if not pickup <= added + sd:
        field = "uptake.marinated" if weighed else "uptake.pickup"
        raise InputError("formula.more_than_solution", field=field, read=read, added=f"{percent(added)} of raw")
    share = min(1.0, pickup / added) if added else 1.0
    id = "formula.uptake_weighed" if weighed else "formula.uptake_stated"
    return share, message(id, pickup=percent(pickup), taken=percent(share, 3))


def _unknown_range(formula: Formula, method: CureMethod | None, overrides: Mapping[str, float]) -> tuple[float, float]:
    if method not in IMMERSIONS:
        return parameter.value("unknown_taken_low", overrides), parameter.value("unknown_taken_high", overrides)
    per_pickup = formula.raw_kg / formula.solution_kg
    ends = (parameter.value(f"unknown_immersion_pickup_{end}", overrides) for end in ("low", "high"))
    low, high = (min(1.0, end * per_pickup) for end in ends)
    return low, high


def _balance(
    formula: Formula,
    method: CureMethod | None,
    share: float,
    low: float,
    high: float,
    sd: float,
    known: bool,
    how: Message,
) -> Marinated:
    return Marinated(
        taken_share=share,
        low=low,
        high=high,
        sd=sd,
        kg=formula.raw_kg + share * formula.solution_kg,
        low_kg=formula.raw_kg + low * formula.solution_kg,
        high_kg=formula.raw_kg + high * formula.solution_kg,
        composition=composition_at(formula, formula.meat.composition, share),
        discarded=formula.solution * (1 - share),
        known=known,
        how=how,
        notes=(message("formula.uptake_immersed"),) if method in IMMERSIONS else (),
    )
