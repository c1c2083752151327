"""Two rules for mixtures: what the review computes by each for salt with sucrose, and where they agree."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from agreement import agrees
from pellicle.food.mixing import aw_by_groups, salt_molality_at, sugar_molality_at, water_by_groups
from pellicle.food.water_activity import AW_FLOOR, AwInputs, AwParameters, aw, default_parameters

DEFAULT = default_parameters()
SUCROSE = math.sqrt(6.47)

# The review, section 3.1 (computed): salt and sucrose in mol/kg, aw added up in ln aw, aw by groups, and aw with a
# cross term fitted to mutual solubilities.
MIXED = [
    (1, 1, ".9478", ".9443", ".948"),
    (2, 1, ".9132", ".9062", ".915"),
    (1, 2, ".9259", ".9193", ".927"),
    (2, 2, ".8921", ".8789", ".895"),
    (3, 2, ".8553", ".8359", ".860"),
    (1.7, 4, ".8538", ".8335", ".856"),
    (3, 4, ".8091", ".7746", ".815"),
    (1.7, 6.3, ".7913", ".7635", ".792"),
]


def mixture(salt: float, sucrose: float) -> AwInputs:
    return AwInputs(water=1.0, salt_mol=salt, sugar_mol=sucrose, root_k=SUCROSE)


@pytest.mark.parametrize(("salt", "sucrose", "added", "by_groups", "solubility"), MIXED)
def test_salt_with_sucrose(salt: float, sucrose: float, added: str, by_groups: str, solubility: str) -> None:
    assert agrees(float(aw(mixture(salt, sucrose), DEFAULT)), added)
    assert agrees(aw_by_groups(mixture(salt, sucrose), DEFAULT), by_groups)
    # the model's rule is nearer to what the solubilities of the two together imply
    assert agrees(float(aw(mixture(salt, sucrose), DEFAULT)), solubility, within=0.0065)


def test_the_cross_term_moves_a_mixture_by_what_the_review_states() -> None:
    """0.03 kg/mol is 0.004 in aw at 2 mol/kg of each."""
    lower = aw(mixture(2.0, 2.0), AwParameters(0.9, 1.45, 0.03))
    assert agrees(float(aw(mixture(2.0, 2.0), DEFAULT)) - float(lower), "0.004", within=0.0005)


@given(st.floats(0.001, 6.0))
def test_a_single_solute_is_the_same_by_both_rules(molality: float) -> None:
    for alone in (AwInputs(water=1.0, salt_mol=molality), mixture(0.0, molality)):
        assert aw_by_groups(alone, DEFAULT) == pytest.approx(float(aw(alone, DEFAULT)), abs=1e-8)


@given(st.floats(1e-4, 1.0))
def test_molalities_found_have_the_depression_asked_for(depression: float) -> None:
    salt = salt_molality_at(depression, 0.0765, 0.2664, 0.00127)
    assert -math.log(aw(AwInputs(water=1.0, salt_mol=salt), DEFAULT)) == pytest.approx(depression, rel=1e-6)
    sugar = sugar_molality_at(depression, SUCROSE)
    assert -math.log(aw(mixture(0.0, sugar), DEFAULT)) == pytest.approx(depression, rel=1e-6)


@given(st.floats(0.1, 2.0), st.floats(0.0, 0.3), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 0.1))
def test_the_groups_together_hold_the_water_there_is(
    water: float, protein: float, salt: float, sugar: float, osmol: float
) -> None:
    made = AwInputs(water, protein, protein, salt, sugar, SUCROSE if sugar else 0.0, osmol)
    found = aw_by_groups(made, DEFAULT)
    assert AW_FLOOR <= found <= 1.0
    if AW_FLOOR < found < 0.9999:
        assert water_by_groups(-math.log(found), made, DEFAULT) == pytest.approx(water, rel=1e-7)


def test_the_ends() -> None:
    assert aw_by_groups(AwInputs(water=1.0), DEFAULT) == 1.0
    assert aw_by_groups(AwInputs(water=1e-9, salt_mol=1.0), DEFAULT) == AW_FLOOR
