"""What a run leaves at a face: solutes there against the mean, and whether they stay dissolved, hot and once cooled.

A face whose sugars are near their solubility turns tacky and, dried on, glazed; salt or sugar over saturation may bloom
white. Indicators with their numbers, no score: lean meat can hold a solution beyond saturation for long.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pellicle.food.saturation import solubility
from pellicle.message import Message, message
from pellicle.run import layout as at
from pellicle.run.events import NODES
from pellicle.run.face_water import node_aw
from pellicle.run.rates import heat_capacity, solutes_at
from pellicle.run.simulate import Run

Array = NDArray[np.float64]

COOLED_C = 20.0  # where a piece is packed and looked at (common practice)
NEAR = 0.9  # assumed: share of the solubility from which a sugar film begins to feel tacky
UPPER = -1


@dataclass(frozen=True, slots=True)
class Solute:
    """A solute at the upper face: species, kg per kg of solvent water, and the most that dissolves, hot and cooled."""

    name: str
    sugar: bool
    held: float
    dissolves_hot: float
    dissolves_cooled: float


@dataclass(frozen=True, slots=True)
class FaceState:
    """The upper face at the end: temperature [C], salts and sugars per matrix there and in the mean, each species.

    ``solutes`` lists those whose solubility is known, ``remarks`` what follows from it, with the reasons.
    """

    temperature_c: float
    salts: float
    salts_mean: float
    sugars: float
    sugars_mean: float
    solutes: tuple[Solute, ...]
    remarks: tuple[Message, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Profile:
    """One moment across the piece, from the lower face (or the middle, of a half) to the upper.

    ``share`` of the matrix below, temperature [C], water, salts and sugars [kg/kg matrix], water activity.
    """

    share: Array
    temperature_c: Array
    water: Array
    salts: Array
    sugars: Array
    aw: Array


def profile(run: Run, row: int = -1) -> Profile:
    """Return the profile across the piece at a row of the trace, by default the last."""
    return _profile(run, run.trace.states[row])


def profile_at(run: Run, time_s: float) -> Profile:
    """Return the profile across the piece at a time [s], between the rows of the trace."""
    return _profile(run, run.trace.at("states", np.array([time_s]))[0])


def _profile(run: Run, nodes: Array) -> Profile:
    given = run.arrays
    count = nodes.shape[0]
    solvent = np.zeros(NODES + count)
    salts, sugars = (np.array(part) for part in zip(*(_solutes(run, nodes, i) for i in range(count)), strict=True))
    aw = [node_aw(nodes[i, at.X], salts[i], sugars[i], given.piece, solvent[i])[0] for i in range(count)]
    capacity = heat_capacity(nodes[:, at.X], salts, sugars, given.piece)
    return Profile(given.mesh.at, nodes[:, at.H] / capacity, nodes[:, at.X].copy(), salts, sugars, np.array(aw))


def face_state(run: Run, cooled_c: float = COOLED_C) -> FaceState:
    """Return what stands at the upper face at the end of a run, and once it has cooled to ``cooled_c`` [C]."""
    given, made = run.arrays, run.setup.mixture
    across = profile(run)
    _, solvent = node_aw(across.water[UPPER], across.salts[UPPER], across.sugars[UPPER], given.piece, 0.0)
    temperature = float(across.temperature_c[UPPER])
    found = []
    for sugar, shares, amount in (
        (False, made.salt_shares, across.salts[UPPER]),
        (True, made.sugar_shares, across.sugars[UPPER]),
    ):
        for name, share in shares.items():
            hot, cooled = solubility(name, temperature), solubility(name, cooled_c)
            if hot is not None and cooled is not None:
                found.append(Solute(name, sugar, float(share * amount / solvent), hot, cooled))
    mass = given.grid[at.MASS] / given.piece[at.MATRIX]
    return FaceState(
        temperature_c=temperature,
        salts=float(across.salts[UPPER]),
        salts_mean=float(np.sum(mass * across.salts)),
        sugars=float(across.sugars[UPPER]),
        sugars_mean=float(np.sum(mass * across.sugars)),
        solutes=tuple(found),
        remarks=tuple(_remark(entry, temperature, cooled_c) for entry in found if _near(entry)),
    )


def _solutes(run: Run, nodes: Array, i: int) -> tuple[float, float]:
    salts, sugars = solutes_at(run.arrays.fields, nodes, i, run.arrays.piece)
    return float(salts), float(sugars)


def _near(entry: Solute) -> bool:
    return entry.held >= (NEAR if entry.sugar else 1.0) * entry.dissolves_cooled


def _remark(entry: Solute, temperature_c: float, cooled_c: float) -> Message:
    over_hot, over = entry.held >= entry.dissolves_hot, entry.held >= entry.dissolves_cooled
    values = {
        "name": entry.name,
        "held": f"{entry.held:.2f}",
        "hot": f"{entry.dissolves_hot:.2f}",
        "cooled": f"{entry.dissolves_cooled:.2f}",
        "temperature": f"{temperature_c:.0f}",
        "cooled_c": f"{cooled_c:.0f}",
    }
    if not entry.sugar:
        return message("run.face_salt", **values)
    if over_hot:
        return message("run.face_glaze", **values)
    return message("run.face_bloom" if over else "run.face_tacky", **values)
