"""A figure is a number with its unit and range, printed to the digits its uncertainty bears."""

from __future__ import annotations

import pytest

from pellicle.figure import Figure, Kind


def test_it_prints_its_digits_and_unit() -> None:
    assert Figure(0.85, "", digits=3).text == "0.850"
    assert Figure(22.68, "kg", digits=1).text == "22.7 kg"


def test_an_unknown_value_says_so() -> None:
    assert Figure(None, "ppm", kind=Kind.COMPUTED).text == "unknown"


def test_a_bound_may_have_one_side_only() -> None:
    bound = Figure(0.82, "", low=None, high=0.85, kind=Kind.BOUND)
    assert (bound.low, bound.high) == (None, 0.85)


def test_a_range_that_runs_downwards_is_a_mistake_of_ours() -> None:
    with pytest.raises(ValueError, match="runs upwards"):
        Figure(1.0, "kg", low=2.0, high=1.0)
