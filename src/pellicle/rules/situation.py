"""What decides which limit holds (place, day, method, form, storage, species, liquid) and the class that follows.

The class is the row of the jurisdiction's own table. Where the product leaves it open, the lowest limit is taken and
said.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pellicle.message import Message, message
from pellicle.product import CureMethod, Form, Maker, Pack, Product, Storage

FISH = "fish"


@dataclass(frozen=True, slots=True)
class Situation:
    """The facts on which the choice of a limit rests; ``added_liquid`` is true where the formula adds any liquid."""

    jurisdiction: str
    on: date
    method: CureMethod | None = None
    form: Form = Form.WHOLE_MUSCLE
    storage: Storage = Storage.SHELF_STABLE
    maker: Maker = Maker.INSPECTED
    species: str = ""
    added_liquid: bool = False
    pack: Pack = Pack.AIR

    @property
    def code(self) -> str:
        """The jurisdiction as the table spells it."""
        return self.jurisdiction.strip().lower()


@dataclass(frozen=True, slots=True)
class CureClass:
    """The products of the table under which a cure is judged, the most particular first, and why."""

    products: tuple[str, ...]
    why: Message


def situation_of(product: Product, on: date, added_liquid: bool) -> Situation:
    """Return the situation of a product on a day; ``added_liquid`` comes from its formula."""
    return Situation(
        product.jurisdiction,
        on,
        product.cure_method,
        product.form,
        product.storage,
        product.maker,
        product.species,
        added_liquid,
        product.pack,
    )


def cure_class(situation: Situation) -> CureClass:
    """Return under which product of its jurisdiction's table a cure is judged.

    United States: bacon has limits of its own; ground and formed meat counts as comminuted; tumbled, injected and
    immersed whole muscle as cured in solution; rubbed meat as dry cured only where no liquid is added; a method not
    stated is judged at the lowest limit. Elsewhere the table knows one class of meat product (Canada: side bacon
    apart).

    >>> cure_class(Situation("us", date(2026, 1, 1), CureMethod.TUMBLED)).products
    ('solution',)
    >>> cure_class(Situation("us", date(2026, 1, 1))).products
    ('comminuted', 'solution', 'dry-rubbed')
    """
    if situation.code == "us":
        return _united_states(situation)
    if situation.code == "ca" and situation.storage is Storage.BACON:
        return CureClass(("side bacon", "meat product"), message("rules.class_side_bacon"))
    return CureClass(("meat product",), message("rules.class_meat_product"))


def _united_states(situation: Situation) -> CureClass:
    method = situation.method
    if situation.storage is Storage.BACON:
        return _bacon(situation)
    if method is CureMethod.GROUND or situation.form in (Form.GROUND, Form.FORMED):
        return CureClass(("comminuted",), message("rules.class_comminuted"))
    if method is None:
        return CureClass(("comminuted", "solution", "dry-rubbed"), message("rules.class_method_unstated"))
    if method is CureMethod.RUBBED:
        if situation.added_liquid:
            return CureClass(("solution",), message("rules.class_rubbed_with_liquid"))
        return CureClass(("dry-rubbed",), message("rules.class_rubbed"))
    return CureClass(("solution",), message("rules.class_solution"))


def _bacon(situation: Situation) -> CureClass:
    if situation.method is CureMethod.RUBBED and not situation.added_liquid:
        return CureClass(("bacon dry",), message("rules.class_bacon_dry"))
    if situation.method in (CureMethod.IMMERSION_PICKUP, CureMethod.IMMERSION_WHOLE):
        return CureClass(("bacon immersion",), message("rules.class_bacon_immersion"))
    if situation.method is None:
        return CureClass(("bacon pumped",), message("rules.class_bacon_unstated"))
    return CureClass(("bacon pumped",), message("rules.class_bacon_pumped"))
