"""What a product says of its way through the house: the piece, the machine, the steps. As stated, in SI, unresolved.

``house`` resolves it: defaults of the kind of house, film coefficients, humidity, what ends a step.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Lie(StrEnum):
    """How a piece lies, which decides what its lower face exchanges with the air."""

    HUNG = "hung"
    SCREEN = "screen"
    TRAY = "tray"


class Arrangement(StrEnum):
    """What stands around a piece, which decides how much of the warm wall it sees."""

    OPEN = "single layer"
    ROWS = "hung rows"
    STACKED = "stacked screens"


@dataclass(frozen=True, slots=True)
class Piece:
    """One slice: thickness with its spread (sd), width, length along the air, how it lies, and how it starts.

    ``open_share_below`` is the share of the lower face that meets the air (None: from ``lie``). ``loaded_depth_m`` is
    the depth to which a marinade just put on has gone (None or 0: equalised through the piece).
    """

    thickness_m: float | None = None
    spread_m: float | None = None
    width_m: float | None = None
    length_m: float | None = None
    lie: Lie | None = None
    open_share_below: float | None = None
    start_temperature_c: float | None = None
    loaded_depth_m: float | None = None


@dataclass(frozen=True, slots=True)
class Position:
    """A place in the house: its film coefficient as share of the mean, its dry bulb above the set point (K)."""

    name: str
    film_share: float = 1.0
    warmer_k: float = 0.0


@dataclass(frozen=True, slots=True)
class House:
    """The machine and what shares it; None where the file says nothing and the kind of house decides.

    ``full_fresh_kg_s`` is the fresh air (kg dry air/s) with the damper fully open, ``leak_kg_s`` with it shut,
    ``fresh_kg_s`` where a step does not say. ``damper`` says whether there is one. ``film_w_m2k`` and ``air_speed_m_s``
    are two ways to say how the air moves.
    """

    file: str = ""
    kind: str = ""
    load_kg: float | None = None
    altitude_m: float | None = None
    pressure_pa: float | None = None
    volume_m3: float | None = None
    ambient_c: float | None = None
    ambient_humidity: float | None = None
    damper: bool | None = None
    fresh_kg_s: float | None = None
    full_fresh_kg_s: float | None = None
    leak_kg_s: float | None = None
    steam_kg_s: float | None = None
    combustion_kg_s: float | None = None
    gas_fired: bool | None = None
    condensation_per_s: float | None = None
    air_speed_m_s: float | None = None
    film_w_m2k: float | None = None
    emissivity: float | None = None
    view_factor: float | None = None
    arrangement: Arrangement | None = None
    positions: tuple[Position, ...] = ()


class WeightOf(StrEnum):
    """What the weight that ends a step is a share of; or a weight by itself."""

    RAW = "of raw"
    MARINATED = "of marinated"
    KG = "kg"


@dataclass(frozen=True, slots=True)
class StopWeight:
    """The weight that ends a step: kg per kg of the raw or marinated weight, or kg of the whole product."""

    value: float
    of: WeightOf


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the schedule: air, humidity by one of several ways, what ends it, and at most how long.

    Humidity comes from ``wet_bulb_c``, ``humidity``, or the balance of the house's air with ``damper`` (share open) or
    ``fresh_kg_s``. A ramp takes the air there in ``ramp_s``, or at ``ramp_k_s``. ``rest``: the piece is sealed; heat
    passes, water does not.
    """

    name: str
    dry_bulb_c: float | None = None
    wet_bulb_c: float | None = None
    humidity: float | None = None
    damper: float | None = None
    smoke: bool = False
    for_s: float | None = None
    until_core_c: float | None = None
    until_weight: StopWeight | None = None
    until_aw: float | None = None
    at_most_s: float | None = None
    until_gap: float | None = None
    ramp_s: float | None = None
    ramp_k_s: float | None = None
    fresh_kg_s: float | None = None
    steam_kg_s: float | None = None
    air_speed_m_s: float | None = None
    film_w_m2k: float | None = None
    rest: bool = False
