"""Solutes through a face between two nodes, by one of two laws, with everything its derivatives need.

Below 0 the drag means "neutral": solutes diffuse down their own gradient per kg of matrix and leave with the juice, so
that drying alone never unmixes them. From 0 to 1 it is the share of the water's own flow that carries them; diffusion
then goes down the gradient in the water, and both share the face exactly (Scharfetter and Gummel), so that no
concentration can turn negative.
"""

from __future__ import annotations

from typing import Any

from pellicle.piece.diffusion import bernoulli, bernoulli_slope
from pellicle.run import layout as at
from pellicle.run.layout import Scalar

# assumed: sum of both ends, kg per kg water, where half of the flow has stopped: 95 % of dry solids are no liquid.
GLASSY = 40.0
TINY = 1e-300


def spread_mean(
    drag: Scalar, left: Scalar, right: Scalar, nodes: Any, i: int, per: Scalar
) -> tuple[Scalar, Scalar, Scalar]:
    """Return the mean of the solute factor over the gap between nodes i and i+1 (as for water), and its slopes."""
    if drag >= 0.0:
        left, right = left * nodes[i, at.X], right * nodes[i + 1, at.X]
    both = left + right
    by_left, by_right = right / both, left / both
    mean = (both / 4.0 + left * by_left) * per
    return mean, (1.0 / 4.0 + by_left * by_left) * per, (1.0 / 4.0 + by_right * by_right) * per


def fluid(content: Scalar) -> Scalar:
    """Return how freely a solution flows, from the sum of its contents at both ends, kg per kg water."""
    share = content / GLASSY
    return 1.0 / (1.0 + share * share * share * share)


def solute_flux(
    drag: Scalar, diffuse: Scalar, juice: Scalar, own: Scalar, c_l: Scalar, c_r: Scalar, s_l: Scalar, s_r: Scalar
) -> Scalar:
    """Return the flux of a solute, kg/m2/s, from the water's two fluxes and its own diffusion ``own``."""
    if drag < 0.0:
        return juice * (c_l if juice > 0.0 else c_r) - own * (s_r - s_l)
    flow = (drag * diffuse + juice) * fluid(c_l + c_r)
    return flow * c_l + own * bernoulli(flow / own) * (c_l - c_r)


def solute_flux_slopes(
    drag: Scalar, diffuse: Scalar, juice: Scalar, own: Scalar, c_l: Scalar, c_r: Scalar, s_l: Scalar, s_r: Scalar
) -> tuple[Scalar, Scalar, Scalar, Scalar, Scalar]:
    """Return d(flux) by the flow, by both concentrations in water, by ``own``, and by the left content per matrix.

    The derivative by the right content is the last one's opposite. The flow is the juice for the neutral law.
    """
    if drag < 0.0:
        if juice > 0.0:
            return c_l, juice, 0.0, s_l - s_r, own
        return c_r, 0.0, juice, s_l - s_r, own
    moves = fluid(c_l + c_r)
    flow = (drag * diffuse + juice) * moves
    peclet = flow / own
    shared, bends = bernoulli(peclet), bernoulli_slope(peclet)
    by_flow = c_l + bends * (c_l - c_r)
    thickens = by_flow * flow * 4.0 * (moves - 1.0) / (c_l + c_r + TINY)
    by_left, by_right = flow + own * shared + thickens, thickens - own * shared
    return by_flow * moves, by_left, by_right, (shared - peclet * bends) * (c_l - c_r), 0.0


COMPILABLE = (fluid, spread_mean, solute_flux, solute_flux_slopes)
