"""A product with a piece, a house and steps, for the tests of this room."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import invented
from pellicle.house.until import Weights
from pellicle.passage import House, Lie, Piece, Step
from pellicle.product import Product

WEIGHTS = Weights(raw_kg=100.0, marinated_kg=112.0, dry_kg=30.0)
COOK = Step("cook", dry_bulb_c=79.0, humidity=0.35, for_s=3600.0)
HUNG = Piece(thickness_m=0.0065, lie=Lie.HUNG)
DAMPERS = House(kind="damper house")


def passing(
    *steps: Step, piece: Piece = HUNG, house: House = DAMPERS, model: Mapping[str, float] | None = None
) -> Product:
    return invented.product(
        invented.line("salt", "1.7 % of raw"),
        piece=piece,
        house=house,
        schedule=steps or (COOK,),
        model=MappingProxyType(dict(model or {})),
    )
