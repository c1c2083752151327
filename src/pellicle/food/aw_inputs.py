"""What the water activity model reads of a composition, and its parameters; floats or arrays of draws alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pellicle import parameter
from pellicle.food.composition import Composition, Quantity
from pellicle.food.electrolytes import VIRIALS
from pellicle.food.solutes import Solute, Treat, solute
from pellicle.food.water_model import NACL_B0, NACL_B1, NACL_C, TINY


@dataclass(frozen=True, slots=True)
class AwInputs:
    """A composition as the model sees it, for any amount of product; floats or arrays that broadcast together.

    ``water``, ``protein`` and ``muscle`` (the protein that brings meat's own solutes) in kg; ``salt_mol`` of 1:1
    salts and ``sugar_mol`` of sugars, polyols and fruit acids in mol; ``root_k`` the mole-weighted mean square root
    of the Norrish constants; ``other_osmol`` of everything else in osmol; ``sweet_kg`` of sugars and polyols in kg;
    then the mole-weighted Pitzer coefficients of the salts, in kg/mol and kg2/mol2.
    """

    water: Quantity
    protein: Quantity = 0.0
    muscle: Quantity = 0.0
    salt_mol: Quantity = 0.0
    sugar_mol: Quantity = 0.0
    root_k: Quantity = 0.0
    other_osmol: Quantity = 0.0
    sweet_kg: Quantity = 0.0
    salt_b0: Quantity = NACL_B0
    salt_b1: Quantity = NACL_B1
    salt_c: Quantity = NACL_C


@dataclass(frozen=True, slots=True)
class AwParameters:
    """The model's three parameters (``parameters.csv``); floats or arrays of draws.

    ``protein_water_factor`` [1], ``intrinsic_osmol_per_kg_protein`` [osmol/kg], ``salt_sugar_interaction`` [kg/mol].
    """

    protein_water_factor: Quantity
    intrinsic_osmol_per_kg_protein: Quantity
    salt_sugar_interaction: Quantity


def default_parameters(overrides: Mapping[str, float] = parameter.NO_OVERRIDES) -> AwParameters:
    """Return the model's parameters from ``parameters.csv``, with a product's own values in their place where given.

    >>> default_parameters({"protein_water_factor": 1.0})
    AwParameters(protein_water_factor=1.0, intrinsic_osmol_per_kg_protein=1.45, salt_sugar_interaction=0.0)
    """
    return AwParameters(
        parameter.value("protein_water_factor", overrides),
        parameter.value("intrinsic_osmol_per_kg_protein", overrides),
        parameter.value("salt_sugar_interaction", overrides),
    )


def inputs(composition: Composition) -> AwInputs:
    """Return what the model reads of a composition; InputError if it names a solute that is not in the table.

    Salts count mole for mole, each with its own Pitzer coefficients (lactates with those of sodium chloride). Ash is
    not counted: meat's own minerals are among its own solutes. Starch, fibre and spice hold no water here.

    >>> read = inputs(Composition(water=1.0, solutes={"salt": 0.17532}))
    >>> round(read.salt_mol, 3), read.salt_b0
    (3.0, 0.0765)
    """
    known = [(solute(name), mass) for name, mass in composition.solutes.items()]
    salts = _amounts(known, Treat.ELECTROLYTE)
    sugars = _amounts(known, Treat.NORRISH)
    salt_mol = _total([entry.salt_equivalents * mol for entry, mol in salts])
    sugar_mol = _total([mol for _, mol in sugars])
    return AwInputs(
        water=composition.water,
        protein=composition.protein,
        muscle=composition.muscle,
        salt_mol=salt_mol,
        sugar_mol=sugar_mol,
        root_k=_mean([(mol, float(np.sqrt(entry.norrish_k))) for entry, mol in sugars], 0.0),
        other_osmol=_total([entry.osmol_per_mol * mol for entry, mol in _amounts(known, Treat.IDEAL)]),
        sweet_kg=_total([mass for entry, mass in known if entry.sweet]),
        salt_b0=_mean([(mol, VIRIALS[entry.pitzer].b0) for entry, mol in salts], NACL_B0),
        salt_b1=_mean([(mol, VIRIALS[entry.pitzer].b1) for entry, mol in salts], NACL_B1),
        salt_c=_mean([(mol, VIRIALS[entry.pitzer].c) for entry, mol in salts], NACL_C),
    )


def _amounts(known: list[tuple[Solute, Quantity]], treat: Treat) -> list[tuple[Solute, Quantity]]:
    return [(entry, mass / entry.molar_mass) for entry, mass in known if entry.treat is treat]


def _total(amounts: list[Quantity]) -> Quantity:
    return sum(amounts, start=0.0)


def _mean(weighted: list[tuple[Quantity, float]], where_none: float) -> Quantity:
    """Return the weighted mean; where nothing weighs anything (in one draw or in all), ``where_none``."""
    weight = _total([amount for amount, _ in weighted])
    return (_total([amount * value for amount, value in weighted]) + TINY * where_none) / (weight + TINY)
