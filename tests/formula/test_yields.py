"""Yields, each with its base."""

from __future__ import annotations

import pytest

from pellicle.formula.yields import Base, bases, yields
from pellicle.product import Meat


def test_every_known_base_gives_its_yield() -> None:
    meat = Meat("beef top round", 10.0, purchased_kg=12.5, sliced_kg=9.8)
    found = yields(10.0, bases(meat, raw_kg=20.0, marinated_kg=22.0))
    assert {each.base: round(each.percent, 3) for each in found} == {
        Base.PURCHASED: 40.0,
        Base.TRIMMED: 50.0,
        Base.SLICED: 51.02,
        Base.MARINATED: 45.455,
    }


def test_weights_of_an_unknown_amount_of_meat_cannot_be_scaled() -> None:
    meat = Meat("beef top round", None, purchased_kg=12.5)
    assert list(bases(meat, raw_kg=20.0)) == [Base.TRIMMED]


def test_every_base_has_a_name_in_words() -> None:
    assert [str(base.label) for base in Base] == [
        "purchased",
        "trimmed (green)",
        "sliced",
        "marinated",
        "packed",
    ]


def test_a_yield_of_nothing_is_nothing() -> None:
    (found,) = yields(0.0, {Base.TRIMMED: 10.0})
    assert found.percent == pytest.approx(0.0)
