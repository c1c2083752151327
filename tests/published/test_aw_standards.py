"""Meter standards: saturated salts as Greenspan's fits print them, unsaturated ones as meter manuals state them."""

from __future__ import annotations

import pytest

from agreement import agrees
from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.electrolytes import VIRIALS, brine_aw, osmotic_coefficient
from pellicle.food.standards import Standard, saturated, saturated_names, unsaturated
from pellicle.food.water_activity import aw, default_parameters, inputs

TEMPERATURES_C = (10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80)

# Greenspan 1977, J. Res. Natl. Bur. Stand. 81A:89: %RH by his fits (evaluated in the review of models).
FIXED_POINTS = {
    "lithium chloride": "11.29 11.31 11.31 11.30 11.29 11.26 11.22 11.11 10.95 10.76 10.52",
    "magnesium chloride": "33.48 33.30 33.07 32.79 32.45 32.05 31.61 30.55 29.27 27.77 26.06",
    "magnesium nitrate": "57.37 55.88 54.39 52.90 51.41 49.92 48.43 45.44",
    "sodium chloride": "75.68 75.61 75.48 75.30 75.09 74.88 74.69 74.43 74.50 75.07 76.30",
    "potassium chloride": "86.78 85.92 85.11 84.35 83.63 82.95 82.32 81.20 80.26 79.49 78.91",
    "potassium sulfate": "98.19 97.89 97.60 97.30 97.01 96.71 96.42 95.83",
}


@pytest.mark.parametrize("salt", FIXED_POINTS)
def test_saturated_salts(salt: str) -> None:
    printed = FIXED_POINTS[salt].split()
    for temperature_c, percent in zip(TEMPERATURES_C, printed, strict=False):
        # evaluated to two decimals from coefficients of six digits: one unit of the last digit
        assert agrees(100.0 * saturated(salt, temperature_c).aw, percent, within=0.01)


def test_every_saturated_salt_of_the_table_is_checked() -> None:
    assert set(saturated_names()) == set(FIXED_POINTS)


@pytest.mark.parametrize(
    ("salt", "temperature_c", "printed"),
    [
        ("potassium chloride", 18, ".8543"),
        ("potassium chloride", 22, ".8480"),
        ("potassium chloride", 28, ".8391"),
        ("sodium chloride", 15, ".7561"),
        ("sodium chloride", 30, ".7509"),
    ],
)
def test_slurries_at_room_temperatures(salt: str, temperature_c: float, printed: str) -> None:
    """The same fits as they stand in the review's notes on jars."""
    assert agrees(saturated(salt, temperature_c).aw, printed)


def test_a_standard_outside_its_range_is_refused() -> None:
    with pytest.raises(InputError, match=r"runs from 0 to 50 °C; 60 °C is outside"):
        saturated("potassium sulfate", 60.0)


def test_an_unknown_standard_is_refused_with_the_list() -> None:
    with pytest.raises(InputError, match=r'called "table salt".*sodium chloride'):
        saturated("table salt", 25.0)


@pytest.mark.parametrize("standard", [found for found in unsaturated() if "lithium" not in found.name], ids=str)
def test_unsaturated_standards_by_the_salt_equation(standard: Standard) -> None:
    """Meter manuals: sodium chloride 6.00 at 0.760 (seen), 2.33 at 0.920, potassium chloride 0.5 at 0.984, +-0.003."""
    assert standard.molality is not None
    salt = VIRIALS[standard.name.rsplit(" ", 2)[0]]
    phi = osmotic_coefficient(standard.molality, salt.b0, salt.b1, salt.c)
    assert agrees(float(brine_aw(standard.molality, phi)), f"{standard.aw:.3f}", within=standard.u)


@pytest.mark.parametrize(
    ("solute", "kg", "printed"),
    [("salt", 0.350658, "0.760"), ("salt", 0.136172, "0.920"), ("potassium chloride", 0.0372755, "0.984")],
)
def test_unsaturated_standards_by_the_product_model(solute: str, kg: float, printed: str) -> None:
    made = Composition(water=1.0, solutes={solute: kg})
    assert agrees(float(aw(inputs(made), default_parameters())), printed, within=0.001)
