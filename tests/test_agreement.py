"""The comparison with printed values must itself be able to fail."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from agreement import TooWideError, agrees


def test_agrees_to_half_a_unit_of_the_last_printed_digit() -> None:
    assert agrees(156.4, "156")
    assert not agrees(156.6, "156")
    assert agrees(0.0305, "0.030")


def test_a_text_keeps_the_zeros_that_a_float_loses() -> None:
    assert not agrees(2.504, "2.500")
    assert agrees(2.504, 2.5)


def test_digits_compares_to_fewer_decimals_than_printed() -> None:
    assert agrees(0.9712, "0.9669", digits=1)
    assert not agrees(0.9712, "0.9669", digits=3)


def test_negative_digits_compare_to_tens() -> None:
    assert agrees(154.0, "156", digits=-1)
    assert not agrees(150.0, "156", digits=-1)


@pytest.mark.parametrize(
    ("printed", "digits"), [("0.0000001", 2), ("5.4e-15", 4), ("3.9e-20", 4), ("-0.004", 2), ("0.5", 0)]
)
def test_refuses_a_tolerance_as_wide_as_the_value(printed: str, digits: int) -> None:
    with pytest.raises(TooWideError, match="could not fail"):
        agrees(float(printed), printed, digits=digits)


def test_refuses_a_stated_difference_as_wide_as_the_value() -> None:
    with pytest.raises(TooWideError):
        agrees(0.01, "0.01", within=0.02)


def test_zero_may_be_printed_and_is_compared_to_its_digits() -> None:
    assert agrees(0.004, "0.00")
    assert not agrees(0.006, "0.00")


@pytest.mark.parametrize("got", [float("nan"), float("inf"), -float("inf")])
def test_what_is_not_finite_agrees_with_nothing(got: float) -> None:
    assert not agrees(got, "1.0")


@pytest.mark.parametrize("printed", ["", "about 3", "nan", "inf"])
def test_what_is_not_a_number_was_not_printed(printed: str) -> None:
    with pytest.raises(ValueError, match="not a printed number"):
        agrees(1.0, printed)


def test_digits_and_within_together_are_refused() -> None:
    with pytest.raises(ValueError, match="not both"):
        agrees(1.0, "1.0", digits=1, within=0.1)


@given(st.decimals(min_value="0.01", max_value="1000", places=3))
def test_a_value_one_printed_unit_off_never_agrees(value: object) -> None:
    assert agrees(float(str(value)), str(value))
    assert not agrees(float(str(value)) + 0.001, str(value))
