"""The spoon cross-check."""

from __future__ import annotations

import pytest

from invented import line, product
from pellicle.errors import InputError
from pellicle.food.ingredients import catalogue
from pellicle.formula.resolve import resolve
from pellicle.formula.spoon import SpoonCheck, check_spoons
from pellicle.product import OwnIngredient

SALT = OwnIngredient("round salt", {"salt": 100.0}, density_kg_m3=1217.0)  # 6 g per teaspoon of 4.93 mL


def check(amount: str, spoon: str, raw_kg: float | None = None) -> SpoonCheck:
    made = product(line("round salt", amount, spoon=spoon), own_ingredients=(SALT,))
    (found,) = check_spoons(made, resolve(made, catalogue(), raw_kg=raw_kg))
    return found


def test_a_volume_that_fits_its_line_agrees() -> None:
    found = check("12 g", "2 tsp")
    assert not found.hides
    assert found.ratio == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(("amount", "spoon"), [("12 g", "2 tbsp"), ("120 g", "2 tsp"), ("12 g", "1 tsp")])
def test_a_volume_that_hides_a_factor_warns(amount: str, spoon: str) -> None:
    found = check(amount, spoon)
    assert found.hides
    assert "never spoon it" in str(found.message)


def test_the_volume_belongs_to_the_weight_of_the_file() -> None:
    assert check("12 g", "2 tsp", raw_kg=400.0).ratio == pytest.approx(1.0, abs=0.01)


def test_without_a_density_nothing_is_said_of_a_factor() -> None:
    own = OwnIngredient("odd powder", {"carbohydrate": 100.0})
    made = product(line("odd powder", "12 g", spoon="2 tsp"), own_ingredients=(own,))
    (found,) = check_spoons(made, resolve(made, catalogue()))
    assert found.ratio is None
    assert "no density is known" in str(found.message)


def test_a_volume_that_cannot_be_read_is_refused_at_its_line() -> None:
    with pytest.raises(InputError) as caught:
        check("12 g", "two heaps")
    assert caught.value.field == "formula[1].spoon"
