"""The weight to pull at: what it promises, what moves it, and which way."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pellicle.answers.pull import aim_aw
from pellicle.answers.working import Working, work_out
from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text
from pellicle.product import AwTarget, LotReading, Product, Uptake
from pellicle.study.mixture import aw_at, weight_at
from pellicle.units import Amount, Basis

STRIPS = """\
format = 1
[product]
name = "Test strips"
species = "beef"
[meat]
ingredient = "beef top round"
raw = "100 kg"
[[formula]]
ingredient = "water"
amount = "10 % of raw"
[[formula]]
ingredient = "salt"
amount = "2 % of raw"
[[formula]]
ingredient = "sucrose"
amount = "3 % of raw"
[cure]
method = "tumbled"
[uptake]
taken_up = "100 %"
"""


@cache
def strips() -> Product:
    return product_from_text(STRIPS, "strips.toml", Path("."))


def pulled(product: Product) -> Working:
    return work_out(product)


def with_salt(share: float) -> Product:
    return strips().replace({"formula.1.amount": Amount(share, Basis.RAW)})


def test_at_the_pull_the_wettest_pieces_are_inside_with_the_stated_probability():
    work = pulled(strips())

    means = aw_at(work.batch.mixture, work.pull.kg)

    wettest_5_percent = means + 1.645 * 0.010  # standard normal table; piece sd of the default parameters
    assert np.mean(wettest_5_percent <= 0.85) == pytest.approx(0.95, abs=0.005)


def test_the_range_holds_the_pull_weight():
    found = pulled(strips()).pull

    assert found.low_kg <= found.kg <= found.high_kg
    assert found.kg < found.likely_kg


def test_more_confidence_means_a_lighter_pull():
    sure, surer = (pulled(replace(strips(), target=AwTarget(0.85, confidence))).pull.kg for confidence in (0.80, 0.99))

    assert surer < sure


@settings(max_examples=10)
@given(st.floats(0.78, 0.84), st.floats(0.005, 0.05))
def test_a_lower_limit_means_a_lighter_pull(limit: float, step: float):
    lower, higher = (pulled(replace(strips(), target=AwTarget(aw))).pull.kg for aw in (limit, limit + step))

    assert lower < higher


@settings(max_examples=10)
@given(st.floats(0.01, 0.03), st.floats(0.002, 0.02))
def test_more_salt_lets_more_water_stay(salt: float, more: float):
    assert pulled(with_salt(salt)).pull.kg < pulled(with_salt(salt + more)).pull.kg


def test_pieces_that_differ_more_must_be_drier():
    even, uneven = (pulled(strips().replace({"model.piece_sd_aw": sd})).pull.kg for sd in (0.005, 0.02))

    assert uneven < even


@settings(max_examples=10)
@given(st.floats(0.5, 500.0))
def test_the_pull_scales_with_the_batch(raw_kg: float):
    whole = pulled(strips()).pull.kg / 100

    assert work_out(strips(), raw_kg=raw_kg).pull.kg / raw_kg == pytest.approx(whole, rel=1e-9)


def test_an_unknown_uptake_means_a_lighter_pull_and_a_wider_range():
    known, unknown = pulled(strips()), pulled(replace(strips(), uptake=Uptake()))

    assert unknown.pull.kg < known.pull.kg
    assert unknown.pull.high_kg - unknown.pull.low_kg > known.pull.high_kg - known.pull.low_kg


def test_losses_that_are_not_water_only_ever_lower_the_pull():
    none = {f"model.{name}": 0.0 for name in ("drip_share", "fat_loss_share", "removed_share")}

    assert pulled(strips()).pull.kg < pulled(strips().replace(none)).pull.kg


def test_an_uncalibrated_sweet_product_carries_its_bias_to_the_wetter_side():
    sweet = strips().replace({"formula.2.amount": Amount(0.15, Basis.RAW)})

    believed = pulled(sweet)
    unbiased = pulled(sweet.replace({"model.correction_mean_sweet": 0.0}))

    assert believed.correction.klass == "sweet"
    assert believed.pull.kg < unbiased.pull.kg
    assert believed.pull.likely_kg < unbiased.pull.likely_kg


def reading(lot: str, out_kg: float, aw: float, checked: bool = True) -> LotReading:
    return LotReading(lot, 100.0, out_kg, (aw, aw), checked)


def test_lots_that_read_as_computed_raise_the_pull():
    bare = pulled(strips())
    computed = float(np.median(aw_at(bare.batch.middle, 50.0)))
    lots = tuple(reading(f"T-{at}", 50.0, computed) for at in range(4))

    taught = pulled(replace(strips(), readings=lots))

    assert taught.correction.lots == 4
    assert taught.applied.sd < bare.applied.sd
    assert taught.pull.kg > bare.pull.kg


def test_lots_that_read_wetter_than_computed_lower_the_most_likely_weight():
    bare = pulled(strips())
    computed = float(np.median(aw_at(bare.batch.middle, 50.0)))
    lots = tuple(reading(f"T-{at}", 50.0, computed + 0.03) for at in range(4))

    assert pulled(replace(strips(), readings=lots)).pull.likely_kg < bare.pull.likely_kg


def test_lots_read_at_the_limit_are_believed_there_however_the_model_computes_them():
    """Lots that read 0.83 where 0.77 is computed were once called too far from a limit of 0.85."""
    bare = pulled(strips())
    out_kg = float(np.median(weight_at(bare.batch.middle, 0.77)))
    lots = tuple(reading(f"T-{at}", out_kg, 0.83) for at in range(4))

    taught = pulled(replace(strips(), readings=lots))

    assert taught.correction.lots == 4
    assert not taught.applied.remarks
    assert taught.applied.sd == taught.correction.sd


def test_a_reading_without_the_days_standard_teaches_nothing():
    bare, work = pulled(strips()), pulled(replace(strips(), readings=(reading("T-1", 50.0, 0.80, False),)))

    assert work.pull.kg == bare.pull.kg
    assert "T-1" in str(work.correction.remarks[0])


def test_a_lot_lighter_than_its_dry_matter_is_refused():
    with pytest.raises(InputError, match="less than this formula's dry matter"):
        pulled(replace(strips(), readings=(reading("T-1", 20.0, 0.80),)))


def test_a_limit_the_formula_is_past_already_is_refused():
    with pytest.raises(InputError, match="this formula cannot be dried to that limit"):
        pulled(
            replace(
                strips(), target=AwTarget(0.999, 0.95, "document", "scavenger log", "single serving"), pack="vacuum"
            )
        )


def test_a_limit_where_nothing_is_known_is_refused():
    with pytest.raises(InputError, match=r"below 0\.60 the model is extrapolated"):
        pulled(replace(strips(), target=AwTarget(0.5)))


def test_a_limit_above_085_without_all_its_evidence_is_worked_out_for_085():
    assert pulled(replace(strips(), target=AwTarget(0.88, 0.95, "document"))).target_aw == 0.85


def test_the_aim_is_the_limit_less_the_spread_of_the_wettest():
    assert aim_aw(0.85, 0.010) == pytest.approx(0.85 - 1.645 * 0.010, abs=1e-5)  # standard normal table, 95 %
