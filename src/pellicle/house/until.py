"""What ends a step, as data: time, core temperature, weight, mean water activity, or the gap of water activity."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from pellicle.errors import InputError
from pellicle.message import Message, message
from pellicle.passage import Step, StopWeight, WeightOf
from pellicle.units import show_duration, show_mass, show_percent, show_temperature

LONGEST_S = 30 * 86400.0  # how long a step that states no at_most may wait for its end: own choice


class EndKind(StrEnum):
    """What is watched to end a step."""

    TIME = "time"
    CORE = "core"
    WEIGHT = "weight"
    AW = "aw"
    GAP = "gap"


@dataclass(frozen=True, slots=True)
class Weights:
    """What the weights of an end refer to, in kg: raw, marinated (as it goes in), and its dry matter."""

    raw_kg: float
    marinated_kg: float
    dry_kg: float


@dataclass(frozen=True, slots=True)
class End:
    """What ends a step: ``value`` in s, C, kg per kg of the weight as it went in, aw, or aw difference.

    ``falling`` says from which side it is reached. ``at_most_s`` ends the step in any case; ``at_most_stated`` is
    False where the file states none.
    """

    kind: EndKind
    value: float
    falling: bool
    at_most_s: float
    at_most_stated: bool

    @property
    def said(self) -> Message:
        """The end in words."""
        shown = _shown(self.kind, self.value)
        return message(f"house.end_{self.kind.value}", value=shown)


def _shown(kind: EndKind, value: float) -> str:
    if kind is EndKind.TIME:
        return show_duration(value)
    if kind is EndKind.CORE:
        return show_temperature(value, digits=1)
    return show_percent(value) if kind is EndKind.WEIGHT else f"{value:.3f}"


# How each end is called in a product file, and where its value stands.
WAYS: dict[EndKind, tuple[str, Callable[[Step], object]]] = {
    EndKind.TIME: ("for", lambda step: step.for_s),
    EndKind.CORE: ("until_core", lambda step: step.until_core_c),
    EndKind.WEIGHT: ("until_weight", lambda step: step.until_weight),
    EndKind.AW: ("until_aw", lambda step: step.until_aw),
    EndKind.GAP: ("until_gap", lambda step: step.until_gap),
}


def end_kind(step: Step, field: str) -> EndKind:
    """Return what ends a step; InputError if nothing does, or two things do."""
    given = [kind for kind, (_, read) in WAYS.items() if read(step) is not None]
    if not given:
        raise InputError("house.no_end", field=field, name=step.name)
    if len(given) > 1:
        first, second = (WAYS[kind][0] for kind in given[:2])
        raise InputError("house.two_ends", field=f"{field}.{second}", name=step.name, first=first, second=second)
    return given[0]


def end_of(step: Step, field: str, weights: Weights | None) -> End:
    """Return the end of a step with its weight as share of what went in; InputError if it cannot be reached."""
    kind = end_kind(step, field)
    value = WAYS[kind][1](step)
    at_most = LONGEST_S if step.at_most_s is None else step.at_most_s
    if isinstance(value, StopWeight):
        value = _share_of_start(value, f"{field}.until_weight", weights)
    if kind is EndKind.TIME:
        at_most = float(value) if step.at_most_s is None else at_most  # type: ignore[arg-type]
    falling = kind in (EndKind.WEIGHT, EndKind.AW, EndKind.GAP)
    return End(kind, float(value), falling, at_most, step.at_most_s is not None)  # type: ignore[arg-type]


def _share_of_start(stop: StopWeight, field: str, weights: Weights | None) -> float:
    """Return the weight that ends a step as share of the weight that went in."""
    if weights is None:
        raise InputError("house.weight_needs_raw", field=field)
    base = {WeightOf.RAW: weights.raw_kg, WeightOf.MARINATED: weights.marinated_kg, WeightOf.KG: 1.0}[stop.of]
    kg = stop.value * base
    share = f"{show_percent(stop.value)} {stop.of.value} ({show_mass(kg)})"
    asked = show_mass(kg) if stop.of is WeightOf.KG else share
    if kg >= weights.marinated_kg:
        start = show_mass(weights.marinated_kg)
        raise InputError("house.weight_above_start", field=field, read=asked, start=start)
    if kg <= weights.dry_kg:
        raise InputError("house.weight_below_dry", field=field, read=asked, dry=show_mass(weights.dry_kg))
    return kg / weights.marinated_kg
