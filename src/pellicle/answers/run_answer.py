"""The shape of what ``run`` answers: the passage through the house, its end, lethality, growth, spread and findings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from pellicle.answers.lethality_answer import OrganismGrowth, OrganismLethality
from pellicle.message import Message
from pellicle.rules.cautions import Caution
from pellicle.rules.verdict import Check
from pellicle.source import Source


@dataclass(frozen=True, slots=True)
class RunStepRow:
    """One step as it went: how long, what ended it."""

    name: str
    minutes: float
    ended_by: str


@dataclass(frozen=True, slots=True)
class RunEnd:
    """The product at the end of the schedule; ``kg`` is the batch of which the piece is one, most likely losses
    alone."""

    hours: float
    kg: float
    percent_of_raw: float
    percent_of_marinated: float
    aw_mean: float
    aw_surface: float
    core_c: float
    moisture_percent: float
    mpr: float | None
    thickness_m: float


@dataclass(frozen=True, slots=True)
class RunHistory:
    """The passage on a grid of times [min]: air, core and faces [C], humidity [%], weight, water activity, credit."""

    minutes: tuple[float, ...]
    dry_bulb_c: tuple[float, ...]
    wet_bulb_c: tuple[float, ...]
    rh_percent: tuple[float, ...]
    core_c: tuple[float, ...]
    surface_c: tuple[float, ...]
    weight_percent_of_raw: tuple[float, ...]
    aw_mean: tuple[float, ...]
    aw_surface: tuple[float, ...]
    lethality_wet: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Range:
    """A quantity over the ensemble: its median and the ends of its 90 % range."""

    middle: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Spread:
    """What differs between batches and pieces does to the passage.

    Batches share one house, one meat and one water; pieces of a batch differ in thickness and in the air they get.
    ``p_aw`` is the share of batches whose wettest 5 % of pieces are at or under the limit, ``p_lethality`` of those
    whose least treated 5 % of pieces reach the target by the wet credit; None without a target.
    """

    batches: int
    pieces: int
    failed: int
    hours: Range
    percent_of_raw: Range
    aw_mean: Range
    aw_wettest: Range
    lethality_wet: Range | None
    p_aw: float
    p_lethality: float | None


@dataclass(frozen=True, slots=True)
class RunAnswer:
    """Everything ``run`` says. ``pull_kg`` restates the plan's pull weight with the drip of this passage."""

    product: str
    on: str
    sentence: Message
    steps: tuple[RunStepRow, ...]
    end: RunEnd
    history: RunHistory
    governing: str
    lethality: Mapping[str, OrganismLethality]
    growth: Mapping[str, OrganismGrowth]
    drip_percent_of_marinated: float
    salts_lost_percent: float
    sugars_lost_percent: float
    pull_kg: float
    pull_kg_without_run: float
    aw_limit: float
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    remarks: tuple[Message, ...]
    assumptions: tuple[Message, ...]
    flags: tuple[Message, ...]
    problem: Message | None
    sources: tuple[Source, ...]
    spread: Spread | None = None
    balances: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
