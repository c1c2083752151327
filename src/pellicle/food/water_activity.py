"""Water activity of a composition: value, range, expected bias, what causes it, and what to be warned of.

``estimate`` answers for one composition. ``inputs`` reads a composition, ``aw`` and ``water_at`` solve the model both
ways for floats and arrays, and ``aw_scalar`` is the same model ready to be compiled. The model itself stands in
``water_model``; what is not in it: inversion of sucrose, starch and spice, the proteolysis of long-aged products.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from statistics import NormalDist
from types import MappingProxyType

import numpy as np

from pellicle import parameter, relation
from pellicle.errors import InputError
from pellicle.food import water_model as model
from pellicle.food.aw_inputs import AwInputs, AwParameters, default_parameters, inputs
from pellicle.food.composition import Composition
from pellicle.food.correction import Applied, Correction, Klass, applied, prior
from pellicle.food.electrolytes import WATER_MOLAR_MASS, osmotic_coefficient_continued
from pellicle.food.mixing import aw_by_groups
from pellicle.food.saturation import saturation_warnings
from pellicle.food.solutes import solute
from pellicle.food.sugars import log_aw_norrish
from pellicle.food.water_model import AW_FLOOR, COMPILABLE, aw_scalar, log_aw_solution
from pellicle.food.water_solve import aw, solvent_water, water_at
from pellicle.message import Message, message

__all__ = [
    "AW_FLOOR",
    "COMPILABLE",
    "LEAST_VALID_AW",
    "AwInputs",
    "AwParameters",
    "WaterActivity",
    "aw",
    "aw_scalar",
    "classify",
    "default_parameters",
    "estimate",
    "inputs",
    "shares",
    "solvent_water",
    "water_at",
]

# Below this the model was hardly compared with anything; the range it states may be too narrow (review, section 8).
LEAST_VALID_AW = 0.75
STORAGE_C = 20.0
LEVEL = 0.90


@dataclass(frozen=True, slots=True)
class WaterActivity:
    """Water activity at 25 C as a meter would read it on a lot of this composition.

    ``aw`` is the expected value, ``low`` and ``high`` its range at ``level``, ``sd`` its standard deviation.
    ``model_aw`` is the bare model and ``bias`` what was added to it: what the class is expected to read differently
    (a sweet product reads wetter), or what the product's own readings taught. ``shares`` are the parts of -ln aw by
    group: ``salts``, ``sugars`` (with polyols and fruit acids), ``meat`` (its own small solutes), ``protein`` (the
    water it holds) and ``other``; they add to 1. ``alternative_aw`` is the bare model under the other mixing rule, to
    show what the structure is worth.
    """

    aw: float
    low: float
    high: float
    sd: float
    bias: float
    model_aw: float
    klass: Klass
    shares: Mapping[str, float]
    alternative_aw: float
    level: float
    flags: tuple[Message, ...]
    sources: tuple[str, ...]


def estimate(
    composition: Composition,
    correction: Correction | None = None,
    level: float = LEVEL,
    storage_c: float = STORAGE_C,
    overrides: Mapping[str, float] = parameter.NO_OVERRIDES,
) -> WaterActivity:
    """Return the water activity of one composition with its range, causes and warnings.

    ``composition`` holds kg (or kg per kg) as plain numbers; ``correction`` is what the product's lots taught
    (``learn``), None before any reading; ``level`` of the range, 0 to 1; ``storage_c`` [C] where the product will
    lie, for saturation; ``overrides`` are a product's own model parameters. The range covers the class's (or
    product's) mean error, scatter of lots and reading, and before any reading the model's three parameters; not doubt
    about the composition itself, which draws of it bring. InputError for no water, negative amounts, unknown solutes,
    a level outside 0 to 1. Valid for aw 0.75 to 1, flagged outside. A brine of 3 mol/kg has 0.8932 in the tables of
    Robinson and Stokes (from memory):

    >>> brine = estimate(Composition(water=1.0, solutes={"salt": 0.17532}))
    >>> round(brine.aw, 3), str(brine.klass), brine.low < 0.8932 < brine.high
    (0.893, 'solution', True)
    """
    if not 0.0 < level < 1.0:
        raise InputError("food_aw.level", field="level", value=f"{level:g}")
    read, parameters = inputs(composition), default_parameters(overrides)
    model_aw = float(aw(read, parameters))
    klass = classify(read, parameter.value("sweet_from", overrides))
    known = correction if correction is not None else prior(klass, overrides)
    here = applied(known, model_aw)
    depression = -math.log(model_aw)
    central = math.exp(-depression * math.exp(here.mean))
    sd_z = _sd_of_log(read, parameters, known, here, composition, model_aw)
    reach = NormalDist().inv_cdf((1.0 + level) / 2.0) * sd_z
    solvent = float(solvent_water(read, parameters))
    return WaterActivity(
        aw=central,
        low=max(math.exp(-depression * math.exp(here.mean + reach)), AW_FLOOR),
        high=math.exp(-depression * math.exp(here.mean - reach)),
        sd=abs(central * math.log(central)) * sd_z,
        bias=central - model_aw,
        model_aw=model_aw,
        klass=klass,
        shares=shares(read, parameters),
        alternative_aw=aw_by_groups(read, parameters),
        level=level,
        flags=_flags(composition, model_aw, solvent, storage_c) + known.remarks + here.remarks,
        sources=_sources(composition),
    )


def classify(read: AwInputs, sweet_from: float) -> Klass:
    """Return the class: no protein, or sugar and polyol per kg protein below ``sweet_from`` [kg/kg], or not.

    >>> str(classify(AwInputs(water=1.0, protein=1.0, sweet_kg=0.5), 0.4))
    'sweet'
    """
    if float(read.protein) <= 0.0:
        return Klass.SOLUTION
    return Klass.SWEET if float(read.sweet_kg) >= sweet_from * float(read.protein) else Klass.SALTED


def shares(read: AwInputs, parameters: AwParameters) -> Mapping[str, float]:
    """Return what each group contributes to -ln aw, as shares that add to 1 (all 0 in pure water).

    The groups of solutes as they would act in all the water; ``protein`` is what holding water back adds to that. The
    small cross term of salt and sugars is split between the two.

    >>> brine = AwInputs(water=1.0, salt_mol=3.0)
    >>> {name: round(share, 2) for name, share in shares(brine, default_parameters()).items()}
    {'salts': 1.0, 'sugars': 0.0, 'meat': 0.0, 'protein': 0.0, 'other': 0.0}
    """
    water = float(read.water)
    total = -math.log(float(aw(read, parameters)))
    salt = float(read.salt_mol) / water
    osmotic = float(osmotic_coefficient_continued(salt, read.salt_b0, read.salt_b1, read.salt_c))
    own = float(parameters.intrinsic_osmol_per_kg_protein * read.muscle)
    parts = {
        "salts": 2.0 * WATER_MOLAR_MASS * salt * osmotic,
        "sugars": -float(log_aw_norrish(float(read.sugar_mol) / water, float(read.root_k))),
        "meat": WATER_MOLAR_MASS * own / water,
        "protein": 0.0,
        "other": WATER_MOLAR_MASS * float(read.other_osmol) / water,
    }
    arguments = (read.salt_mol, read.sugar_mol, read.root_k, own + read.other_osmol)
    virial = (read.salt_b0, read.salt_b1, read.salt_c)
    free = -float(log_aw_solution(water, *arguments, parameters.salt_sugar_interaction, *virial))
    cross = free - sum(parts.values()) if parameters.salt_sugar_interaction else 0.0
    parts["salts"] += cross / 2.0
    parts["sugars"] += cross / 2.0
    parts["protein"] = max(total - free, 0.0)
    whole = sum(parts.values())
    return MappingProxyType({name: part / whole if whole > 0.0 else 0.0 for name, part in parts.items()})


def _sd_of_log(
    read: AwInputs,
    parameters: AwParameters,
    known: Correction,
    here: Applied,
    composition: Composition,
    model_aw: float,
) -> float:
    """Return the sd of ln(-ln aw) of a lot to come, as read."""
    variance = here.sd**2 + known.lot_sd**2 + known.reading_sd**2
    if known.lots == 0:
        variance += sum(move**2 for move in _moves(read, parameters))
    # d(aw) = aw ln aw dz turns doubt in aw into doubt in z
    steepness = -model_aw * math.log(model_aw)
    return math.sqrt(variance + (_syrup_sd(composition) / steepness) ** 2) if steepness > 0.0 else math.sqrt(variance)


def _moves(read: AwInputs, parameters: AwParameters) -> tuple[float, ...]:
    """Return how far ln(-ln aw) moves with each parameter, by its prior's sd (half of what lies between both sides)."""
    moves = []
    for name in ("protein_water_factor", "intrinsic_osmol_per_kg_protein", "salt_sugar_interaction"):
        sd = parameter.parameters()[name].spread
        middle = getattr(parameters, name)
        sides = [float(aw(read, replace(parameters, **{name: middle + move}))) for move in (-sd, sd)]
        if max(sides) < 1.0:
            moves.append((math.log(-math.log(sides[1])) - math.log(-math.log(sides[0]))) / 2.0)
    return tuple(moves)


def _syrup_sd(composition: Composition) -> float:
    """Return the extra sd in aw for glucose syrups, by their share of all dissolved amounts."""
    known = [(solute(name), float(mass)) for name, mass in composition.solutes.items()]
    amount = sum(mass / entry.molar_mass for entry, mass in known)
    doubtful = sum(mass / entry.molar_mass * entry.extra_aw_sd for entry, mass in known)
    return doubtful / amount if amount > 0.0 else 0.0


def _flags(composition: Composition, model_aw: float, solvent: float, storage_c: float) -> tuple[Message, ...]:
    found = list(saturation_warnings(composition.solutes, solvent, storage_c))
    if model_aw < LEAST_VALID_AW:
        found.append(message("food_aw.too_dry", aw=f"{model_aw:.2f}", least=f"{LEAST_VALID_AW:g}"))
    if model_aw <= AW_FLOOR:
        found.append(message("food_aw.at_floor", floor=f"{AW_FLOOR:g}"))
    if any(solute(name).extra_aw_sd and float(mass) > 0.0 for name, mass in composition.solutes.items()):
        found.append(message("food_aw.syrup"))
    return tuple(found)


def _sources(composition: Composition) -> tuple[str, ...]:
    """Return the keys of the model's sources and of the solutes that are there."""
    keys = set(relation.of(model.aw_scalar).sources)
    for name, mass in composition.solutes.items():
        if np.any(np.asarray(mass) > 0.0):
            keys.update(solute(name).sources)
    return tuple(sorted(keys))
