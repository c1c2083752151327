"""One ingredient: what it is made of per kg, and what must be known to weigh, declare and judge it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from pellicle.food.composition import Composition
from pellicle.message import Message

MEAT = "meat"
CURE = "cure"
BAG = "bag"
OWN = "own"


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One ingredient of the catalogue, of the user's own, or a unit bag.

    ``composition`` adds to 1 kg/kg; where the figures it came from did not, ``normalised`` says what was done.
    ``water_sd`` is the standard deviation of its water between lots [kg/kg], 0 where nothing is known of it (raw meat
    takes the parameter ``meat_water_sd``). ``spread`` holds relative standard deviations of solutes that were read
    off a label. ``density_kg_m3`` is that of the ingredient as spooned or poured. ``declare`` names the agents whose
    share its label must give; ``nitrite_known`` and ``nitrate_known`` are False while such a share is not given.
    ``remarks`` are what the reader of a formula should know of it.
    """

    name: str
    label: str
    group: str
    composition: Composition
    species: str = ""
    allergens: tuple[str, ...] = ()
    density_kg_m3: float | None = None
    water_sd: float = 0.0
    spread: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    declare: tuple[str, ...] = ()
    nitrite_known: bool = True
    nitrate_known: bool = True
    normalised: Message | None = None
    remarks: tuple[Message, ...] = ()
    aliases: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    locator: str = ""
    note: str = ""
    checked: str = "no"
