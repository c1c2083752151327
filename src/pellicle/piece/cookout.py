"""Juice pressed out by cooked protein: how much water the meat still holds, and the memory of how far it was cooked.

The memory is a state of each node that only rises: it follows the equilibrium loss of the node's temperature from below
with first-order kinetics and stays where it is when the node cools. So the rates depend on the state alone.
"""

from __future__ import annotations

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.relation import relation

REVIEW = "transport-review"

LARGEST_LOSS = 0.40  # of raw weight, at boiling (REVIEW)
HALF_LOSS_C = 61.0  # REVIEW
LOSS_WIDTH_K = 7.0  # REVIEW
# assumed: width over which the juice begins to flow, kg/kg matrix; a kink would cost the stepper its order.
EXCESS_WIDTH = 0.003
# assumed: width over which the memory lets go of a falling temperature, as share of raw weight; exactly zero below.
MEMORY_WIDTH = 0.004


@relation(REVIEW, valid={"temperature_c": (0.0, 95.0), "result": (0.0, 0.40)})
def cookout_share(temperature_c: Quantity) -> Quantity:
    """Return the juice that long holding at a temperature presses out, kg per kg raw: 0.40/(1 + exp(-(T - 61)/7)).

    ``temperature_c`` [C]. The review's row prints 0.07 at 50, 0.26 at 65 and 0.35 at 75 C.

    >>> [round(float(cookout_share(t)), 2) for t in (50.0, 65.0, 75.0)]
    [0.07, 0.26, 0.35]
    """
    share: Quantity = LARGEST_LOSS / (1.0 + np.exp((HALF_LOSS_C - temperature_c) / LOSS_WIDTH_K))
    return share


@relation("own-arithmetic", valid={"above": (-10.0, 10.0), "result": (0.0, 10.0)})
def soft_excess(above: Quantity) -> Quantity:
    """Return the water beyond what the meat holds, rounded off at the corner: (x + sqrt(x^2 + d^2))/2, d = 0.003.

    ``above`` [kg/kg] is x. Own arithmetic: half of d at the corner.

    >>> round(float(soft_excess(0.0)), 4)
    0.0015
    """
    return (above + np.sqrt(above * above + EXCESS_WIDTH * EXCESS_WIDTH)) / 2.0


@relation(REVIEW, valid={"share": (0.0, 0.40), "memory": (0.0, 0.40), "rate": (1e-3, 10.0)})
def memory_rate(share: Quantity, memory: Quantity, rate: Quantity) -> Quantity:
    """Return how fast the memory follows, 1/s: rate times (share - memory) where that is positive, else exactly 0.

    ``share`` [kg/kg] the equilibrium loss at this temperature, ``memory`` [kg/kg] what was reached, ``rate`` [1/s].
    The corner is a parabola of width w = 0.004. Own arithmetic: rate (x - w/2) beyond it.

    >>> float(memory_rate(0.2, 0.1, 0.1)) == 0.1 * (0.1 - 0.002), float(memory_rate(0.1, 0.2, 0.1))
    (True, 0.0)
    """
    short = np.maximum(share - memory, 0.0)
    bend = np.minimum(short, MEMORY_WIDTH)
    return rate * (bend * bend / (2.0 * MEMORY_WIDTH) + short - bend)


COMPILABLE = (cookout_share, soft_excess, memory_rate)
