"""Other restricted ingredients as figures: what speeds the cure up, and phosphates. Limits stand in ``rules``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pellicle.food.composition import Composition
from pellicle.food.solutes import solute
from pellicle.formula.cure import DRY, Base, base_of, ingoing_ppm
from pellicle.formula.parts import Formula, Part
from pellicle.product import CureMethod, Uptake

ACCELERATOR_GROUP = "accelerator"
PHOSPHATE_GROUP = "phosphate"
CITRIC_ACID = "citric acid"

# Atoms of phosphorus per formula unit, from the chemical formulas Na5P3O10, Na2HPO4, Na4P2O7.
PHOSPHORUS = MappingProxyType({"sodium tripolyphosphate": 3, "disodium phosphate": 1, "tetrasodium pyrophosphate": 2})
AS_PHOSPHATE = "disodium phosphate"

# Citric acid counts as an addition where it is the ingredient itself, not where a juice or a fruit brings it along.
ADDED_AS_ITSELF = 0.5  # kg per kg of the ingredient; own choice


@dataclass(frozen=True, slots=True)
class Restricted:
    """One restricted solute: its mass [kg], its figure by the method's official sum and the worst case, both in ppm.

    ``ingoing_ppm`` is None where the sum needs a pickup that is not known.
    """

    name: str
    kg: float
    ingoing_ppm: float | None
    worst_case_ppm: float


def accelerators(formula: Formula, method: CureMethod | None, uptake: Uptake) -> Mapping[str, Restricted]:
    """Return every accelerator in the formula by species (erythorbates, ascorbates, their acids; citric acid).

    On the green weight, by the same sum as the cure: 0.05 % of erythorbate in tumbled meat is 500 ppm.
    """
    base = base_of(method, uptake, bool(formula.liquid_parts))
    masses = _by_species(formula, ACCELERATOR_GROUP)
    citric_kg = sum(_added_citric(part) for part in formula.parts)
    if citric_kg:
        masses[CITRIC_ACID] = citric_kg
    return MappingProxyType({name: _restricted(name, kg, base, formula) for name, kg in masses.items()})


@dataclass(frozen=True, slots=True)
class Phosphates:
    """Added phosphates: mass [kg] as weighed and shares (kg/kg) of meat and solution together and of the finished
    weight.

    ``as_disodium_kg`` is the disodium phosphate of the same phosphorus. ``of_finished`` counts what went in with the
    solution; None where the finished weight is not known.
    """

    kg: float
    as_disodium_kg: float
    by_species: Mapping[str, float]
    of_total: float
    of_green: float
    of_finished: float | None


def phosphates(formula: Formula, taken_share: float = 1.0, finished_kg: float | None = None) -> Phosphates:
    """Return the added phosphates of a formula; a share of 1 taken up is the most there can be."""
    masses = _by_species(formula, PHOSPHATE_GROUP)
    kg = sum(masses.values())
    return Phosphates(
        kg=kg,
        as_disodium_kg=sum(_as_disodium(name, mass) for name, mass in masses.items()),
        by_species=MappingProxyType(masses),
        of_total=kg / formula.total_kg,
        of_green=kg / formula.raw_kg,
        of_finished=kg * taken_share / finished_kg if finished_kg else None,
    )


def _as_disodium(name: str, kg: float) -> float:
    return kg * PHOSPHORUS[name] * solute(AS_PHOSPHATE).molar_mass / solute(name).molar_mass


def _by_species(formula: Formula, group: str) -> dict[str, float]:
    added: Composition = formula.solution
    return {name: float(kg) for name, kg in added.solutes.items() if solute(name).group == group and kg > 0}


def _added_citric(part: Part) -> float:
    share = float(part.ingredient.composition.solute(CITRIC_ACID))
    return share * part.kg if share > ADDED_AS_ITSELF else 0.0


def _restricted(name: str, kg: float, base: Base | None, formula: Formula) -> Restricted:
    ingoing = None if base is None else ingoing_ppm(kg, base, formula.raw_kg, formula.solution_kg)
    return Restricted(name, kg, ingoing, ingoing_ppm(kg, DRY, formula.raw_kg))
