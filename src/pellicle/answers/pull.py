"""The weight to pull at: where the wettest pieces of the batch are at the limit, at the stated confidence."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from pellicle.errors import InputError
from pellicle.study.draws import Prior
from pellicle.study.mixture import UncertainMixture, aw_at, central, facts_only, weight_at

# The wettest 5 % of pieces stand 1.645 standard deviations above the mean (standard normal distribution, 95 % point).
WETTEST_Z = 1.6448536269514722
LEVEL = 0.90
# assumed: below this the sorption of meat protein and supersaturated solutions are extrapolated; nothing is promised
# there.
LOWEST_TARGET = 0.60
# The search for the decisive correction halves [-REACH, REACH]: six times the widest prior, to a ten-thousandth.
REACH = 1.0
HALVINGS = 14

MixtureOf = Callable[[Mapping[str, Prior]], UncertainMixture]


@dataclass(frozen=True, slots=True)
class PullWeight:
    """The weight of the batch at the pull [kg], its range, and the water activities that belong to it.

    ``low_kg`` to ``high_kg`` is the 90 % range over what differs between batches, with the model held where it decides;
    ``likely_kg`` the median of where the wettest pieces meet the limit; ``mean_aw`` the predicted mean at the pull;
    ``aim_aw`` the mean at which the wettest 5 % of pieces are at the limit.
    """

    kg: float
    low_kg: float
    high_kg: float
    likely_kg: float
    mean_aw: float
    aim_aw: float


def aim_aw(limit: float, piece_sd: float) -> float:
    """Return the batch mean at which 95 % of pieces are at or under ``limit``, for a spread ``piece_sd`` between
    pieces.

    >>> round(aim_aw(0.85, 0.010), 4)  # own arithmetic: 0.85 - 1.645 x 0.010
    0.8336
    """
    return limit - WETTEST_Z * piece_sd


def pull_weight(
    priors: Mapping[str, Prior], mixture_of: MixtureOf, limit: float, confidence: float, piece_sd: float
) -> PullWeight:
    """Return the weight at which the wettest 5 % of pieces are at or under ``limit`` with probability ``confidence``.

    InputError if the mixture is under the limit before it is dried, or the limit lies where nothing is known.
    """
    aim = aim_aw(limit, piece_sd)
    mixture = mixture_of(priors)
    refuse_unreachable(mixture_of(central(priors)), limit, aim)
    weights = weight_at(mixture, aim)
    kg = float(np.quantile(weights, 1 - confidence))
    low, high = _range_over_facts(kg, mixture_of(facts_only(priors, 0.0)), aim)
    return PullWeight(
        kg=kg,
        low_kg=min(low, kg),
        high_kg=max(high, kg),
        likely_kg=float(np.median(weights)),
        mean_aw=float(np.median(aw_at(mixture, kg))),
        aim_aw=aim,
    )


def refuse_unreachable(middle: UncertainMixture, limit: float, aim: float) -> None:
    """Refuse a limit that drying cannot reach: the mixture is under it already, or it lies where nothing is known."""
    if aim < LOWEST_TARGET:
        raise InputError(
            "answers.limit_too_low", field="product.aw_limit", read=f"{limit:.2f}", low=f"{LOWEST_TARGET:.2f}"
        )
    start = float(np.median(aw_at(middle, float(np.median(middle.start_kg)))))
    if start <= aim:
        raise InputError(
            "answers.already_dry", field="product.aw_limit", read=f"{limit:.3g}", start=f"{start:.3f}", aim=f"{aim:.3f}"
        )


def _range_over_facts(kg: float, facts: UncertainMixture, aim: float) -> tuple[float, float]:
    low, high = -REACH, REACH
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        # A larger correction means a drier product at the same water, so it may be pulled heavier.
        low, high = (middle, high) if float(np.median(_weights(facts, aim, middle))) < kg else (low, middle)
    ends = np.quantile(_weights(facts, aim, (low + high) / 2), [(1 - LEVEL) / 2, (1 + LEVEL) / 2])
    return float(ends[0]), float(ends[1])


def _weights(
    facts: UncertainMixture, aim: float, correction: float
) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return weight_at(replace(facts, log_correction=np.full(facts.start_kg.shape, correction)), aim)
