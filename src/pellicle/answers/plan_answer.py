"""What ``plan`` answers: one frozen value, of which terminal page, JSON document and sheet are renderings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from pellicle.answers.schedule_rows import ScheduleRow
from pellicle.figure import Figure
from pellicle.message import Message
from pellicle.rules.cautions import Caution
from pellicle.rules.verdict import Check
from pellicle.source import Source


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One line to weigh. ``kg`` is the amount as printed, rounded to the scale's division; percentages are exact.

    ``percent_of_finished`` is the line's share of the weight at the pull, None for plain water, which leaves again.
    ``is_limited`` where a law limits what the line brings: then no unit prints more than was checked. ``carries`` are
    remarks that stand beside the line (ppm nitrite, salt with the cure, spoon cross-check).
    """

    ingredient: str
    label: str
    kg: float | None
    exact_kg: float | None
    percent_of_raw: float
    percent_of_total: float
    percent_of_finished: float | None
    is_meat: bool = False
    is_cure: bool = False
    is_limited: bool = False
    allergens: tuple[str, ...] = ()
    carries: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class CureAnswer:
    """The cure: ingoing nitrite by the method's official arithmetic against the limit of the jurisdiction and date."""

    agent: str
    method: str
    ingoing_ppm: float | None
    basis: str
    limit_ppm: float | None
    verdict: str
    worst_case_ppm: float | None
    finished_undepleted_ppm: float | None
    largest_lawful_kg: float | None
    arithmetic: tuple[Message, ...]
    sources: tuple[str, ...]
    other_official_ppm: float | None = None


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """The product at one weight on the way down. ``mark`` names a weight that means something (pull, MPR 0.75, ...)."""

    kg: float
    percent_of_raw: float
    percent_of_marinated: float
    water_kg: float
    aw: float
    aw_low: float
    aw_high: float
    mpr: float | None
    salt_percent: float
    sugar_percent: float
    brine_percent: float
    inside: bool
    mark: Message | None = None


@dataclass(frozen=True, slots=True)
class RackPull:
    """The scale reading at which one rack, screen or truck is pulled: tare included."""

    name: str
    tare_kg: float
    loaded_kg: float | None
    pull_kg: float | None
    percent_of_loaded: float
    marked: bool


@dataclass(frozen=True, slots=True)
class Worth:
    """What a piece of evidence would do to the pull weight, in kg per 100 kg of green weight."""

    evidence: Message
    kg_per_100_raw: float


@dataclass(frozen=True, slots=True)
class Pull:
    """The weight to pull at, for the target water activity of the wettest pieces at the stated confidence.

    ``low_kg`` to ``high_kg`` is how far this weight would move if the batch's own meat, uptake and losses were known
    (90 %); ``likely_kg`` is where the wettest pieces most likely meet the limit. ``batch_mean_aw`` is the mean to aim
    for; ``reading_at_most`` what a reading of the equalised batch should not exceed.
    """

    aw: float
    confidence: float
    kg: float | None
    percent_of_raw: float | None
    percent_of_marinated: float | None
    low_kg: float | None
    high_kg: float | None
    likely_kg: float | None
    batch_mean_aw: float | None
    reading_at_most: float | None
    piece_sd: float
    why_not: Message | None = None
    racks: tuple[RackPull, ...] = ()
    worth: tuple[Worth, ...] = ()


@dataclass(frozen=True, slots=True)
class YieldAt:
    """A yield with its base: finished weight at the pull as percent of the weight called ``base``."""

    base: str
    base_kg: float
    percent: float


@dataclass(frozen=True, slots=True)
class LikeLine:
    """One seasoning beside the other product's: the factor that gives the same taste per bite."""

    ingredient: str
    percent_of_finished: float
    other_percent_of_finished: float
    factor: float
    percent_of_raw: float
    new_percent_of_raw: float


@dataclass(frozen=True, slots=True)
class Like:
    """Matching another product's taste per bite, and what that does to aw, cure and pull weight."""

    other: str
    lines: tuple[LikeLine, ...]
    pull_kg_before: float | None
    pull_kg_after: float | None
    aw_before: float | None
    aw_after: float | None
    nitrite_ppm_before: float | None
    nitrite_ppm_after: float | None
    notes: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanAnswer:
    """Everything ``plan`` says. ``refused`` is set, and no amount to weigh stands anywhere, over a cure limit."""

    product: str
    jurisdiction: str
    on: str
    sentence: Message
    refused: Message | None
    raw_kg: float
    total_kg: float | None
    marinated_kg: float | None
    marinated_low_kg: float | None
    marinated_high_kg: float | None
    lines: tuple[PlanLine, ...]
    cure: CureAnswer | None
    pull: Pull
    curve: tuple[CurvePoint, ...]
    yields: tuple[YieldAt, ...]
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    assumptions: tuple[Message, ...]
    facts: tuple[Message, ...]
    sources: tuple[Source, ...]
    flags: tuple[str, ...] = ()
    like: Like | None = None
    scale_division_kg: float | None = None
    schedule: tuple[ScheduleRow, ...] = ()
    figures: Mapping[str, Figure] = field(default_factory=lambda: MappingProxyType({}))
