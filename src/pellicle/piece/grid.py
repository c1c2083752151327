"""Where the nodes stand across a piece: fine at the faces that dry, one on each face, one exactly in the middle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Grid:
    """Nodes by their share of the matrix below them: ``at`` (n,) from 0 to 1, ``share`` (n,) of each control volume.

    ``whole`` tells whether the nodes span the piece or its upper half; ``middle`` is the index of the node at the
    middle of the piece.
    """

    at: Array
    share: Array
    whole: bool
    middle: int


def half_grid(cells: int, log_ratio: float) -> Grid:
    """Return the upper half of a symmetric piece: ``cells`` between middle and face, widest over finest e^log_ratio.

    >>> half_grid(4, 0.0).at
    array([0.  , 0.25, 0.5 , 0.75, 1.  ])
    """
    at = _clustered(cells, log_ratio)
    return Grid(at, _control_shares(at), False, 0)


def whole_grid(cells: int, log_ratio: float, one_sided: bool = False) -> Grid:
    """Return a whole piece: ``cells`` in each half, fine at both faces; at the upper only where the lower is closed.

    >>> whole_grid(2, 0.0).at, whole_grid(2, 0.0).middle
    (array([0.  , 0.25, 0.5 , 0.75, 1.  ]), 2)
    """
    if one_sided:
        at = _clustered(2 * cells, log_ratio)
        middle = int(np.argmin(np.abs(at[1:-1] - 0.5))) + 1
        at[middle] = 1 / 2
    else:
        upper = _clustered(cells, log_ratio)
        at = np.concatenate([(1.0 - upper[::-1]) / 2, (1.0 + upper[1:]) / 2])
        middle = cells
    return Grid(at, _control_shares(at), True, middle)


def _clustered(cells: int, log_ratio: float) -> Array:
    """Return nodes from 0 to 1 whose gaps shrink geometrically towards 1."""
    gaps = np.exp(-log_ratio * np.linspace(0.0, 1.0, cells))
    at = np.concatenate([[0.0], np.cumsum(gaps)])
    found: Array = at / at[-1]
    return found


def _control_shares(at: Array) -> Array:
    """Return the share of each node: half of the gaps beside it."""
    gaps = np.diff(at)
    share = np.zeros(at.size)
    share[:-1] += gaps / 2
    share[1:] += gaps / 2
    return share
