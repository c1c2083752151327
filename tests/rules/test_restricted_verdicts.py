"""Accelerators and phosphates against their limits."""

from __future__ import annotations

import pytest
from plain_products import a_cure, a_situation, one

from pellicle.product import CureMethod, Storage
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.restricted_check import restricted_checks
from pellicle.rules.verdict import Verdict


@pytest.mark.parametrize(
    ("given", "id", "limit"),
    [
        ({"salts_ppm": 546.875}, "restricted.accelerator_salts", 546.875),
        ({"acids_ppm": 468.75}, "restricted.accelerator_acids", 468.75),
        ({"phosphate_share": 0.005}, "restricted.phosphate", 0.5),
        ({"gluconolactone_share": 0.005}, "restricted.gluconolactone", 0.5),
    ],
)
def test_each_is_met_at_its_limit_and_not_a_hair_above(given, id, limit) -> None:
    check = one(restricted_checks(a_situation(), PlanQuantities(**given)), id)
    assert (check.verdict, check.limit) == (Verdict.MET, limit)
    above = {name: value * 1.000001 for name, value in given.items()}
    assert one(restricted_checks(a_situation(), PlanQuantities(**above)), id).verdict is Verdict.NOT_MET


def test_a_limit_from_memory_does_not_block_and_says_so() -> None:
    check = one(
        restricted_checks(a_situation(), PlanQuantities(gluconolactone_share=0.02)), "restricted.gluconolactone"
    )
    assert not check.blocking
    assert "memory" in str(check.why)


def test_salts_and_acids_each_within_but_together_over_cannot_be_told() -> None:
    found = restricted_checks(a_situation(), PlanQuantities(salts_ppm=400.0, acids_ppm=300.0))
    assert one(found, "restricted.accelerators_together").verdict is Verdict.CANNOT_TELL
    fewer = restricted_checks(a_situation(), PlanQuantities(salts_ppm=200.0, acids_ppm=200.0))
    assert [check.verdict for check in fewer] == [Verdict.MET, Verdict.MET]


@pytest.mark.parametrize(
    ("ppm", "verdict"),
    [
        (0.0, Verdict.NOT_MET),
        (546.0, Verdict.NOT_MET),
        (550.0, Verdict.MET),
        (660.0, Verdict.MET),
        (661.0, Verdict.NOT_MET),
    ],
)
def test_pumped_bacon_needs_its_accelerator(ppm: float, verdict: Verdict) -> None:
    quantities = PlanQuantities(cure=a_cure(120.0), salts_ppm=ppm)
    found = restricted_checks(a_situation(storage=Storage.BACON), quantities)
    assert one(found, "restricted.accelerator_bacon").verdict is verdict


def test_rubbed_bacon_does_not() -> None:
    quantities = PlanQuantities(cure=a_cure(120.0, CureMethod.RUBBED))
    assert not restricted_checks(a_situation(CureMethod.RUBBED, storage=Storage.BACON), quantities)


def test_canada_counts_phosphate_as_disodium_phosphate() -> None:
    quantities = PlanQuantities(phosphate_share=0.006, phosphate_disodium_share=0.004)
    assert restricted_checks(a_situation(jurisdiction="ca"), quantities)[0].verdict is Verdict.MET
    unknown = PlanQuantities(phosphate_share=0.006)
    assert restricted_checks(a_situation(jurisdiction="ca"), unknown)[0].verdict is Verdict.CANNOT_TELL


def test_without_a_row_it_cannot_be_told() -> None:
    found = restricted_checks(a_situation(jurisdiction="eu"), PlanQuantities(phosphate_share=0.001, salts_ppm=10.0))
    assert {check.verdict for check in found} == {Verdict.CANNOT_TELL}
