"""The other mixing rule: every group of solutes keeps the water it would hold alone at the common water activity.

Zdanovskii, Stokes and Robinson's rule assumes that salts, sugars and meat's solutes do not help one another dissolve.
For salt with sucrose it reads 0.01 to 0.03 lower than the model, which solubilities contradict; the difference
between the two is shown as doubt about the structure of the model.
"""

from __future__ import annotations

import math

from pellicle.food.aw_inputs import AwInputs, AwParameters
from pellicle.food.electrolytes import WATER_MOLAR_MASS, osmotic_coefficient_continued, osmotic_slope
from pellicle.food.sorption import PROTEIN, gab_water
from pellicle.food.water_model import AW_FLOOR, MOST_STEPS
from pellicle.relation import relation

# Where the search for -ln aw starts to bracket, and the agreement at which it ends.
LEAST_DEPRESSION = 1e-12
AGREED = 1e-10


@relation(("pitzer-mayorga-1973", "own-arithmetic"), valid={"depression": (0.0, 0.29), "result": (0.0, 6.15)})
def salt_molality_at(depression: float, b0: float, b1: float, c: float) -> float:
    """Return the molality [mol/kg] of a 1:1 salt brine at a ``depression`` of -ln aw [1].

    ``b0`` [kg/mol], ``b1`` [kg/mol], ``c`` [kg2/mol2]. Newton on 2 Mw m phi(m), which rises steadily. Robinson and
    Stokes give 3.0 mol/kg at 0.8932 (from memory).

    >>> round(salt_molality_at(-math.log(0.8932), 0.0765, 0.2664, 0.00127), 2)
    3.0
    """
    doubled = 2.0 * WATER_MOLAR_MASS
    molality = depression / doubled
    for _ in range(MOST_STEPS):
        phi = float(osmotic_coefficient_continued(molality, b0, b1, c))
        slope = phi + float(osmotic_slope(molality, b0, b1, c))
        then = max(molality - (molality * phi - depression / doubled) / slope, molality / 2.0)
        if abs(then - molality) <= AGREED * then:
            return then
        molality = then
    return molality


@relation(("chirife-1980", "own-arithmetic"), valid={"depression": (0.0, 0.29), "result": (0.0, 30.0)})
def sugar_molality_at(depression: float, root_k: float) -> float:
    """Return the molality [mol/kg] of sugars and polyols together at a ``depression`` of -ln aw [1].

    ``root_k`` [1] as for Norrish. With z = -ln Xw the equation is z + K (1 - e^-z)^2 = -ln aw, solved by Newton. The
    sucrose table has 3.0 mol/kg at 0.9327 by this equation (the review's own arithmetic).

    >>> round(sugar_molality_at(-math.log(0.9327), math.sqrt(6.47)), 2)
    3.0
    """
    norrish_k = root_k * root_k
    z = depression / (1.0 + norrish_k * depression)
    for _ in range(MOST_STEPS):
        share = -math.expm1(-z)
        excess = z + norrish_k * share * share - depression
        then = max(z - excess / (1.0 + 2.0 * norrish_k * share * (1.0 - share)), z / 2.0)
        if abs(then - z) <= AGREED * then:
            break
        z = then
    return math.expm1(z) / WATER_MOLAR_MASS


def water_by_groups(depression: float, inputs: AwInputs, parameters: AwParameters) -> float:
    """Return the water [kg] that the groups hold one by one at a given -ln aw, protein included; scalar inputs."""
    osmol = float(parameters.intrinsic_osmol_per_kg_protein * inputs.muscle + inputs.other_osmol)
    capacity = float(parameters.protein_water_factor * inputs.protein)
    water = capacity * float(gab_water(math.exp(-depression), PROTEIN.monolayer, PROTEIN.c, PROTEIN.k))
    water += WATER_MOLAR_MASS * osmol / depression
    if inputs.salt_mol:
        virial = (float(inputs.salt_b0), float(inputs.salt_b1), float(inputs.salt_c))
        water += float(inputs.salt_mol) / salt_molality_at(depression, *virial)
    if inputs.sugar_mol:
        water += float(inputs.sugar_mol) / sugar_molality_at(depression, float(inputs.root_k))
    return water


def aw_by_groups(inputs: AwInputs, parameters: AwParameters) -> float:
    """Return the water activity by the other mixing rule; scalar inputs only. Pure water gives 1, nothing below 0.02.

    For 1 mol salt and 1 mol sucrose in a kg of water the review computes 0.9443 by this rule, against 0.948.

    >>> from pellicle.food.aw_inputs import default_parameters
    >>> mixed = AwInputs(water=1.0, salt_mol=1.0, sugar_mol=1.0, root_k=math.sqrt(6.47))
    >>> round(aw_by_groups(mixed, default_parameters()), 3)
    0.944
    """
    water = float(inputs.water)
    low, high = LEAST_DEPRESSION, -math.log(AW_FLOOR)
    if water_by_groups(low, inputs, parameters) <= water:
        return 1.0
    above = math.log(water_by_groups(high, inputs, parameters) / water)
    if above >= 0.0:
        return AW_FLOOR
    below = math.log(water_by_groups(low, inputs, parameters) / water)
    x0, x1 = math.log(low), math.log(high)
    for _ in range(MOST_STEPS):
        x = (x0 * above - x1 * below) / (above - below)
        found = math.log(water_by_groups(math.exp(x), inputs, parameters) / water)
        if abs(found) <= AGREED or x1 - x0 <= AGREED:
            return math.exp(-math.exp(x))
        # the end that stayed counts half, so that it moves next time (Illinois)
        if found > 0.0:
            x0, below, above = x, found, above / 2.0
        else:
            x1, above, below = x, found, below / 2.0
    return math.exp(-math.exp((x0 + x1) / 2.0))
