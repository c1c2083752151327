"""A product is one frozen value; every leaf has one dotted path, and ``replace`` is the only way to change it."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.product import (
    AwTarget,
    Form,
    Line,
    Maker,
    Meat,
    MixtureLine,
    Pack,
    Piece,
    Product,
    Rack,
    Step,
    Storage,
    Uptake,
)
from pellicle.units import Amount, Basis

STRIPS = Product(
    name="Invented strips",
    species="beef",
    form=Form.WHOLE_MUSCLE,
    storage=Storage.SHELF_STABLE,
    maker=Maker.INSPECTED,
    jurisdiction="us",
    pack=Pack.VACUUM,
    target=AwTarget(0.85),
    meat=Meat("beef top round", 40.0, sliced_kg=39.5),
    formula=(
        Line("salt", Amount(0.02, Basis.RAW)),
        Line("curing salt", Amount(0.00015, Basis.RAW, agent="nitrite"), nitrite_share=0.0625),
        Line("sauce no. 2", Amount(0.06, Basis.RAW)),
    ),
    mixtures={"sauce no. 2": (MixtureLine("water", 0.7), MixtureLine("brown sugar", 0.3))},
    uptake=Uptake(pickup_share=0.08),
    piece=Piece(thickness_m=0.006),
    schedule=(Step("dry", dry_bulb_c=65.0, until_aw=0.85),),
    racks=(Rack("1", 12.0),),
    model={"protein_water_factor": 0.95},
)
PATHS = st.sampled_from(STRIPS.paths())


def changed_leaf(value: Any) -> Any:
    """Return another value for a leaf, whatever it was."""
    return value + 1 if isinstance(value, (int, float)) and not isinstance(value, bool) else "something else"


def test_a_leaf_is_got_by_its_path() -> None:
    assert STRIPS.get("meat.raw_kg") == 40.0
    assert STRIPS.get("formula.1.nitrite_share") == 0.0625
    assert STRIPS.get("mixtures.sauce no. 2.1.share") == 0.3


def test_a_leaf_is_replaced_and_the_first_product_stays() -> None:
    share = "mixtures.sauce no. 2.1.share"
    larger = STRIPS.replace({"meat.raw_kg": 80.0, share: 0.25})
    assert (larger.meat.raw_kg, STRIPS.meat.raw_kg) == (80.0, 40.0)
    assert (larger.get(share), STRIPS.get(share)) == (0.25, 0.3)


def test_a_whole_line_can_be_replaced() -> None:
    sweeter = STRIPS.replace({"formula.0": Line("sucrose", Amount(0.09, Basis.RAW))})
    assert [line.ingredient for line in sweeter.formula] == ["sucrose", "curing salt", "sauce no. 2"]


def test_an_amount_is_one_leaf() -> None:
    assert "formula.0.amount" in STRIPS.paths()
    assert not [path for path in STRIPS.paths() if path.startswith("formula.0.amount.")]


def test_a_parameter_may_be_added_to_the_model() -> None:
    assert STRIPS.replace({"model.piece_sd_aw": 0.02}).model == {"protein_water_factor": 0.95, "piece_sd_aw": 0.02}


@pytest.mark.parametrize("path", ["meat.weight", "formula.3.amount", "formula.x", "mixtures.rub.0.share", "", "name.x"])
def test_a_path_that_leads_nowhere_is_named(path: str) -> None:
    with pytest.raises(InputError, match=r"`product\.paths\(\)` lists every path") as caught:
        STRIPS.get(path)
    assert caught.value.field == path


@pytest.mark.parametrize("path", ["meat.weight", "formula.3.amount", "formula.x.amount", "name.x"])
def test_nothing_is_replaced_where_there_is_nothing(path: str) -> None:
    with pytest.raises(InputError):
        STRIPS.replace({path: 1.0})


def test_a_product_cannot_be_changed_in_place() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        STRIPS.name = "Other strips"  # type: ignore[misc]


def test_poultry_is_a_matter_of_species() -> None:
    assert STRIPS.replace({"species": "turkey"}).poultry
    assert not STRIPS.poultry


@given(PATHS)
def test_putting_back_what_stands_there_changes_nothing(path: str) -> None:
    assert STRIPS.replace({path: STRIPS.get(path)}) == STRIPS


@given(PATHS)
def test_a_replaced_leaf_is_read_back_and_no_other_moves(path: str) -> None:
    new = changed_leaf(STRIPS.get(path))
    other = STRIPS.replace({path: new})
    assert other.get(path) == new
    assert all(other.get(rest) == STRIPS.get(rest) for rest in STRIPS.paths() if rest != path)


@given(PATHS)
def test_a_change_can_be_taken_back(path: str) -> None:
    there = STRIPS.replace({path: changed_leaf(STRIPS.get(path))})
    assert there != STRIPS
    assert there.replace({path: STRIPS.get(path)}) == STRIPS


@given(st.lists(PATHS, min_size=2, max_size=6, unique=True))
def test_changes_to_different_leaves_come_in_any_order(paths: list[str]) -> None:
    changes = {path: changed_leaf(STRIPS.get(path)) for path in paths}
    backwards = dict(reversed(changes.items()))
    assert STRIPS.replace(changes) == STRIPS.replace(backwards)
