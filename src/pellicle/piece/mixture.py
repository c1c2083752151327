"""What a marinated piece is made of, per kg of dry matrix, and the properties its parts bring.

The matrix is everything that neither dissolves nor moves: protein, fat, ash and insoluble additions. Salts are one
field and sugars with polyols another, each of a fixed mix; what is dissolved besides (phosphates, acids counted by
osmoles) moves with the salts. Meat's own small solutes stay with the matrix.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pellicle import parameter
from pellicle.errors import InputError
from pellicle.food.aw_inputs import default_parameters, inputs
from pellicle.food.composition import Composition
from pellicle.food.solutes import Treat, solute
from pellicle.table import number, rows

TABLE = "piece/data/bulk.csv"
BULK = {
    row["constituent"]: (
        number(row, "density_kg_m3"),
        number(row, "heat_capacity_j_kg_k"),
        number(row, "conductivity_w_m_k"),
    )
    for row in rows(TABLE)
}


@dataclass(frozen=True, slots=True)
class Bulk:
    """A part of the piece: heat capacity [J/kg/K], volume [m3/kg] and conductivity times volume [W/m/K m3/kg]."""

    heat_capacity: float
    volume: float
    conducts: float


@dataclass(frozen=True, slots=True)
class Mixture:
    """A marinated piece per kg of matrix.

    ``water``, ``salts``, ``sugars`` [kg/kg matrix]; ``matrix``, ``salt``, ``sugar`` their bulk properties;
    ``salt_mol`` and ``sugar_mol`` [mol/kg of the field], ``root_k``, ``salt_osmol`` [osmol/kg of salts], ``osmol``
    [osmol/kg matrix], ``capacity`` [kg protein times its water factor/kg matrix], Pitzer ``b0``, ``b1``, ``c``,
    ``interaction`` [kg/mol]: what the water activity model reads. ``protein`` [kg/kg matrix]; ``salt_shares`` and
    ``sugar_shares`` say which species, by mass.
    """

    water: float
    salts: float
    sugars: float
    matrix: Bulk
    salt: Bulk
    sugar: Bulk
    salt_mol: float
    sugar_mol: float
    root_k: float
    salt_osmol: float
    osmol: float
    capacity: float
    b0: float
    b1: float
    c: float
    interaction: float
    protein: float
    salt_shares: Mapping[str, float]
    sugar_shares: Mapping[str, float]

    @property
    def green(self) -> float:
        """Return the marinated mass per kg of matrix."""
        return 1.0 + self.water + self.salts + self.sugars


def mixture(composition: Composition, overrides: Mapping[str, float] = parameter.NO_OVERRIDES) -> Mixture:
    """Return a composition (any amount) per kg of its matrix; InputError if it has no protein or no water.

    >>> lean = Composition(water=74.0, protein=22.0, fat=2.9, ash=1.1, muscle=22.0, solutes={"salt": 2.0})
    >>> round(mixture(lean).water, 3), round(mixture(lean).green, 3)
    (2.846, 3.923)
    """
    water, protein = float(composition.water), float(composition.protein)
    if not (water > 0.0 and protein > 0.0):
        raise InputError("piece.no_meat", field="meat")
    fat = float(composition.fat)
    lean = protein + float(composition.ash) + float(composition.carbohydrate)
    matrix = lean + fat
    known = [(solute(name), float(mass)) for name, mass in composition.solutes.items()]
    sweet = {entry.name: mass for entry, mass in known if entry.treat is Treat.NORRISH}
    salty = {entry.name: mass for entry, mass in known if entry.treat is not Treat.NORRISH}
    salts, sugars = sum(salty.values()), sum(sweet.values())
    read, factors = inputs(composition), default_parameters(overrides)
    return Mixture(
        water=water / matrix,
        salts=salts / matrix,
        sugars=sugars / matrix,
        matrix=_bulk({"lean": lean, "fat": fat}),
        salt=_bulk({"salts": 1.0}),
        sugar=_bulk(_by_row(sweet)),
        salt_mol=_per(read.salt_mol, salts),
        sugar_mol=_per(read.sugar_mol, sugars),
        root_k=float(read.root_k),
        salt_osmol=_per(read.other_osmol, salts),
        osmol=float(factors.intrinsic_osmol_per_kg_protein * read.muscle / matrix),
        capacity=float(factors.protein_water_factor * protein / matrix),
        b0=float(read.salt_b0),
        b1=float(read.salt_b1),
        c=float(read.salt_c),
        interaction=float(factors.salt_sugar_interaction),
        protein=protein / matrix,
        salt_shares=_shares(salty),
        sugar_shares=_shares(sweet),
    )


def _by_row(sweet: Mapping[str, float]) -> dict[str, float]:
    """Return the masses under the rows of the table; most sugars share one."""
    found: dict[str, float] = {} if any(sweet.values()) else {"sugars": 1.0}
    for name, mass in sweet.items():
        row = name if name in BULK else "sugars"
        found[row] = found.get(row, 0.0) + mass
    return found


def _bulk(masses: Mapping[str, float]) -> Bulk:
    total = sum(masses.values())
    read = [(mass / total, BULK[name]) for name, mass in masses.items()]
    return Bulk(
        sum(share * capacity for share, (_, capacity, _) in read),
        sum(share / density for share, (density, _, _) in read),
        sum(share / density * conductivity for share, (density, _, conductivity) in read),
    )


def _per(amount: object, mass: float) -> float:
    return float(amount) / mass if mass else 0.0  # type: ignore[arg-type]


def _shares(masses: Mapping[str, float]) -> dict[str, float]:
    total = sum(masses.values())
    return {name: mass / total for name, mass in masses.items()} if total else {}
