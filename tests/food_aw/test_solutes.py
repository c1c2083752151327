"""The table of solutes: every row can be used, syrups are made to order, a typo gets near matches."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from agreement import agrees
from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.electrolytes import VIRIALS
from pellicle.food.solutes import SOLUTES, Treat, glucose_syrup, solute
from pellicle.food.water_activity import aw, default_parameters, inputs

GROUPS = {"salt", "cure", "accelerator", "phosphate", "sugar", "polyol", "acid", "alcohol", "amino", "other"}
# IUPAC atomic weights, abridged (from memory).
ATOMS = {"H": 1.008, "C": 12.011, "N": 14.007, "O": 15.999, "Na": 22.990, "P": 30.974, "Cl": 35.45, "K": 39.098}
FORMULAS = {
    "salt": "NaCl", "potassium chloride": "KCl", "sodium lactate": "C3H5O3Na", "potassium lactate": "C3H5O3K",
    "sodium acetate": "C2H3O2Na", "sodium diacetate": "C4H7O4Na", "sodium nitrite": "NaNO2",
    "potassium nitrite": "KNO2", "sodium nitrate": "NaNO3", "potassium nitrate": "KNO3",
    "sodium erythorbate": "C6H7O6Na", "sodium ascorbate": "C6H7O6Na", "erythorbic acid": "C6H8O6",
    "ascorbic acid": "C6H8O6", "sodium tripolyphosphate": "Na5P3O10", "disodium phosphate": "Na2HPO4",
    "tetrasodium pyrophosphate": "Na4P2O7", "potassium sorbate": "C6H7O2K", "sucrose": "C12H22O11",
    "glucose": "C6H12O6", "fructose": "C6H12O6", "maltose": "C12H22O11", "lactose": "C12H22O11",
    "glycerol": "C3H8O3", "sorbitol": "C6H14O6", "xylitol": "C5H12O5", "erythritol": "C4H10O4",
    "mannitol": "C6H14O6", "propylene glycol": "C3H8O2", "acetic acid": "C2H4O2", "lactic acid": "C3H6O3",
    "citric acid": "C6H8O7", "malic acid": "C4H6O5", "tartaric acid": "C4H6O6", "ethanol": "C2H6O",
    "monosodium glutamate": "C5H8NO4Na", "gluconolactone": "C6H10O6",
}  # fmt: skip


def weight(formula: str) -> float:
    pairs = re.findall(r"([A-Z][a-z]?)(\d*)", formula)
    return sum(ATOMS[atom] * int(count or 1) for atom, count in pairs)


@pytest.mark.parametrize("name", FORMULAS)
def test_molar_masses_follow_from_the_chemical_formula(name: str) -> None:
    assert agrees(1000.0 * solute(name).molar_mass, f"{weight(FORMULAS[name]):.3f}", within=0.05)


def test_every_solute_with_a_formula_is_checked() -> None:
    assert set(SOLUTES) - set(FORMULAS) == {"other osmoles"}


@pytest.mark.parametrize("name", SOLUTES)
def test_every_solute_is_whole_and_lowers_water_activity(name: str) -> None:
    found = solute(name)
    assert found.group in GROUPS
    numbers = {
        Treat.ELECTROLYTE: found.salt_equivalents,
        Treat.NORRISH: found.norrish_k,
        Treat.IDEAL: found.osmol_per_mol,
    }
    assert numbers[found.treat] > 0.0
    assert (found.pitzer in VIRIALS) is (found.treat is Treat.ELECTROLYTE)
    made = Composition(water=1.0, solutes={name: 0.05})
    assert aw(inputs(made), default_parameters()) < 0.999


def test_a_typo_gets_near_matches() -> None:
    with pytest.raises(InputError, match=r'no solute called "sucrosse"\. Did you mean sucrose') as caught:
        solute("sucrosse", field="--solute")
    assert caught.value.field == "--solute"


def test_something_else_altogether_gets_the_list_to_look_in() -> None:
    with pytest.raises(InputError, match="pellicle ingredients"):
        solute("zzzz")


@pytest.mark.parametrize("name", ["glucose syrup DE 5", "glucose syrup DE 99", "glucose syrup", "glucose syrup DE x"])
def test_syrups_outside_10_to_95_are_refused(name: str) -> None:
    with pytest.raises(InputError, match="from 10 to 95"):
        solute(name)


def test_a_syrup_by_its_de() -> None:
    """The review, section 2.3 (from memory): DE 42 about 430 g/mol, DE 63 about 286, DE 10 about 1800."""
    assert agrees(1000.0 * solute("glucose syrup DE 42").molar_mass, "430", within=2.0)
    assert agrees(1000.0 * solute("glucose syrup DE 63").molar_mass, "286")
    assert agrees(1000.0 * solute("glucose syrup DE 10").molar_mass, "1800", within=5.0)
    assert solute("Glucose Syrup de 42") == solute("glucose syrup DE 42")


@given(st.floats(10.0, 94.0))
def test_more_converted_syrups_bind_more_water_by_weight(de: float) -> None:
    def reading(value: float) -> float:
        name = glucose_syrup(value).name
        return float(aw(inputs(Composition(water=1.0, solutes={name: 1.0})), default_parameters()))

    # names round a DE to six digits
    assert reading(round(de + 1.0, 3)) < reading(round(de, 3))
