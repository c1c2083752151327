"""From a product to the mixture on the rack and its pull weight: the working that ``plan`` and ``like`` share."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from pellicle import parameter
from pellicle.answers.curve import Batch
from pellicle.answers.pull import PullWeight, aim_aw, pull_weight
from pellicle.food.correction import Applied, Correction, applied, computed_for
from pellicle.food.ingredients import catalogue
from pellicle.food.saturation import saturation_warnings
from pellicle.food.water_activity import LEAST_VALID_AW, classify, default_parameters, inputs, solvent_water
from pellicle.formula.finished import Finished
from pellicle.formula.parts import Formula
from pellicle.formula.resolve import resolve
from pellicle.formula.rounding import Rounded, round_to_scale
from pellicle.formula.uptake import Marinated, marinate
from pellicle.learn.readings import correction_from_readings, facts_sd
from pellicle.message import Message, message
from pellicle.product import Product
from pellicle.rules.aw_check import OPEN_PACK, missing_support
from pellicle.rules.own_limits import strictest_aw
from pellicle.study.draws import Prior
from pellicle.study.mixture import (
    KnownCorrection,
    UncertainMixture,
    central,
    facts_only,
    uncertain_mixture,
    uncertain_priors,
    water_left,
    weight_at,
)


@dataclass(frozen=True, slots=True)
class Working:
    """Everything between a product and its answers: formula, uptake, what is uncertain, what readings taught, the
    pull."""

    product: Product
    exact: Formula
    rounded: Rounded
    marinated: Marinated
    correction: Correction
    applied: Applied
    priors: Mapping[str, Prior]
    target_aw: float
    piece_sd: float
    pull: PullWeight
    batch: Batch

    @property
    def formula(self) -> Formula:
        """The formula as printed: rounded to the scale's division."""
        return self.rounded.formula

    @property
    def finished(self) -> Finished:
        """The formula with what was taken up of it and its weight at the pull."""
        return Finished(self.formula, self.marinated.taken_share, self.pull.kg)

    @property
    def warnings(self) -> tuple[Message, ...]:
        """What the model warns of at the pull: saturation where it is kept, water activity outside its validity."""
        middle, left = self.batch.middle, self.batch.left
        at_pull = replace(middle.aw_inputs, water=water_left(middle, self.pull.kg))
        solvent = float(np.median(solvent_water(at_pull, middle.aw_parameters)))
        masses = {name: float(np.median(np.asarray(mass))) for name, mass in left.solutes.items()}
        found = saturation_warnings(masses, solvent, self.product.storage_c)
        if self.pull.mean_aw < LEAST_VALID_AW:
            dry = message("food_aw.too_dry", aw=f"{self.pull.mean_aw:.2f}", least=f"{LEAST_VALID_AW:g}")
            found = (*found, dry)
        return found

    def mixture_of(self, priors: Mapping[str, Prior]) -> UncertainMixture:
        """Return draws of this mixture under other priors."""
        return uncertain_mixture(self.formula, default_parameters(self.product.model), priors)

    def pull_of(self, priors: Mapping[str, Prior]) -> float:
        """Return the pull weight [kg] under other priors."""
        weights = weight_at(self.mixture_of(priors), aim_aw(self.target_aw, self.piece_sd))
        return float(np.quantile(weights, 1 - self.product.target.confidence))


def work_out(
    product: Product, raw_kg: float | None = None, total_kg: float | None = None, drip: Prior | None = None
) -> Working:
    """Return the working of a product for a green weight or a total [kg], or for its own.

    ``drip`` is what is known of the share that drips, in place of the guess; readings are then read with it, so that
    what they teach fits it. InputError for whatever cannot be weighed out, taken up or dried to the limit.
    """
    exact = resolve(product, catalogue(), raw_kg, total_kg)
    rounded = round_to_scale(exact, product.scale_division_kg)
    formula = rounded.formula
    marinated = marinate(formula, product.uptake, product.cure_method, product.model)
    piece_sd = parameter.value("piece_sd_aw", product.model)
    target = target_aw(product)
    mixture_of: Callable[[Mapping[str, Prior]], UncertainMixture] = partial(
        uncertain_mixture, formula, default_parameters(product.model)
    )

    klass = classify(inputs(marinated.composition), parameter.value("sweet_from", product.model))
    dripped = {} if drip is None else {"drip_share": drip}
    bare = {**uncertain_priors(formula, marinated, KnownCorrection(0.0), product.model), **dripped}
    facts = mixture_of(facts_only(bare, 0.0))
    correction = correction_from_readings(product.readings, klass, facts, formula.raw_kg, product.model)
    used = applied(correction, computed_for(correction, aim_aw(target, piece_sd)))
    learnt = KnownCorrection(used.mean, used.sd, correction.lot_sd)
    priors = {**uncertain_priors(formula, marinated, learnt, product.model), **dripped}

    pull = pull_weight(priors, mixture_of, target, product.target.confidence, piece_sd)
    batch = Batch(mixture_of(priors), mixture_of(central(priors)), formula.raw_kg, marinated.kg, piece_sd)
    return Working(product, exact, rounded, marinated, correction, used, priors, target, piece_sd, pull, batch)


def target_aw(product: Product) -> float:
    """Return the limit the pull is worked out for: the strictest of the product's own, of the plant's, and of 0.85
    where what allows more is not all shown."""
    limits = [product.target.limit]
    if OPEN_PACK.limit is not None and missing_support(product.target, product.pack):
        limits.append(OPEN_PACK.limit)
    own = strictest_aw(product.plan.limits)
    return min(limits if own is None else [*limits, own])


def after_lots(work: Working, lots: int) -> float:
    """Return the standard deviation the correction would have after so many further lots, each read three times."""
    spread = facts_sd(work.mixture_of(facts_only(work.priors, work.applied.mean)), work.pull.kg)
    evidence = spread**2 + work.correction.lot_sd**2 + work.correction.reading_sd**2 / READINGS_A_LOT
    return float(1 / np.sqrt(1 / work.applied.sd**2 + lots / evidence))


# Three readings a lot: what a plant that reads at all does at least. assumed: common practice, no source
READINGS_A_LOT = 3
