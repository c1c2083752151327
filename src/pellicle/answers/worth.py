"""What the next piece of evidence is worth: how far it is expected to raise the pull weight, per 100 kg of green
weight."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from pellicle.answers.plan_answer import Worth
from pellicle.message import message
from pellicle.study.draws import Prior

# A lot-by-lot analysis of the raw meat brings its water and protein to about a third of the table's spread.
# assumed: common practice, no source
ANALYSED = 1 / 3
# Gains under this many kg per 100 kg raw are not worth a line.
LEAST_GAIN = 0.05

PullOf = Callable[[Mapping[str, Prior]], float]


def worth(
    priors: Mapping[str, Prior],
    pull_of: PullOf,
    raw_kg: float,
    after_lots: Mapping[int, float],
    pickup_sd: float | None,
) -> tuple[Worth, ...]:
    """Return what each piece of evidence would do to the pull weight, the most worth first.

    ``after_lots`` gives, by number of further lots with readings, the standard deviation the correction would have
    then; its mean is held, since what the readings will say is not known. ``pickup_sd`` is the spread of the share
    taken up once it is weighed, or None if it is weighed already.
    """
    cases = [
        (message("answers.worth_lots", lots=str(lots)), _narrowed(priors, {"correction": sd}))
        for lots, sd in after_lots.items()
    ]
    analysed = _narrowed(priors, {name: priors[name].spread * ANALYSED for name in ANALYSES})
    cases.append((message("answers.worth_analysis"), analysed))
    if pickup_sd is not None:
        cases.append((message("answers.worth_pickup"), {**priors, "taken": _weighed(priors["taken"], pickup_sd)}))
    now = pull_of(priors)
    gains = [Worth(text, 100 * (pull_of(changed) - now) / raw_kg) for text, changed in cases]
    return tuple(sorted((gain for gain in gains if gain.kg_per_100_raw >= LEAST_GAIN), key=_by_gain))


ANALYSES: Sequence[str] = ("meat_water", "meat_protein")


def _narrowed(priors: Mapping[str, Prior], spreads: Mapping[str, float]) -> Mapping[str, Prior]:
    found = dict(priors)
    for name, spread in spreads.items():
        found[name] = replace(priors[name], spread=min(spread, priors[name].spread))
    return found


def _weighed(taken: Prior, sd: float) -> Prior:
    middle = (taken.low + taken.high) / 2 if taken.shape == "uniform" else taken.centre
    return Prior(middle, sd, "normal", 0.0, 1.0)


def _by_gain(gain: Worth) -> float:
    return -gain.kg_per_100_raw
