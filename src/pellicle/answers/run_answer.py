"""The shape of what ``run`` answers: the passage through the house, its end, lethality, growth, spread and findings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from pellicle.answers.lethality_answer import Mould, OrganismGrowth, OrganismLethality, ProcessMinutes
from pellicle.answers.plan_answer import RackPull
from pellicle.answers.schedule_rows import ScheduleRow
from pellicle.message import Message
from pellicle.rules.cautions import Caution
from pellicle.rules.verdict import Check
from pellicle.run.face_state import FaceState
from pellicle.source import Source
from pellicle.study.draws import Prior


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
class Counted:
    """A stretch of time [min] in which heat was credited: the drier open face was wet enough."""

    from_minutes: float
    to_minutes: float


@dataclass(frozen=True, slots=True)
class Profile:
    """One moment across the piece, from the lower face (the middle, of a symmetric one) to the upper.

    ``depth_m`` [m] below the upper face, in the piece as thick as it is then; temperature [C], water, salts and
    sugars in % of the weight there, water activity.
    """

    minutes: float
    depth_m: tuple[float, ...]
    temperature_c: tuple[float, ...]
    water_percent: tuple[float, ...]
    salts_percent: tuple[float, ...]
    sugars_percent: tuple[float, ...]
    aw: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """The sealed rest a thick piece needs before its water activity is read: until no two places in it differ by more
    than ``gap``, at ``at_c`` [C]; ``hours`` None where ``most_hours`` are not enough."""

    hours: float | None
    most_hours: float
    gap: float
    at_c: float
    thickness_m: float


@dataclass(frozen=True, slots=True)
class Left:
    """What left the piece, % of the marinated weight, and heat in kJ per kg of it: received, and gone with water."""

    vapour_percent: float
    drip_water_percent: float
    drip_salts_percent: float
    drip_sugars_percent: float
    heat_received_kj_kg: float
    heat_left_kj_kg: float


@dataclass(frozen=True, slots=True)
class Range:
    """A quantity over the ensemble: its median and the ends of its 90 % range."""

    middle: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class PlaceEnd:
    """A piece of middling thickness in one place of the house, in the middle batch: weight on green [%], water
    activity, credit while wet."""

    name: str
    percent_of_raw: float
    aw_mean: float
    lethality_wet: float | None


@dataclass(frozen=True, slots=True)
class Spread:
    """What differs between batches and pieces does to the passage.

    Batches share one house, one meat and one water; pieces of a batch differ in thickness and in the air they get.
    ``p_aw`` is the share of batches whose wettest 5 % of pieces are at or under the limit, ``p_lethality`` of those
    whose least treated 5 % of pieces reach the target against ``organism`` by the wet credit, ``p_both`` of those that
    do both; None without a target. ``aim_aw`` is the water activity of the whole batch when its wettest 5 % of pieces,
    as unlike as stated and not evened out, are at the limit (None where that is not reached), and ``pull_kg`` the pull
    weight for that. ``pull_enough`` is False where even the driest that can be told is not dry enough for batches that
    count. ``places`` are those the house states.
    """

    organism: str
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
    p_both: float | None
    aim_aw: float | None
    pull_kg: float
    pull_enough: bool
    places: tuple[PlaceEnd, ...] = ()


@dataclass(frozen=True, slots=True)
class RunAnswer:
    """Everything ``run`` says. ``pull_kg`` restates the plan's pull weight with the drip of this passage, with its
    90 % range over what differs between batches; ``pull_lightest_kg`` is the lightest of the plan's, that and the
    spread's, by which to pull, and ``racks`` are the scale readings for it. ``schedule`` is what was asked for,
    ``steps`` what came of it.

    ``counted`` are the stretches in which heat was credited, ``uncounted`` says in words why it was not in between.
    """

    product: str
    on: str
    sentence: Message
    raw_kg: float
    schedule: tuple[ScheduleRow, ...]
    steps: tuple[RunStepRow, ...]
    end: RunEnd
    history: RunHistory
    governing: str
    lethality: Mapping[str, OrganismLethality]
    counted: tuple[Counted, ...]
    uncounted: Message
    process: ProcessMinutes
    growth: Mapping[str, OrganismGrowth]
    mould: Mould | None
    left: Left
    drip_percent_of_marinated: float
    salts_lost_percent: float
    sugars_lost_percent: float
    face: FaceState
    rest: Rest | None
    pull_kg: float
    pull_low_kg: float
    pull_high_kg: float
    pull_kg_without_run: float
    pull_lightest_kg: float
    drip: Prior | None
    racks: tuple[RackPull, ...]
    aw_limit: float
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    remarks: tuple[Message, ...]
    assumptions: tuple[Message, ...]
    flags: tuple[Message, ...]
    problem: Message | None
    sources: tuple[Source, ...]
    spread: Spread | None = None
    profiles: tuple[Profile, ...] = ()
    balances: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
