"""What a product is: one frozen value in SI, every leaf under one dotted path, ``replace`` the only way to change it.

A product names its ingredients; the catalogue that knows them is handed to ``formula``. Reading and writing files is
the business of ``files``.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from types import MappingProxyType
from typing import Any

from pellicle.errors import InputError
from pellicle.passage import House as House
from pellicle.passage import Piece as Piece
from pellicle.passage import Step as Step
from pellicle.units import Amount


class Form(StrEnum):
    """How the meat is put together; statements about whole muscle are withheld for everything but the first."""

    WHOLE_MUSCLE = "whole muscle"
    TENDERISED = "tenderised"
    FORMED = "formed"
    GROUND = "ground"


class Storage(StrEnum):
    """What the product is sold or kept as; bacon has cure limits of its own."""

    SHELF_STABLE = "shelf-stable"
    REFRIGERATED = "refrigerated"
    BACON = "bacon"


class Maker(StrEnum):
    """Who makes it: rules and cautions differ."""

    INSPECTED = "inspected"
    RETAIL_EXEMPT = "retail-exempt"
    HOME = "home"


class Pack(StrEnum):
    """What surrounds the product in its pack."""

    AIR = "air"
    VACUUM = "vacuum"
    GAS = "gas-flushed"
    ABSORBER = "oxygen absorber"


class CureMethod(StrEnum):
    """How cure reaches the meat; the official arithmetic and the limit follow from it."""

    RUBBED = "rubbed"
    TUMBLED = "tumbled"
    INJECTED = "injected"
    IMMERSION_PICKUP = "immersion-pickup"
    IMMERSION_WHOLE = "immersion-whole"
    GROUND = "ground"


POULTRY = frozenset({"chicken", "turkey", "duck", "goose", "poultry"})
GAME = frozenset({"venison", "elk", "moose", "bison", "game", "wild boar", "rabbit"})
SPECIES = frozenset({"beef", "veal", "pork", "lamb", "mutton", "goat", "fish"}) | POULTRY | GAME


@dataclass(frozen=True, slots=True)
class Meat:
    """The meat: an ingredient's name or a composition given inline, and its weights before the solution.

    ``raw_kg`` is the green weight (raw, trimmed), the legal base. ``per_100g`` holds g per 100 g by constituent when
    the composition stands in the file. ``purchased_kg`` and ``sliced_kg`` are known or None.
    """

    ingredient: str
    raw_kg: float | None
    per_100g: Mapping[str, float] | None = None
    purchased_kg: float | None = None
    sliced_kg: float | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a formula: an ingredient (or mixture, or bag) and its amount on a basis.

    Shares of nitrite and nitrate (kg per kg of this ingredient, as sodium salt unless ``potassium``) come from the
    label of the cure and stand on the line; None means not stated. ``spoon`` is the volume a cook would use, for a
    cross-check.
    """

    ingredient: str
    amount: Amount
    nitrite_share: float | None = None
    nitrate_share: float | None = None
    potassium: bool = False
    spoon: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class MixtureLine:
    """One line of a sub-formula: an ingredient's share of the mixture (kg/kg)."""

    ingredient: str
    share: float
    nitrite_share: float | None = None
    nitrate_share: float | None = None
    potassium: bool = False


@dataclass(frozen=True, slots=True)
class Bag:
    """A unit bag of undisclosed seasoning, as its label tells it.

    ``nitrite_share`` is what the label declares (0 where it declares none); None means the label is silent: the cure
    cannot be judged. ``per_100g`` is the nutrition panel (g: protein, fat, carbohydrate, sugars, sodium, ...);
    ``order`` the ingredient list from the most to the least.
    """

    name: str
    kg: float | None
    meat_kg: float | None
    nitrite_share: float | None
    nitrate_share: float | None
    per_100g: Mapping[str, float]
    order: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OwnIngredient:
    """An ingredient the user adds or overrides: g per 100 g by constituent and solute, with where it came from."""

    name: str
    per_100g: Mapping[str, float]
    label: str = ""
    group: str = "own"
    allergens: tuple[str, ...] = ()
    density_kg_m3: float | None = None
    source: str = ""


@dataclass(frozen=True, slots=True)
class Uptake:
    """What the meat took up: weighed, stated, or unknown.

    One of ``marinated_share`` (marinated weight per green weight, weighed), ``pickup_share`` (solution taken up per
    green weight) or ``taken_share`` (share of the solution that went in); all None: unknown, a range. ``how`` is
    ``hold`` or ``tumble``; ``equalised`` says whether solutes had time to spread through the piece.
    """

    marinated_share: float | None = None
    pickup_share: float | None = None
    taken_share: float | None = None
    how: str = ""
    time_s: float | None = None
    temperature_c: float | None = None
    equalised: bool | None = None


@dataclass(frozen=True, slots=True)
class OwnLimit:
    """A critical limit of the plant's own plan, in its own words; some we can compute, others are recorded."""

    what: str
    value: str
    where: str = ""
    how_often: str = ""


@dataclass(frozen=True, slots=True)
class PlantPlan:
    """The plant's own plan: version, supporting document, what of it carries the lethality, and critical limits.

    ``humidity_option`` and ``wet_bulb_hold`` name the option or the validated hold of the document, as it is called.
    ``as_studied``: the plant's record shows the marinade and the strips that the hold was validated with.
    """

    version: str = ""
    support: str = ""
    limits: tuple[OwnLimit, ...] = ()
    humidity_option: str = ""
    wet_bulb_hold: str = ""
    as_studied: bool = False


@dataclass(frozen=True, slots=True)
class Rack:
    """A rack, screen or truck: empty weight, weight with the load on it, and whether it is the marked one."""

    name: str
    tare_kg: float
    loaded_kg: float | None = None
    marked: bool = False


@dataclass(frozen=True, slots=True)
class LotReading:
    """Water activity read on one lot of this product: its weights and the readings, and the day's standard check."""

    lot: str
    raw_kg: float
    out_kg: float
    aw: tuple[float, ...]
    standard_checked: bool
    observed: date | None = None
    same_humectants: bool = True


@dataclass(frozen=True, slots=True)
class AwTarget:
    """The water activity to reach, how surely, and what allows it to stand above 0.85."""

    limit: float = 0.85
    confidence: float = 0.95
    support: str = ""
    oxygen_evidence: str = ""
    opening_plan: str = ""


@dataclass(frozen=True, slots=True)
class Product:
    """A product: what is wanted, what goes in, how it is made, and what is known of it so far."""

    name: str
    species: str
    form: Form
    storage: Storage
    maker: Maker
    jurisdiction: str
    pack: Pack
    target: AwTarget
    meat: Meat
    formula: tuple[Line, ...]
    cure_method: CureMethod | None = None
    name_class: str = ""
    mixtures: Mapping[str, tuple[MixtureLine, ...]] = field(default_factory=lambda: MappingProxyType({}))
    bags: Mapping[str, Bag] = field(default_factory=lambda: MappingProxyType({}))
    own_ingredients: tuple[OwnIngredient, ...] = ()
    uptake: Uptake = Uptake()
    piece: Piece = field(default_factory=Piece)
    house: House = field(default_factory=House)
    schedule: tuple[Step, ...] = ()
    plan: PlantPlan = PlantPlan()
    racks: tuple[Rack, ...] = ()
    readings: tuple[LotReading, ...] = ()
    model: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    scale_division_kg: float | None = None
    storage_c: float = 20.0

    @property
    def poultry(self) -> bool:
        """True if any rule for poultry holds."""
        return self.species in POULTRY

    def replace(self, changes: Mapping[str, Any]) -> Product:
        """Return a product with the leaves under the given dotted paths replaced.

        Paths use the names of the fields, positions in a tuple and keys of a mapping: ``meat.raw_kg``,
        ``formula.2.amount``, ``model.protein_water_factor``. InputError if a path does not exist.
        """
        product = self
        for path, value in changes.items():
            product = _with(product, path.split("."), value, path)
        return product

    def get(self, path: str) -> Any:
        """Return the leaf under a dotted path; InputError if there is none."""
        value: Any = self
        names = path.split(".")
        while names:
            name, names = _first(value, names)
            value = _child(value, name, path)
        return value

    def paths(self) -> tuple[str, ...]:
        """Return the dotted path of every leaf."""
        return tuple(_paths(self, ""))


def _first(value: Any, names: list[str]) -> tuple[str, list[str]]:
    """Return the next name of a path and the rest; a key of a mapping may itself hold dots (``sauce no. 2``)."""
    if isinstance(value, Mapping):
        for end in range(len(names), 1, -1):
            if (key := ".".join(names[:end])) in value:
                return key, names[end:]
    return names[0], names[1:]


def _child(value: Any, name: str, path: str) -> Any:
    if dataclasses.is_dataclass(value) and name in {entry.name for entry in dataclasses.fields(value)}:
        return getattr(value, name)
    if isinstance(value, tuple) and name.isdigit() and int(name) < len(value):
        return value[int(name)]
    if isinstance(value, Mapping) and name in value:
        return value[name]
    raise InputError("product.no_path", field=path, path=path, name=name)


def _with(value: Any, names: list[str], new: Any, path: str) -> Any:
    if not names:
        return new
    name, rest = _first(value, names)
    if isinstance(value, Mapping) and not rest:
        return MappingProxyType({**value, name: new})
    changed = _with(_child(value, name, path), rest, new, path)
    if isinstance(value, tuple):
        at = int(name)
        return (*value[:at], changed, *value[at + 1 :])
    if isinstance(value, Mapping):
        return MappingProxyType({**value, name: changed})
    return dataclasses.replace(value, **{name: changed})


def _paths(value: Any, prefix: str) -> list[str]:
    if dataclasses.is_dataclass(value) and not isinstance(value, Amount):
        pairs = [(entry.name, getattr(value, entry.name)) for entry in dataclasses.fields(value)]
    elif isinstance(value, tuple):
        pairs = [(str(at), item) for at, item in enumerate(value)]
    elif isinstance(value, Mapping):
        pairs = list(value.items())
    else:
        return [prefix]
    return [path for name, item in pairs for path in _paths(item, f"{prefix}.{name}" if prefix else name)]
