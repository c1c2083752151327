"""What is reported of one composition: expected value, range, bias by class, shares, and what to be warned of."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.correction import Klass, LotResult, learn, prior
from pellicle.food.water_activity import WaterActivity, aw, classify, default_parameters, estimate, inputs, water_at
from pellicle.source import sources

BRINE = Composition(water=1.0, solutes={"salt": 0.17532})
PLAIN = Composition(water=0.33, protein=0.22, muscle=0.22, solutes={"salt": 0.022, "sucrose": 0.03})
SWEET = Composition(water=0.30, protein=0.22, muscle=0.22, solutes={"salt": 0.020, "sucrose": 0.18})

PRODUCTS = st.builds(
    lambda water, protein, salt, sucrose: Composition(
        water=water, protein=protein, muscle=protein, solutes={"salt": salt, "sucrose": sucrose}
    ),
    st.floats(0.12, 0.8),
    st.one_of(st.just(0.0), st.floats(0.05, 0.3)),
    st.floats(0.0, 0.05),
    st.floats(0.0, 0.3),
)


def says(answer: WaterActivity, words: str) -> bool:
    return any(words in str(flag) for flag in answer.flags)


@pytest.mark.parametrize(("composition", "klass"), [(BRINE, "solution"), (PLAIN, "salted"), (SWEET, "sweet")])
def test_the_class_follows_from_the_composition(composition: Composition, klass: str) -> None:
    assert str(estimate(composition).klass) == klass


@pytest.mark.parametrize(("sweet_kg", "klass"), [(0.399, Klass.SALTED), (0.40, Klass.SWEET)])
def test_sweet_begins_at_the_parameter(sweet_kg: float, klass: Klass) -> None:
    made = Composition(water=1.0, protein=1.0, solutes={"glycerol": sweet_kg})
    assert classify(inputs(made), 0.40) is klass


def test_the_expected_value_of_a_sweet_product_is_wetter_than_the_bare_model() -> None:
    sweet, plain = estimate(SWEET), estimate(PLAIN)
    assert sweet.aw == pytest.approx(math.exp(math.log(sweet.model_aw) * math.exp(-0.10)))
    assert sweet.bias == pytest.approx(sweet.aw - sweet.model_aw)
    assert sweet.bias > 0.0
    assert plain.bias == 0.0


def test_what_is_reported_is_the_model_with_the_expected_correction() -> None:
    """So that a weight found with ``water_at`` and the same correction reads what is reported."""
    answer = estimate(SWEET)
    water = water_at(answer.aw, inputs(SWEET), default_parameters(), prior(Klass.SWEET).mean)
    assert water == pytest.approx(SWEET.water, rel=1e-9)


@given(PRODUCTS)
def test_the_range_encloses_the_value_and_the_shares_add_to_one(composition: Composition) -> None:
    answer = estimate(composition)
    assert answer.low <= answer.aw <= answer.high <= 1.0
    whole = sum(answer.shares.values())
    assert whole == pytest.approx(1.0) or (answer.model_aw == 1.0 and whole == 0.0)
    assert min(answer.shares.values()) >= 0.0


def test_a_higher_level_gives_a_wider_range() -> None:
    narrow, wide = estimate(PLAIN, level=0.5), estimate(PLAIN, level=0.99)
    assert wide.low < narrow.low < narrow.high < wide.high


def test_the_range_of_a_salted_product_is_at_least_the_reviews() -> None:
    """The review, section 8: one sigma about 0.018 to 0.020 at 0.85; lots, reading and parameters come on top."""
    water = float(water_at(0.85, inputs(PLAIN), default_parameters()))
    sd = estimate(PLAIN.with_water(water)).sd
    assert 0.018 <= sd <= 0.026


def test_pure_water_has_no_range_and_no_causes() -> None:
    answer = estimate(Composition(water=2.0))
    assert (answer.low, answer.aw, answer.high, answer.sd) == (1.0, 1.0, 1.0, 0.0)
    assert set(answer.shares.values()) == {0.0}


def test_the_shares_of_one_salt_and_of_raw_meat() -> None:
    assert estimate(BRINE).shares["salts"] == pytest.approx(1.0)
    raw = estimate(Composition(water=0.725, protein=0.225, muscle=0.225)).shares
    assert raw["meat"] > 0.85
    assert raw["meat"] + raw["protein"] == pytest.approx(1.0)


def test_the_share_of_protein_is_what_its_water_adds() -> None:
    freed = float(aw(inputs(PLAIN), default_parameters({"protein_water_factor": 1e-9})))
    answer = estimate(PLAIN)
    added = math.log(freed) - math.log(answer.model_aw)
    assert answer.shares["protein"] == pytest.approx(added / -math.log(answer.model_aw), rel=1e-6)


def test_the_other_mixing_rule_reads_lower_for_salt_with_sugar_and_the_same_for_one_solute() -> None:
    assert estimate(SWEET).alternative_aw < estimate(SWEET).model_aw
    assert estimate(BRINE).alternative_aw == pytest.approx(estimate(BRINE).model_aw, abs=1e-8)


def test_lots_read_narrow_the_range_and_move_the_value() -> None:
    model_aw = estimate(PLAIN).model_aw
    lots = [LotResult(f"lot {at}", model_aw, (model_aw + 0.01,)) for at in range(3)]
    known = estimate(PLAIN, learn(prior(Klass.SALTED), lots))
    unknown = estimate(PLAIN)
    assert known.high - known.low < 0.7 * (unknown.high - unknown.low)
    assert unknown.aw < known.aw < model_aw + 0.01


def test_salt_beyond_saturation_is_flagged_at_storage_temperature() -> None:
    answer = estimate(Composition(water=1.0, solutes={"salt": 0.40}))
    assert says(answer, "salt is beyond saturation at 20 °C")
    assert not says(estimate(BRINE), "saturation")


def test_sugar_that_stays_dissolved_when_warm_is_flagged_when_stored_cold() -> None:
    syrup = Composition(water=1.0, solutes={"sucrose": 2.2})
    assert says(estimate(syrup, storage_c=4.0), "sucrose is beyond saturation at 4 °C")
    assert not says(estimate(syrup, storage_c=40.0), "saturation")


def test_the_solvent_water_decides_about_saturation_not_all_the_water() -> None:
    """0.50 kg sucrose in 0.30 kg water would dissolve; the protein leaves less than that."""
    sugared = Composition(water=0.30, solutes={"sucrose": 0.50})
    assert not says(estimate(sugared), "saturation")
    with_meat = Composition(water=0.30, protein=0.30, muscle=0.30, solutes={"sucrose": 0.50})
    assert says(estimate(with_meat), "sucrose is beyond saturation")


def test_a_very_dry_product_is_flagged_as_hardly_compared() -> None:
    assert says(estimate(PLAIN.with_water(0.10)), "hardly ever compared")
    assert says(estimate(Composition(water=0.001, protein=0.5)), "no water activity below 0.02")
    assert not estimate(PLAIN).flags


def test_glucose_syrup_widens_the_range_and_says_so() -> None:
    """Same depression, one made with syrup: its constants are an order of magnitude."""
    syrup = estimate(Composition(water=0.25, solutes={"glucose syrup DE 42": 0.75}))
    sugar_water = Composition(water=1.0, solutes={"glucose": 3.0})
    alike = float(water_at(syrup.model_aw, inputs(sugar_water), default_parameters()))
    plain = estimate(sugar_water.with_water(alike))
    assert syrup.sd > 2.0 * plain.sd
    assert says(syrup, "Glucose syrup is counted by its DE")


def test_sources_are_registered_and_follow_the_solutes() -> None:
    answer = estimate(SWEET)
    assert set(answer.sources) <= set(sources())
    assert "norrish-polyols" not in answer.sources
    with_glycerol = Composition(water=1.0, solutes={"glycerol": 0.3})
    assert "norrish-polyols" in estimate(with_glycerol).sources


def test_a_products_own_parameters_are_used() -> None:
    assert estimate(PLAIN, overrides={"protein_water_factor": 1.2}).model_aw < estimate(PLAIN).model_aw


@pytest.mark.parametrize("level", [0.0, 1.0, -1.0, 90.0, float("nan")])
def test_a_level_that_cannot_be_is_refused(level: float) -> None:
    with pytest.raises(InputError, match="the level lies between 0 and 1"):
        estimate(BRINE, level=level)


def test_no_water_is_refused() -> None:
    with pytest.raises(InputError, match="no water in this composition"):
        estimate(Composition(protein=1.0))
