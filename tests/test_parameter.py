"""The table of model parameters, and what a product may override."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import InputError
from pellicle.parameter import Parameter, Prior, check_overrides, parameters, value

EVERY = [pytest.param(row, id=name) for name, row in parameters().items()]


@pytest.mark.parametrize("row", EVERY)
def test_the_bounds_contain_the_default(row: Parameter) -> None:
    assert row.low <= row.default <= row.high
    assert row.low < row.high


@pytest.mark.parametrize("row", EVERY)
def test_a_prior_has_a_spread_and_only_then(row: Parameter) -> None:
    assert (row.spread > 0) == (row.prior is not Prior.NONE)


@pytest.mark.parametrize("row", EVERY)
def test_a_row_says_its_unit_meaning_and_source(row: Parameter) -> None:
    assert row.unit
    assert len(row.meaning.split()) > 3
    assert row.sources


@pytest.mark.parametrize("row", EVERY)
def test_the_default_may_be_written_out(row: Parameter) -> None:
    check_overrides({row.name: row.default})


def test_a_value_is_the_default_until_it_is_overridden() -> None:
    assert value("piece_sd_aw") == parameters()["piece_sd_aw"].default
    assert value("piece_sd_aw", {"piece_sd_aw": 0.02}) == 0.02


def test_an_unknown_name_gets_the_nearest_one() -> None:
    with pytest.raises(InputError) as caught:
        check_overrides({"drip_shore": 0.1})
    assert str(caught.value) == "There is no model parameter 'drip_shore'. Did you mean drip_share?"
    assert caught.value.field == "model.drip_shore"


def test_a_name_like_no_other_gets_the_whole_list() -> None:
    with pytest.raises(InputError, match=r"A \[model\] table may set: protein_water_factor, "):
        value("xyz")


def test_a_value_out_of_bounds_is_told_what_is_allowed() -> None:
    with pytest.raises(InputError) as caught:
        check_overrides({"intrinsic_osmol_per_kg_protein": 145.0})
    assert str(caught.value) == (
        "The model parameter intrinsic_osmol_per_kg_protein (meat's own small solutes per kg of muscle protein) was "
        "given as 145 osmol/kg; it lies between 0.5 and 2.5 osmol/kg. Leave it out to use 1.45 osmol/kg."
    )


@given(st.sampled_from(sorted(parameters())), st.floats(allow_infinity=True, allow_nan=True))
def test_exactly_what_lies_within_the_bounds_is_taken(name: str, given_value: float) -> None:
    row = parameters()[name]
    if row.low <= given_value <= row.high:
        check_overrides({name: given_value})
    else:
        with pytest.raises(InputError):
            check_overrides({name: given_value})
