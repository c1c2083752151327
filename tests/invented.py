"""Invented products for tests: beef with a few lines, given as a person would type them."""

from __future__ import annotations

from types import MappingProxyType
from typing import Any

from pellicle import units
from pellicle.product import AwTarget, Form, Line, Maker, Meat, Pack, Product, Storage

# A product file that wants no more than its piece, house and steps.
PLAIN_FILE = """\
format = 1
[product]
name = "Test strips"
species = "beef"
[meat]
ingredient = "beef top round"
raw = "10 kg"
[[formula]]
ingredient = "salt"
amount = "1.7 % of raw"
"""


def line(ingredient: str, amount: str, **more: Any) -> Line:
    """Return a line of a formula; ``amount`` as typed, ``nitrite`` and ``nitrate`` as they stand on a label."""
    shares = {
        f"{agent}_share": units.share(more.pop(agent), agent) for agent in ("nitrite", "nitrate") if agent in more
    }
    return Line(ingredient, units.amount(amount, "amount"), **shares, **more)


def product(*lines: Line, raw: str | None = "10 kg", **more: Any) -> Product:
    """Return an invented product of beef top round with these lines."""
    meat = more.pop("meat", Meat("beef top round", None if raw is None else units.mass(raw, "meat.raw")))
    mappings = {name: MappingProxyType(more.pop(name)) for name in ("mixtures", "bags") if name in more}
    return Product(
        name="Invented Strips",
        species="beef",
        form=Form.WHOLE_MUSCLE,
        storage=Storage.SHELF_STABLE,
        maker=Maker.INSPECTED,
        jurisdiction="us",
        pack=Pack.AIR,
        target=AwTarget(),
        meat=meat,
        formula=lines,
        **mappings,
        **more,
    )
