"""Accelerators and phosphates as figures."""

from __future__ import annotations

import pytest

from invented import line, product
from pellicle.food.ingredients import catalogue
from pellicle.formula.resolve import resolve
from pellicle.formula.restricted import accelerators, phosphates
from pellicle.product import CureMethod, Uptake


def test_accelerators_are_told_by_species() -> None:
    made = product(line("sodium erythorbate", "0.05 %"), line("ascorbic acid", "0.02 %"), line("salt", "2 %"))
    found = accelerators(resolve(made, catalogue()), CureMethod.RUBBED, Uptake())
    assert {name: round(each.worst_case_ppm, 6) for name, each in found.items()} == {
        "sodium erythorbate": 500.0,
        "ascorbic acid": 200.0,
    }


def test_an_accelerator_in_pickle_counts_by_pickup_as_the_cure_does() -> None:
    made = product(line("water", "19.5 %"), line("sodium erythorbate", "0.5 %"))
    found = accelerators(resolve(made, catalogue()), CureMethod.INJECTED, Uptake(pickup_share=0.02))
    assert found["sodium erythorbate"].ingoing_ppm == pytest.approx(500.0)
    assert found["sodium erythorbate"].worst_case_ppm == pytest.approx(5000.0)


def test_citric_acid_counts_where_it_is_added_as_such() -> None:
    juice = resolve(product(line("lemon juice", "5 %")), catalogue())
    acid = resolve(product(line("citric acid", "0.1 %"), line("lemon juice", "5 %")), catalogue())
    assert "citric acid" not in accelerators(juice, None, Uptake())
    assert accelerators(acid, None, Uptake())["citric acid"].worst_case_ppm == pytest.approx(1000.0)


def test_phosphates_are_shares_of_total_and_of_finished() -> None:
    made = product(line("water", "9.6 %"), line("sodium tripolyphosphate", "0.4 %"), raw="100 kg")
    found = phosphates(resolve(made, catalogue()), taken_share=0.9, finished_kg=50.0)
    assert found.of_total == pytest.approx(0.4 / 110)
    assert found.of_finished == pytest.approx(0.36 / 50)


def test_phosphates_are_compared_by_their_phosphorus() -> None:
    """Own arithmetic: Na5P3O10 is 367.86 g/mol, Na2HPO4 141.96 g/mol."""
    made = product(line("sodium tripolyphosphate", "0.36786 %"), raw="100 kg")
    assert phosphates(resolve(made, catalogue())).as_disodium_kg == pytest.approx(3 * 0.14196, rel=1e-4)
