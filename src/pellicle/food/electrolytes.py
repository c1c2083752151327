"""Salts in water: osmotic coefficients by Pitzer's equation, at 25 C for every 1:1 salt and with temperature for salt.

The water model uses the 25 C form: between 25 and 70 C a salt brine up to 4 mol/kg moves by about 0.001 aw. Beyond a
saturated brine the osmotic coefficient goes on in a straight line, as brine droplets without crystals do.
Coefficients: ``data/pitzer.csv`` and ``data/pitzer_temperature.csv``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.relation import relation
from pellicle.table import number, rows

# kg of water per mol.
WATER_MOLAR_MASS = 0.0180153
# Debye-Hueckel slope of the osmotic coefficient at 25 C, kg^0.5/mol^0.5 (Pitzer and Mayorga 1973, from memory).
DEBYE_HUECKEL_25C = 0.3915
# assumed: from here, mol/kg, the equation bends the wrong way and a straight line takes over (saturated brine: 6.14).
PITZER_EDGE = 6.15
# assumed: rise of the osmotic coefficient per mol/kg beyond the edge; gives about 0.62 at 9 and 0.51 at 12 mol/kg.
CONTINUED_SLOPE = 0.055
CELSIUS_ZERO_K = 273.15
REFERENCE_K = 298.15


@dataclass(frozen=True, slots=True)
class Virial:
    """Pitzer coefficients of a 1:1 salt: ``b0`` and ``b1`` in kg/mol, ``c`` in kg2/mol2, known up to ``valid_to``."""

    b0: float
    b1: float
    c: float
    valid_to: float


def _read() -> Mapping[str, Virial]:
    return MappingProxyType(
        {
            row["salt"]: Virial(
                number(row, "b0_kg_per_mol"),
                number(row, "b1_kg_per_mol"),
                number(row, "c_kg2_per_mol2"),
                number(row, "valid_to_mol_per_kg"),
            )
            for row in rows("food/data/pitzer.csv")
        }
    )


VIRIALS: Mapping[str, Virial] = _read()
SODIUM_CHLORIDE = VIRIALS["sodium chloride"]


@relation(("pitzer-mayorga-1973", "robinson-stokes-book"), valid={"molality": (0.0, PITZER_EDGE), "result": (0.5, 2.0)})
def osmotic_coefficient(molality: Quantity, b0: Quantity, b1: Quantity, c: Quantity) -> Quantity:
    """Return the osmotic coefficient of a 1:1 salt in water at 25 C.

    phi = 1 - A sqrt(m) / (1 + 1.2 sqrt(m)) + m (b0 + b1 exp(-2 sqrt(m))) + m^2 c

    ``molality`` [mol/kg water], ``b0`` and ``b1`` [kg/mol], ``c`` [kg2/mol2]; floats or arrays. For sodium chloride
    valid from 0 to 6 mol/kg. Robinson and Stokes print 1.0453 at 3 mol/kg (from memory).

    >>> nacl = SODIUM_CHLORIDE
    >>> round(float(osmotic_coefficient(3.0, nacl.b0, nacl.b1, nacl.c)), 3)
    1.046
    """
    root = np.sqrt(molality)
    virial = molality * (b0 + b1 * np.exp(-2.0 * root)) + molality * molality * c
    return 1.0 - DEBYE_HUECKEL_25C * root / (1.0 + 1.2 * root) + virial


@relation(("pitzer-mayorga-1973", "own-arithmetic"), valid={"molality": (0.0, PITZER_EDGE)})
def osmotic_slope(molality: Quantity, b0: Quantity, b1: Quantity, c: Quantity) -> Quantity:
    """Return m d(phi)/dm of ``osmotic_coefficient``, its derivative times the molality.

    ``molality`` [mol/kg water], ``b0`` and ``b1`` [kg/mol], ``c`` [kg2/mol2]. The molality keeps it finite in pure
    water. Own arithmetic.

    >>> nacl = SODIUM_CHLORIDE
    >>> low, high = (osmotic_coefficient(m, nacl.b0, nacl.b1, nacl.c) for m in (2.999, 3.001))
    >>> round(float(3.0 * (high - low) / 0.002), 6), round(float(osmotic_slope(3.0, nacl.b0, nacl.b1, nacl.c)), 6)
    (0.198271, 0.198271)
    """
    root = np.sqrt(molality)
    screened = 1.0 + 1.2 * root
    dilute = DEBYE_HUECKEL_25C * root / (2.0 * screened * screened)
    return molality * (b0 + b1 * np.exp(-2.0 * root) * (1.0 - root)) + 2.0 * molality * molality * c - dilute


@relation(("pitzer-mayorga-1973", "brine-droplets-memory"), valid={"molality": (0.0, 14.0)})
def osmotic_coefficient_continued(molality: Quantity, b0: Quantity, b1: Quantity, c: Quantity) -> Quantity:
    """Return the osmotic coefficient at any molality: Pitzer up to a saturated brine, a straight line beyond it.

    ``molality`` [mol/kg water], ``b0`` and ``b1`` [kg/mol], ``c`` [kg2/mol2]. Beyond 6.15 mol/kg it describes salt that
    has not crystallised; droplets of brine read about aw 0.62 at 9 mol/kg (from memory).

    >>> nacl = SODIUM_CHLORIDE
    >>> phi = osmotic_coefficient_continued(9.0, nacl.b0, nacl.b1, nacl.c)
    >>> round(float(np.exp(-2.0 * WATER_MOLAR_MASS * 9.0 * phi)), 2)
    0.63
    """
    inside = np.minimum(molality, PITZER_EDGE)
    return osmotic_coefficient(inside, b0, b1, c) + CONTINUED_SLOPE * (molality - inside)


@relation("moller-1988", valid={"temperature_c": (0.0, 100.0), "result": (0.37, 0.47)})
def debye_hueckel_slope(temperature_c: Quantity) -> Quantity:
    """Return the Debye-Hueckel slope of the osmotic coefficient in water, kg^0.5/mol^0.5.

    ``temperature_c`` [C], 0 to 100; floats or arrays. Moller's form (from memory) gives 0.3915 at 25 C.

    >>> round(float(debye_hueckel_slope(25.0)), 4)
    0.3915
    """
    t = temperature_c + CELSIUS_ZERO_K
    smooth = 0.336901532 - 6.32100430e-4 * t + 9.14252359 / t - 0.0135143986 * np.log(t)
    return smooth + 2.26089488e-3 / (t - 263.0) + 1.92118597e-6 * t * t + 45.2586464 / (680.0 - t)


@relation("pitzer-dat", valid={"temperature_c": (0.0, 100.0)})
def pitzer_coefficient_at(
    temperature_c: Quantity, c0: float, c1: float, c2: float, c3: float, c4: float, c5: float
) -> Quantity:
    """Return a Pitzer coefficient at a temperature.

    c0 + c1 (1/T - 1/Tr) + c2 ln(T/Tr) + c3 (T - Tr) + c4 (T^2 - Tr^2) + c5 (1/T^2 - 1/Tr^2), T in K, Tr = 298.15 K

    ``temperature_c`` [C], 0 to 100. In units of the coefficient itself: ``c0`` [1], ``c1`` [K], ``c2`` [1], ``c3``
    [1/K], ``c4`` [1/K2], ``c5`` [K2]. At 25 C it is c0 by its form.

    >>> round(float(pitzer_coefficient_at(25.0, 0.07534, 9598.4, 35.48, -0.058731, 1.798e-5, -5e5)), 5)
    0.07534
    """
    t = temperature_c + CELSIUS_ZERO_K
    linear = c1 * (1.0 / t - 1.0 / REFERENCE_K) + c2 * np.log(t / REFERENCE_K) + c3 * (t - REFERENCE_K)
    square = c4 * (t * t - REFERENCE_K * REFERENCE_K) + c5 * (1.0 / (t * t) - 1.0 / (REFERENCE_K * REFERENCE_K))
    return c0 + linear + square


def _temperature_row(coefficient: str) -> tuple[float, ...]:
    (row,) = [row for row in rows("food/data/pitzer_temperature.csv") if row["coefficient"] == coefficient]
    return tuple(number(row, f"c{at}") for at in range(6))


# Coefficients c0 to c5 of the three virial terms of sodium chloride.
NACL_B0_AT, NACL_B1_AT, NACL_C_AT = _temperature_row("b0"), _temperature_row("b1"), _temperature_row("c")


@relation("pitzer-dat", valid={"molality": (0.0, 5.0), "temperature_c": (5.0, 80.0), "result": (0.85, 1.3)})
def salt_osmotic_coefficient_at(molality: Quantity, temperature_c: Quantity) -> Quantity:
    """Return the osmotic coefficient of sodium chloride in water at a temperature.

    The equation of ``osmotic_coefficient`` with Moller's slope and coefficients that move with temperature.
    ``molality`` [mol/kg water] 0 to 5, ``temperature_c`` [C] 5 to 80; floats or arrays. The water model does not
    use it: it shows that the 25 C form is good enough. A public geochemical program gives
    aw 0.8516 at 4 mol/kg and 80 C.

    >>> phi = salt_osmotic_coefficient_at(4.0, 80.0)
    >>> round(float(np.exp(-2.0 * WATER_MOLAR_MASS * 4.0 * phi)), 3)
    0.852
    """
    b0 = pitzer_coefficient_at(temperature_c, *NACL_B0_AT)
    b1 = pitzer_coefficient_at(temperature_c, *NACL_B1_AT)
    c = pitzer_coefficient_at(temperature_c, *NACL_C_AT)
    root = np.sqrt(molality)
    virial = molality * (b0 + b1 * np.exp(-2.0 * root)) + molality * molality * c
    return 1.0 - debye_hueckel_slope(temperature_c) * root / (1.0 + 1.2 * root) + virial


@relation("own-arithmetic", valid={"molality": (0.0, PITZER_EDGE), "result": (0.0, 1.0)})
def brine_aw(molality: Quantity, osmotic: Quantity) -> Quantity:
    """Return the water activity of a 1:1 salt brine from its molality [mol/kg water] and osmotic coefficient [1].

    aw = exp(-2 Mw m phi); the definition of the osmotic coefficient.

    >>> round(float(brine_aw(6.0, 1.271)), 3)
    0.76
    """
    return np.exp(-2.0 * WATER_MOLAR_MASS * molality * osmotic)
