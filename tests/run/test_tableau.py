"""The Rosenbrock coefficients: their order conditions notice a wrong digit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pellicle.run.tableau import RODAS3, RODAS3P, RODAS4P, Tableau, checked

EVERY = pytest.mark.parametrize("method", [RODAS3, RODAS3P, RODAS4P], ids=lambda method: method.name)


@EVERY
def test_coefficients_have_the_order_they_are_taken_for(method: Tableau) -> None:
    assert checked(method) is method


@EVERY
def test_a_wrong_digit_is_noticed(method: Tableau) -> None:
    wrong = method.c.copy()
    wrong[2, 1] += 1e-6
    with pytest.raises(ValueError, match="order"):
        checked(replace(method, c=wrong))


@EVERY
def test_a_wrong_error_estimate_is_noticed(method: Tableau) -> None:
    with pytest.raises(ValueError, match="embedded"):
        checked(replace(method, e=method.e * 1.001 + 1e-4))
