"""The shape of what ``lethality`` answers: numbers by organism, minutes, growth, findings, faults of the log."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pellicle.message import Message
from pellicle.rules.cautions import Caution
from pellicle.rules.verdict import Check
from pellicle.source import Source


@dataclass(frozen=True, slots=True)
class OrganismLethality:
    """The numbers of one organism, log10, with its target and the verdict on our estimate; None is withheld.

    ``credited_minutes`` is for how long heat counted; ``why_withheld`` says, by the name of a number, why it is None.
    """

    label: str
    wet: float | None
    wet_lower: float | None
    credited_minutes: float | None
    local: float | None
    local_face: float | None
    expected: float | None
    expected_low: float | None
    expected_high: float | None
    table: float | None
    table_ramp: float | None
    target: float | None
    verdict: str
    why_withheld: Mapping[str, Message]


@dataclass(frozen=True, slots=True)
class RowHeld:
    """The printed row met, or the one that came nearest."""

    temperature_c: float
    fahrenheit: float
    needed_minutes: float
    held_minutes: float
    log: float
    met: bool


@dataclass(frozen=True, slots=True)
class OrganismGrowth:
    """Growth of one organism without lag, log10; None where it does not apply or is not known, and why."""

    label: str
    log: float | None
    hours: float | None
    applies: bool
    why: Message | None


@dataclass(frozen=True, slots=True)
class ProcessMinutes:
    """Minutes of the process; None where the column it needs is missing.

    ``at_humidity`` by per cent and ``at_wet_bulb`` by degC; ``come_up`` from first 10 C to first 54.4 C, ``growth``
    all the time between them; ``cooled`` held back by evaporation at 32 to 45.5 C, ``cool_wet`` wet below 54.4 C.
    """

    at_humidity: Mapping[str, float | None]
    at_wet_bulb: Mapping[str, float | None]
    come_up: float | None
    growth: float | None
    reached_54_c: bool | None
    cooled: float | None
    cool_wet: float | None


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of the log that were taken for what, by their names; empty where none was."""

    core: tuple[str, ...]
    dry_bulb: str
    wet_bulb: str
    humidity: str


@dataclass(frozen=True, slots=True)
class LogFlag:
    """One thing wrong with the log, when it began and for how long, in minutes."""

    id: str
    at_minutes: float
    minutes: float
    text: Message


@dataclass(frozen=True, slots=True)
class LethalityHistory:
    """The log over time, thinned out for a chart: minutes, degC, and what was credited by then; None is no reading."""

    minutes: tuple[float, ...]
    dry_bulb_c: tuple[float | None, ...]
    wet_bulb_c: tuple[float | None, ...]
    core_c: tuple[float | None, ...]
    lethality_wet: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Mould:
    """Days until mould shows at the product's limit of water activity; None where none can be named."""

    aw: float
    low_days: float | None
    high_days: float | None
    note: Message


@dataclass(frozen=True, slots=True)
class LethalityAnswer:
    """What a log shows: ``governing`` names the organism that leads, ``sentence`` the answer."""

    log: str
    began: str
    product: str
    species: str
    on: str
    minutes: float
    readings: int
    columns: Columns
    sentence: Message
    governing: str
    lethality: Mapping[str, OrganismLethality]
    row: RowHeld | None
    process: ProcessMinutes
    growth: Mapping[str, OrganismGrowth]
    mould: Mould | None
    history: LethalityHistory
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    log_flags: tuple[LogFlag, ...]
    remarks: tuple[Message, ...]
    sources: tuple[Source, ...]
