"""What must hold of water activity for every mixture there can be: bounds, direction, scale, and the way back."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.food.water_activity import AW_FLOOR, AwInputs, AwParameters, aw, default_parameters, water_at

DEFAULT = default_parameters()
NONE_OR_SOME = st.one_of(st.just(0.0), st.floats(1e-9, 100.0))
# kg of water from a trace to a tank, and everything else from nothing to more than there can be
MIXTURES = st.builds(
    AwInputs,
    water=st.floats(1e-6, 1e3),
    protein=NONE_OR_SOME,
    muscle=NONE_OR_SOME,
    salt_mol=NONE_OR_SOME,
    sugar_mol=NONE_OR_SOME,
    root_k=st.floats(0.9, 3.2),
    other_osmol=NONE_OR_SOME,
)
PARAMETERS = st.builds(AwParameters, st.floats(0.5, 1.3), st.floats(0.5, 2.5), st.floats(-0.1, 0.1))
# 22 kg of protein as 100 kg of meat brings it, plain to sweet, wet to very dry
PRODUCTS = st.builds(
    AwInputs,
    water=st.floats(12.0, 80.0),
    protein=st.just(22.0),
    muscle=st.floats(0.0, 22.0),
    salt_mol=st.floats(0.0, 80.0),
    sugar_mol=st.floats(0.0, 80.0),
    root_k=st.floats(0.9, 2.6),
    other_osmol=st.floats(0.0, 10.0),
)
SOLUTES = ["salt_mol", "sugar_mol", "other_osmol", "muscle", "protein"]


def with_more(mixture: AwInputs, name: str, factor: float, extra: float) -> AwInputs:
    fields = {field: getattr(mixture, field) for field in mixture.__dataclass_fields__}
    return AwInputs(**{**fields, name: fields[name] * factor + extra})


@given(MIXTURES, PARAMETERS)
def test_it_never_fails_and_stays_between_its_floor_and_one(mixture: AwInputs, parameters: AwParameters) -> None:
    assert AW_FLOOR <= aw(mixture, parameters) <= 1.0


@given(MIXTURES, PARAMETERS, st.floats(1.001, 10.0))
def test_more_water_never_makes_it_drier(mixture: AwInputs, parameters: AwParameters, factor: float) -> None:
    wetter = with_more(mixture, "water", factor, 0.0)
    assert aw(wetter, parameters) >= aw(mixture, parameters) - 1e-12


@given(PRODUCTS, st.floats(1.001, 3.0))
def test_more_water_makes_a_product_wetter(mixture: AwInputs, factor: float) -> None:
    wetter = with_more(mixture, "water", factor, 0.0)
    dry, wet = aw(mixture, DEFAULT), aw(wetter, DEFAULT)
    assert wet > dry or dry == 1.0 or dry == AW_FLOOR


@given(PRODUCTS, st.sampled_from(SOLUTES), st.floats(0.01, 10.0))
def test_more_of_any_solute_or_of_protein_makes_a_product_drier(mixture: AwInputs, name: str, extra: float) -> None:
    fuller = with_more(mixture, name, 1.0, extra)
    before = aw(mixture, DEFAULT)
    # beyond this a second sugar dilutes Norrish's square term; the model is not valid below 0.75 in any case
    if before > 0.3:
        # protein without anything dissolved lets the rest of the water stay pure
        assert aw(fuller, DEFAULT) < before or (name == "protein" and before == 1.0)


@given(PRODUCTS, st.floats(1e-3, 1e3))
def test_the_amount_of_product_does_not_matter(mixture: AwInputs, factor: float) -> None:
    amounts = {"water", "protein", "muscle", "salt_mol", "sugar_mol", "other_osmol"}
    scaled = mixture
    for name in amounts:
        scaled = with_more(scaled, name, factor, 0.0)
    assert aw(scaled, DEFAULT) == pytest.approx(aw(mixture, DEFAULT), rel=1e-11)


@given(PRODUCTS, PARAMETERS, st.floats(-0.5, 0.5))
def test_the_way_back_gives_the_water(mixture: AwInputs, parameters: AwParameters, log_correction: float) -> None:
    reached = float(aw(mixture, parameters, log_correction))
    if AW_FLOOR < reached < 0.99999:
        assert water_at(reached, mixture, parameters, log_correction) == pytest.approx(mixture.water, rel=1e-9)


@given(st.floats(0.03, 0.999), PRODUCTS, PARAMETERS)
def test_the_way_forward_gives_the_target(target: float, mixture: AwInputs, parameters: AwParameters) -> None:
    water = float(water_at(target, mixture, parameters))
    if water > 0.0:
        there = with_more(mixture, "water", 0.0, water)
        assert aw(there, parameters) == pytest.approx(target, rel=1e-9)


@given(st.floats(1e-6, 1e6))
def test_pure_water_is_one(water: float) -> None:
    assert aw(AwInputs(water=water), DEFAULT) == 1.0


def test_water_and_unsalted_protein_alone_follow_the_sorption_curve() -> None:
    """Nothing is dissolved: either there is free water and it is pure, or the protein's own curve decides."""
    assert aw(AwInputs(water=1.0, protein=1.0), DEFAULT) == 1.0
    target = 0.6
    held = float(water_at(target, AwInputs(water=1.0, protein=1.0), DEFAULT))
    assert aw(AwInputs(water=held, protein=1.0), DEFAULT) == pytest.approx(target, rel=1e-9)


def test_a_positive_correction_makes_it_drier_and_keeps_pure_water_pure() -> None:
    jerky = AwInputs(water=0.35, protein=0.22, muscle=0.22, salt_mol=0.4)
    assert aw(jerky, DEFAULT, 0.1) < aw(jerky, DEFAULT) < aw(jerky, DEFAULT, -0.1)
    assert aw(AwInputs(water=1.0), DEFAULT, 0.3) == 1.0


def test_arrays_broadcast_and_give_what_single_numbers_give() -> None:
    waters, salts = np.array([[0.2], [0.4], [0.7]]), np.array([0.1, 0.4])
    many = aw(AwInputs(water=waters, protein=0.22, muscle=0.22, salt_mol=salts), DEFAULT, np.array([0.0, -0.1]))
    assert np.shape(many) == (3, 2)
    one = aw(AwInputs(water=0.4, protein=0.22, muscle=0.22, salt_mol=0.4), DEFAULT, -0.1)
    assert isinstance(many, np.ndarray)
    assert many[1, 1] == pytest.approx(one, rel=1e-13)


@pytest.mark.parametrize("target", [0.0, 0.02, 1.0, 1.2, -0.3, float("nan")])
def test_a_target_that_cannot_be_is_refused(target: float) -> None:
    with pytest.raises(InputError, match="must lie between"):
        water_at(target, AwInputs(water=1.0, salt_mol=1.0), DEFAULT)


@pytest.mark.parametrize(
    ("mixture", "sentence"),
    [
        (AwInputs(water=0.0, protein=1.0), "no water"),
        (AwInputs(water=1.0, salt_mol=-0.1), "salts is below zero"),
        (AwInputs(water=float("nan")), "not a number"),
        (AwInputs(water=float("inf")), "not a number"),
    ],
)
def test_amounts_that_cannot_be_are_refused(mixture: AwInputs, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        aw(mixture, DEFAULT)
