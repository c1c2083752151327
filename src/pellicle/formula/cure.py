"""The official sums for cure that goes in: parts per million of nitrite or nitrate on the green weight.

The sums are those of the United States handbook for processing inspectors (Directive 7620.3, 1995): by the green weight
for dry and comminuted cure, by the share pumped or picked up for pickle, and over meat and pickle together for a long
immersion. All of them divide the agent by one mass, ``green * green weight + pickle * mass of the pickle``; that pair
of factors is a ``Base``, and the sums that run backwards (how much cure a limit permits) follow from the same pair.
Shares are fractions: 6.25 % enters as 0.0625.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pellicle.food.composition import Quantity
from pellicle.formula.ions import nitrate_as_nitrite
from pellicle.product import CureMethod, Uptake
from pellicle.relation import relation

PPM = 1e6  # milligrams per kilogram

HANDBOOK = "inspectors-calculations-handbook"


@dataclass(frozen=True, slots=True)
class Base:
    """What the agent's mass is divided by: ``green`` times the green weight plus ``pickle`` times the pickle's mass."""

    green: float
    pickle: float

    def mass(self, green_kg: float, pickle_kg: float) -> float:
        """Return the mass [kg] that the agent is divided by.

        >>> WHOLE.mass(10.0, 4.0), picked_up(0.08).mass(10.0, 4.0)
        (14.0, 50.0)
        """
        return self.green * green_kg + (self.pickle * pickle_kg if self.pickle else 0.0)


DRY = Base(1.0, 0.0)
WHOLE = Base(1.0, 1.0)


def picked_up(pickup_share: float) -> Base:
    """Return the base for a pickle of which the meat takes up ``pickup_share`` of its green weight; 0 gives none."""
    return Base(0.0, 1.0 / pickup_share if pickup_share else math.inf)


def taken_up(taken_share: float) -> Base:
    """Return the base for a solution of which ``taken_share`` went into the meat; a share of 0 gives none."""
    return Base(1.0 / taken_share if taken_share else math.inf, 0.0)


@relation(HANDBOOK, valid={"agent_kg": (0, 1e6), "green_kg": (1e-6, 1e9)})
def dry_ppm(agent_kg: Quantity, green_kg: Quantity) -> Quantity:
    """Return the agent over the green weight [ppm], for comminuted, rubbed and tumbled meat that takes everything up.

    ``ppm = agent / green weight * 10^6``; ``agent_kg`` [kg] and ``green_kg`` [kg], or both in another unit. Binders,
    water and spices are no part of the green weight. Source: handbook, dry and comminuted products; printed by a
    supplier: 5 lb of 0.40 % cure on 100 lb is 200 ppm.

    >>> round(dry_ppm(5 * 0.0040, 100), 6)
    200.0
    """
    return agent_kg * PPM / green_kg


@relation(HANDBOOK, valid={"agent_kg": (0, 1e6), "pickup_share": (0, 1.5), "pickle_kg": (1e-9, 1e9)})
def pumped_ppm(agent_kg: Quantity, pickup_share: Quantity, pickle_kg: Quantity) -> Quantity:
    """Return the agent by the share pumped, massaged or picked up [ppm] (for a short immersion: Method 1).

    ``ppm = agent * pickup / pickle * 10^6``; ``agent_kg`` [kg], ``pickup_share`` [kg/kg] is solution taken up per green
    weight, and ``pickle_kg`` [kg] counts everything in the pickle. Source: handbook, pumped products; a supplier's
    printed answer for 50 lb of cure at 0.75 % in 462.1875 lb of pickle, pumped to 20 %, is 162 ppm.

    >>> round(pumped_ppm(50 * 0.0075, 0.20, 462.1875))
    162
    """
    return agent_kg * pickup_share * PPM / pickle_kg


@relation(HANDBOOK, valid={"agent_kg": (0, 1e6), "green_kg": (1e-6, 1e9), "pickle_kg": (0, 1e9)})
def whole_ppm(agent_kg: Quantity, green_kg: Quantity, pickle_kg: Quantity) -> Quantity:
    """Return the agent over meat and pickle together [ppm] (a long immersion that equalises: Method 2).

    ``ppm = agent / (green weight + pickle) * 10^6``; ``agent_kg`` [kg], ``green_kg`` [kg], ``pickle_kg`` [kg]. Source:
    handbook; 1.5 teaspoons of 5.67 g at 6.25 % for 5 lb of meat in 2.5 lb of water, as cooks discuss it, is 156 ppm.

    >>> round(whole_ppm(1.5 * 5.67 * 0.0625, 5 * 453.592, 2.5 * 453.592))
    156
    """
    return agent_kg * PPM / (green_kg + pickle_kg)


def combined_residual_ppm(nitrite_ppm: float, nitrate_ppm: float) -> float:
    """Return residual nitrite and nitrate together, as sodium nitrite [mg/kg]; both enter as their sodium salts.

    The basis of a combined residual limit, as Brazil has it. Source: ratio of molar masses.

    >>> round(combined_residual_ppm(90.0, 80.0), 1)
    154.9
    """
    return nitrite_ppm + nitrate_as_nitrite(nitrate_ppm)


def ingoing_ppm(agent_kg: float, base: Base, green_kg: float, pickle_kg: float = 0.0) -> float:
    """Return the ingoing agent [ppm] on a base; the three sums above in one form.

    >>> round(ingoing_ppm(2 * 0.0625, picked_up(0.10), 0.0, 100.0), 3)
    125.0
    """
    return agent_kg * PPM / base.mass(green_kg, pickle_kg)


def permitted_cure_kg(
    limit_ppm: float,
    agent_share: float,
    base: Base,
    green_kg: float,
    other_pickle_kg: float = 0.0,
    other_agent_kg: float = 0.0,
) -> float | None:
    """Return the largest mass [kg] of a cure that keeps to a limit, or None where no amount of it would pass the limit.

    ``agent_share`` is the cure's strength (kg/kg), ``other_pickle_kg`` the mass of the pickle without this cure, which
    counts in the pickle itself; ``other_agent_kg`` is what other ingredients bring. Never below 0.

    >>> permitted_cure_kg(156.25, 0.0625, DRY, 100.0)
    0.25
    """
    room = limit_ppm / PPM * base.mass(green_kg, other_pickle_kg) - other_agent_kg
    gain = agent_share - (limit_ppm / PPM * base.pickle if base.pickle else 0.0)
    if not math.isfinite(room) or gain <= 0:
        return None
    return max(0.0, room / gain)


def least_meat_kg(limit_ppm: float, agent_kg: float, base: Base, pickle_kg: float = 0.0) -> float | None:
    """Return the least green weight [kg] that a given cure or pickle needs to keep to a limit.

    None where the answer does not depend on the meat: pickle judged by its pickup.

    >>> least_meat_kg(200.0, 0.02, DRY), least_meat_kg(200.0, 0.02, WHOLE, 30.0)
    (100.0, 70.0)
    """
    if not base.green:
        return None
    return max(0.0, (agent_kg * PPM / limit_ppm - base.pickle * pickle_kg) / base.green)


def pickup_of(uptake: Uptake) -> float | None:
    """Return the pickup as share of the green weight where it was weighed or stated as such, else None."""
    if uptake.marinated_share is not None:
        return uptake.marinated_share - 1
    return uptake.pickup_share


def base_of(method: CureMethod | None, uptake: Uptake, liquid: bool) -> Base | None:
    """Return the base of a method's official sum, or None where the sum needs a pickup that is not known.

    Rubbed, ground and unstated methods, and everything without liquid, divide by the green weight. Tumbled and injected
    meat is taken by its weighed or stated uptake; where that is unknown, all of the solution counts as taken up, which
    is the most there can be. Immersion by pickup cannot be computed without a pickup. ``liquid`` says whether the
    formula adds any liquid.

    >>> base_of(CureMethod.TUMBLED, Uptake(), liquid=True) == DRY
    True
    >>> base_of(CureMethod.IMMERSION_PICKUP, Uptake(), liquid=True) is None
    True
    """
    if method is CureMethod.IMMERSION_WHOLE:
        return WHOLE
    if method not in _BY_UPTAKE or not liquid:
        return DRY
    pickup = pickup_of(uptake)
    if pickup is not None:
        return picked_up(pickup)
    if uptake.taken_share is not None:
        return taken_up(uptake.taken_share)
    return None if method is CureMethod.IMMERSION_PICKUP else DRY


_BY_UPTAKE = (CureMethod.TUMBLED, CureMethod.INJECTED, CureMethod.IMMERSION_PICKUP)
