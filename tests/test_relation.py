"""A relation is the function itself; its source and range are data beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.relation import RELATIONS, of, outside, relation


def half(x: float) -> float:
    return x / 2


@pytest.fixture(autouse=True)
def _registered() -> Iterator[None]:
    before = dict(RELATIONS)
    relation("own-arithmetic", valid={"x": (0, 10), "result": (0, 4)})(half)
    yield
    RELATIONS.clear()
    RELATIONS.update(before)


def test_the_function_comes_back_unchanged() -> None:
    def third(x: float) -> float:
        return x / 3

    assert relation(("own-arithmetic", "common-practice"), valid={"x": (0, 1)})(third) is third
    assert of(third).sources == ("own-arithmetic", "common-practice")


def test_what_was_never_registered_is_no_relation() -> None:
    with pytest.raises(KeyError):
        of(math.sin)


def test_inside_its_range_a_value_raises_no_flag() -> None:
    assert outside(half, x=0.0, result=4.0) == ()


def test_an_argument_outside_raises_a_flag_with_value_and_limits() -> None:
    (flag,) = outside(half, x=12.0)
    assert (flag.argument, flag.high, flag.limit_low, flag.limit_high) == ("x", 12.0, 0, 10)


def test_a_result_outside_raises_a_flag() -> None:
    (flag,) = outside(half, x=9.0, result=4.5)
    assert flag.argument == "result"


def test_one_draw_outside_flags_the_whole_array_with_its_extremes() -> None:
    (flag,) = outside(half, x=np.array([1.0, -2.0, 11.0]))
    assert (flag.low, flag.high) == (-2.0, 11.0)


def test_not_a_number_counts_as_outside() -> None:
    (flag,) = outside(half, x=np.array([1.0, math.nan]))
    assert (flag.low, flag.high) == (1.0, 1.0)


def test_arguments_without_a_stated_range_are_not_judged() -> None:
    assert outside(half, y=1e9) == ()


@given(st.floats(-100, 100))
def test_a_flag_stands_exactly_where_the_range_is_left(x: float) -> None:
    assert bool(outside(half, x=x)) == (not 0 <= x <= 10)
