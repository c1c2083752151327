"""The Rosenbrock method: its coefficients, checked against the conditions of its order when they are loaded.

Written for the stage variables that save products with the Jacobian:
(1/(g h) I - J) u_i = f(y + sum a_ij u_j) + sum c_ij u_j / h + d_i h f_t, y1 = y + sum b_i u_i, error = sum e_i u_i.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# How far a condition may be missed by coefficients printed with sixteen digits.
ROUNDING = 1e-10


@dataclass(frozen=True, slots=True, eq=False)
class Tableau:
    """A Rosenbrock method in its stage form, with the order it must have and that of its error estimate."""

    name: str
    order: int
    estimate: int
    gamma: float
    a: Array
    c: Array
    b: Array
    e: Array


def derived(method: Tableau) -> tuple[Any, Any, Any, Any, Any]:
    """Return the standard form: alpha, its row sums, Gamma with the diagonal, its row sums, and the weights."""
    stages = method.b.size
    lower = np.linalg.inv(np.eye(stages) / method.gamma - method.c)
    alpha = method.a @ lower
    return alpha, alpha.sum(axis=1), lower, lower.sum(axis=1), lower.T @ method.b


def misses(method: Tableau, weights: Array, order: int) -> float:
    """Return by how much weights miss the conditions up to an order (at most 4), and stiff accuracy's R(inf) = 0.

    Hairer and Wanner, Solving ODEs II, section IV.7: trees up to order 4 with beta = alpha + Gamma.
    """
    alpha, alpha_sum, gamma, _, _ = derived(method)
    beta = alpha + gamma
    beta_sum = beta.sum(axis=1)
    found = [weights.sum() - 1.0]
    if order > 1:
        found.append(weights @ beta_sum - 1 / 2)
    if order > 2:
        found += [weights @ alpha_sum**2 - 1 / 3, weights @ beta @ beta_sum - 1 / 6]
    if order > 3:
        found += [
            weights @ alpha_sum**3 - 1 / 4,
            weights @ (alpha_sum * (alpha @ beta_sum)) - 1 / 8,
            weights @ beta @ alpha_sum**2 - 1 / 12,
            weights @ beta @ beta @ beta_sum - 1 / 24,
        ]
    damped = 1.0 - weights @ np.linalg.solve(beta, np.ones(weights.size))
    return float(max(np.abs([*found, damped])))


def checked(method: Tableau) -> Tableau:
    """Return the method; ValueError if its coefficients are not of the order and damping they are taken for."""
    _, _, lower, _, weights = derived(method)
    embedded = lower.T @ (method.b - method.e)
    if misses(method, weights, method.order) > ROUNDING:
        raise ValueError(f"{method.name}: the coefficients miss order {method.order}")
    if not misses_order(method, embedded, method.estimate) <= ROUNDING:
        raise ValueError(f"{method.name}: the embedded weights miss order {method.estimate}")
    return method


def misses_order(method: Tableau, weights: Array, order: int) -> float:
    """Return by how much weights miss the conditions of an order, damping left aside."""
    alpha, alpha_sum, gamma, _, _ = derived(method)
    beta_sum = (alpha + gamma).sum(axis=1)
    found = [weights.sum() - 1.0, weights @ beta_sum - 1 / 2]
    if order > 2:
        found += [weights @ alpha_sum**2 - 1 / 3, weights @ (alpha + gamma) @ beta_sum - 1 / 6]
    return float(max(np.abs(found)))


def _lower(rows: list[list[float]]) -> Array:
    full = np.zeros((len(rows), len(rows)))
    for i, row in enumerate(rows):
        full[i, : len(row)] = row
    return full


# Sandu and others 1997: four stages, order 3(2), L-stable, stiffly accurate.
RODAS3 = Tableau(
    "Rodas3", 3, 2, 1 / 2,
    _lower([[], [0], [2, 0], [2, 0, 1]]), _lower([[], [4], [1, -1], [1, -1, -8 / 3]]),
    np.array([2.0, 0, 1, 1]), np.array([0.0, 0, 0, 1]),
)  # fmt: skip
# Steinebach: five stages of which three need the rates, order 3(2), made for parabolic problems.
RODAS3P = Tableau(
    "Rodas3P", 3, 2, 1 / 3,
    _lower([[], [4 / 3], [0, 0], [2.90625, 3.375, 0.40625], [2.90625, 3.375, 0.40625, 0]]),
    _lower([[], [-4], [8.25, 6.75], [1.21875, -5.0625, -1.96875], [4.03125, -15.1875, -4.03125, 6]]),
    np.array([2.90625, 3.375, 0.40625, 0, 1]), np.array([0.0, 0, 0, -1, 1]),
)  # fmt: skip
# Steinebach 1995: six stages, order 4(3), made for parabolic problems.
RODAS4P = Tableau(
    "Rodas4P", 4, 3, 1 / 4,
    _lower([
        [], [3], [1.831036793486759, 0.4955183967433795],
        [2.304376582692669, -0.05249275245743001, -1.176798761832782],
        [-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401],
        [-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401, 1],
    ]),
    _lower([
        [], [-12], [-8.791795173947035, -2.207865586973518],
        [10.81793056857153, 6.780270611428266, 19.53485944642410],
        [34.19095006749676, 15.49671153725963, 54.74760875964130, 14.16005392148534],
        [34.62605830930532, 15.30084976114473, 56.99955578662667, 18.40807009793095, -5.714285714285717],
    ]),
    np.array([-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401, 1, 1]),
    np.array([0.0, 0, 0, 0, 0, 1]),
)  # fmt: skip
