"""Densities behind the spoon cross-check, against household measures."""

from __future__ import annotations

import pytest

from agreement import agrees
from pellicle.food.ingredients import catalogue

TEASPOON_M3, TABLESPOON_M3, CUP_M3 = 4.92892e-6, 14.7868e-6, 236.588e-6
# Weights of a quarter cup of seven kinds of salt, g; listed by a practitioner.
QUARTER_CUP_SALT_G = (76.0, 74.0, 66.8, 64.8, 62.0, 45.2, 33.2)


def grams(name: str, volume_m3: float) -> float:
    density = catalogue().find(name).density_kg_m3
    assert density is not None
    return density * volume_m3 * 1000


@pytest.mark.parametrize(
    ("name", "volume", "printed"),
    [
        ("salt", TEASPOON_M3, "6.0"),
        ("brown sugar", TEASPOON_M3, "3.0"),
        ("garlic powder", TEASPOON_M3, "3.1"),
        ("black pepper", TEASPOON_M3, "2.3"),
        ("soy sauce", TABLESPOON_M3, "16.0"),
        ("worcestershire sauce", TABLESPOON_M3, "17.0"),
        ("honey", CUP_M3, "339"),
        ("corn starch", CUP_M3, "128"),
    ],
)
def test_a_measure_weighs_what_the_table_prints(name: str, volume: float, printed: str) -> None:
    """USDA Standard Reference, release 28, household weights of the rows in ``usda_sr28_rows.csv``."""
    assert agrees(grams(name, volume), printed)


def test_kinds_of_salt_span_what_was_weighed() -> None:
    """The same spoon holds 2.3 times as much of one salt as of another: spoons are no scale."""
    weights = [grams(name, CUP_M3 / 4) for name in ("flake salt", "coarse salt", "salt")]
    assert agrees(weights[0], "33.2")
    assert agrees(weights[1], "45.2")
    assert QUARTER_CUP_SALT_G[2] < weights[2] < QUARTER_CUP_SALT_G[0]
    assert agrees(max(QUARTER_CUP_SALT_G) / min(QUARTER_CUP_SALT_G), "2.3")
