"""The mixture on the rack, as uncertain as it honestly is: draws of the meat, of what it took up, of what is lost
besides water, and of the model's own error. From these follow the weight at a water activity and the water activity at
a weight.

Two kinds of doubt are kept apart. *Facts of the batch* differ from one batch to the next and could be weighed: the
meat's composition, the uptake, drip, rendered fat, crumbs, the scale. *Doubt about the model* is the same for every
batch of the product and only readings lessen it: the correction of its water potential, whose prior covers all that
the model gets wrong for a class of product. The model's own parameters are not drawn as well, or their doubt would
count twice and stay when readings have settled it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from pellicle import parameter
from pellicle.food.composition import Composition
from pellicle.food.correction import REFERENCE_SLOPE
from pellicle.food.ingredients import Ingredient
from pellicle.food.solutes import solute
from pellicle.food.water_activity import AwInputs, AwParameters, aw, inputs, water_at
from pellicle.formula.resolve import Formula
from pellicle.formula.uptake import Marinated, composition_at
from pellicle.study.draws import COUNT, Draws, Prior, draw

LOSSES = ("drip_share", "fat_loss_share", "removed_share")
FACTS = ("meat_water", "meat_protein", "taken", "weighing", *LOSSES)


@dataclass(frozen=True, slots=True)
class KnownCorrection:
    """What is known of ln(measured / computed water potential) of the product: mean and sd; and the scatter of one
    lot."""

    mean: float
    sd: float = 0.0
    lot_sd: float = 0.0


@dataclass(frozen=True, slots=True)
class UncertainMixture:
    """Draws of the mixture after its losses, arrays of one length, and the weight it had when it went onto the rack.

    ``left`` is everything that will still be there at the pull, with the water it went in with; ``removed`` is the
    share of the finished weight that crumbled or was taken out; ``weighing`` the relative error of the scale.
    """

    start_kg: Draws
    left: Composition
    aw_inputs: AwInputs
    aw_parameters: AwParameters
    log_correction: Draws
    removed: Draws
    weighing: Draws


def uncertain_priors(
    formula: Formula, marinated: Marinated, correction: KnownCorrection, overrides: Mapping[str, float]
) -> Mapping[str, Prior]:
    """Return the prior of every uncertain quantity by name; ``overrides`` are the product's ``[model]`` values."""
    meat = formula.meat.composition
    named = "meat_water_sd" in overrides or not formula.meat.water_sd
    water_sd = parameter.value("meat_water_sd", overrides) if named else formula.meat.water_sd
    taken = (
        Prior(marinated.taken_share, marinated.sd, "normal", 0.0, 1.0)
        if marinated.known
        else Prior(marinated.taken_share, 0.0, "uniform", marinated.low, marinated.high)
    )
    return {
        "meat_water": Prior(float(meat.water), water_sd),
        "meat_protein": Prior(float(meat.protein), parameter.value("meat_protein_sd", overrides)),
        "taken": taken,
        "weighing": Prior(0.0, parameter.value("weighing_sd", overrides)),
        **{name: _listed(name, overrides) for name in LOSSES},
        "correction": Prior(correction.mean, math.hypot(correction.sd, _syrup_doubt(marinated.composition))),
        "lot": Prior(0.0, correction.lot_sd),
    }


def uncertain_mixture(
    formula: Formula,
    parameters: AwParameters,
    priors: Mapping[str, Prior],
    count: int = COUNT,
) -> UncertainMixture:
    """Return ``count`` draws of the mixture under ``priors``, with the water activity model's parameters."""
    values = draw(priors, count)
    bags = _label_draws(formula, count)
    start = composition_at(bags, _meat(formula.meat, values), values["taken"])
    left = _after_losses(start, values)
    return UncertainMixture(
        start_kg=np.asarray(start.total, dtype=float),
        left=left,
        aw_inputs=inputs(left),
        aw_parameters=parameters,
        log_correction=values["correction"] + values["lot"],
        removed=values["removed_share"],
        weighing=values["weighing"],
    )


def central(priors: Mapping[str, Prior]) -> Mapping[str, Prior]:
    """Return the priors with every quantity at its most likely value: the middle of a range, no error, no loss."""
    return {
        name: Prior((prior.low + prior.high) / 2 if prior.shape == "uniform" else prior.centre, shape="none")
        for name, prior in priors.items()
    }


def facts_only(priors: Mapping[str, Prior], correction: float) -> Mapping[str, Prior]:
    """Return the priors with the facts of the batch uncertain, the model at its middle and its correction as given."""
    fixed = {**central(priors), "correction": Prior(correction, shape="none")}
    return {name: priors[name] if name in FACTS else fixed[name] for name in priors}


def weight_at(mixture: UncertainMixture, aw_target: float | Draws) -> Draws:
    """Return, per draw, the weight the scale shows [kg] when the mean water activity of the batch is ``aw_target``,
    one for all or one for each draw."""
    water = water_at(aw_target, mixture.aw_inputs, mixture.aw_parameters, mixture.log_correction)
    present = np.asarray(mixture.left.dry, dtype=float) + np.asarray(water, dtype=float)
    shown: Draws = present * (1 - mixture.removed) * (1 + mixture.weighing)
    return shown


def aw_at(mixture: UncertainMixture, kg: float) -> Draws:
    """Return, per draw, the mean water activity of the batch when the scale shows ``kg``; 0 where no water can be
    left."""
    water = water_left(mixture, kg)
    wet = replace(mixture.aw_inputs, water=np.maximum(water, LEAST_WATER * np.asarray(mixture.left.dry)))
    found = np.asarray(aw(wet, mixture.aw_parameters, mixture.log_correction), dtype=float)
    return np.where(water > 0, found, 0.0)


def water_left(mixture: UncertainMixture, kg: float) -> Draws:
    """Return, per draw, the water [kg] in the whole batch when the scale shows ``kg`` (negative: that weight is all
    dry)."""
    present = kg / ((1 - mixture.removed) * (1 + mixture.weighing))
    water: Draws = present - np.asarray(mixture.left.dry, dtype=float)
    return water


# Alcohol, vinegar's acid and propylene glycol leave with the steam and the smoke. How much stays is not known; counting
# none of it errs on the side of a wetter product. assumed: common practice, no source
VOLATILE = frozenset({"ethanol", "acetic acid", "propylene glycol"})
# Below a thousandth of the dry matter the model says nothing; the floor only keeps logarithms finite.
LEAST_WATER = 1e-3


def _listed(name: str, overrides: Mapping[str, float]) -> Prior:
    row = parameter.parameters()[name]
    centre = parameter.value(name, overrides)
    shape = row.prior if name not in overrides else "none"
    return Prior(centre, row.spread or 0.0, shape, row.low, row.high)


def _meat(meat: Ingredient, values: Mapping[str, Draws]) -> Composition:
    given = meat.composition
    water, protein = values["meat_water"], np.maximum(values["meat_protein"], 0.0)
    other = given.ash + given.carbohydrate + given.solute(*given.solutes)
    fat = np.maximum(1 - water - protein - other, 0.0)
    muscle = protein * (given.muscle / given.protein if np.all(np.asarray(given.protein) > 0) else 0.0)
    drawn = Composition(water, protein, fat, given.ash, given.carbohydrate, muscle, given.solutes)
    return drawn * (1 / np.asarray(drawn.total))


def _after_losses(start: Composition, values: Mapping[str, Draws]) -> Composition:
    # Drip is juice: it carries dissolved solutes and meat's own small ones at the concentration they have in the water.
    juice = start.water + start.solute(*start.solutes)
    lost = np.clip(values["drip_share"] * start.total / np.maximum(juice, LEAST_WATER), 0.0, 1.0)
    kept = 1 - lost
    return Composition(
        start.water * kept,
        start.protein,
        start.fat * (1 - values["fat_loss_share"]),
        start.ash,
        start.carbohydrate,
        start.muscle * kept,
        MappingProxyType({name: mass * kept for name, mass in start.solutes.items() if name not in VOLATILE}),
    )


def _label_draws(formula: Formula, count: int) -> Formula:
    """Return the formula with what labels leave open, and water that differs between lots, drawn per ingredient."""
    drawn = []
    for at, part in enumerate(formula.parts):
        ingredient, key = part.ingredient, f"{part.ingredient.name} {at}"
        composition = ingredient.composition
        if ingredient.spread:
            composition = _with_solutes(composition, ingredient.spread, key, count)
        if ingredient.water_sd:
            composition = _with_water(composition, ingredient.water_sd, key, count)
        drawn.append(replace(part, ingredient=replace(ingredient, composition=composition)))
    return replace(formula, parts=tuple(drawn))


def _with_solutes(given: Composition, spread: Mapping[str, float], key: str, count: int) -> Composition:
    priors = {name: Prior(1.0, sd, "normal", 0.0, 2.0) for name, sd in spread.items()}
    factors = {name: draw({f"{key} {name}": prior}, count)[f"{key} {name}"] for name, prior in priors.items()}
    solutes = {name: mass * factors.get(name, 1.0) for name, mass in given.solutes.items()}
    changed = sum((solutes[name] - given.solutes[name] for name in solutes), start=np.zeros(count))
    # What is more in solutes is less in undissolved solids, and the other way round: the bag weighs what it weighs.
    rest = np.maximum(given.carbohydrate - changed, 0.0)
    made = Composition(given.water, given.protein, given.fat, given.ash, rest, given.muscle, MappingProxyType(solutes))
    return made * (1 / np.asarray(made.total, dtype=float))


def _with_water(given: Composition, sd: float, key: str, count: int) -> Composition:
    water = np.clip(np.asarray(given.water) + draw({f"{key} water": Prior(0.0, sd)}, count)[f"{key} water"], 0.0, 1.0)
    dry = given.with_water(0.0)
    whole: Composition = dry * ((1 - water) / np.asarray(dry.total, dtype=float))
    return whole.with_water(water)


def _syrup_doubt(composition: Composition) -> float:
    """The sd of ln(-ln aw) that sugars of an unsure make-up add, by their share of all sweet solutes."""
    sweet = {name: float(mass) for name, mass in composition.solutes.items() if solute(name).sweet}
    whole = sum(sweet.values())
    doubt = sum(solute(name).extra_aw_sd * mass for name, mass in sweet.items())
    return doubt / whole / REFERENCE_SLOPE if whole > 0 else 0.0
