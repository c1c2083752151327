"""What a run shows over time: air, core, faces, weight and water activity on every accepted step, and between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pellicle.air.humid import saturation_pressure_pa
from pellicle.measured.series import Origin, Series
from pellicle.run.compile import compiled
from pellicle.run.events import read_rows
from pellicle.run.integrate import Raw
from pellicle.run.setup import Arrays, RunSetup

Array = NDArray[np.float64]

OUTER_M = 1e-3  # the outer millimetre, of the thickness as it goes in


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """Rows over time, one per accepted step; two of one time mark a change of the air between steps.

    ``step`` which step; ``air_c``, ``wet_bulb_c`` (C), ``humidity`` (1), ``ratio`` (kg/kg); ``core_c`` (C), ``face_c``
    and ``face_aw`` (n, 2) lower and upper face; ``weight_share`` of the marinated mass; ``aw_mean`` of the mean
    composition; ``outer_c``, ``outer_aw`` (n, k) of the nodes of the upper outer millimetre, ``outer_weight`` (k,)
    their shares of its matrix. ``states`` (n, nodes, fields + 1) and ``extras`` as the kernel keeps them.
    """

    time_s: Array
    step: NDArray[np.int64]
    air_c: Array
    wet_bulb_c: Array
    humidity: Array
    ratio: Array
    core_c: Array
    face_c: Array
    face_aw: Array
    weight_share: Array
    aw_mean: Array
    outer_c: Array
    outer_aw: Array
    outer_weight: Array
    states: Array
    extras: Array

    def at(self, name: str, time_s: Array) -> Array:
        """Return a column at other times, without overshoot between rows (monotone cubic within each step)."""
        from scipy.interpolate import PchipInterpolator

        wanted = np.asarray(time_s, dtype=float)
        column = getattr(self, name)
        out = np.empty((wanted.size, *column.shape[1:]))
        for which in np.unique(self.step):
            rows = np.flatnonzero(self.step == which)
            times, first = np.unique(self.time_s[rows], return_index=True)
            inside = (wanted >= times[0]) & (wanted <= times[-1])
            if times.size == 1:
                out[inside] = column[rows[0]]
            elif np.any(inside):
                out[inside] = PchipInterpolator(times, column[rows[first]], axis=0)(wanted[inside])
        out[wanted > self.time_s[-1]] = column[-1]
        return out


def trace_of(setup: RunSetup, given: Arrays, raw: Raw) -> Trace:
    """Return the rows of a run, read from the kernel's own."""
    count = given.nodes.shape[0]
    weight = _outer_weight(setup, given)
    first = int(np.flatnonzero(weight > 0.0)[0])
    rows = raw.states.shape[0]
    columns, outer = np.empty((rows, 6)), np.empty((rows, count - first, 2))
    doors = compiled()
    (read_rows if doors is None else doors["read_rows"])(
        given.fields, raw.states, raw.columns, given.grid, given.piece, first, columns, outer
    )
    air_c, ratio, vapour = raw.columns[:, 2], raw.columns[:, 3], raw.columns[:, 4]
    lower, upper = columns[:, 1], columns[:, 2]
    face_aw = raw.columns[:, 5:7]
    if not given.mesh.whole:
        lower, face_aw = upper, np.column_stack([face_aw[:, 1], face_aw[:, 1]])
    return Trace(
        time_s=raw.columns[:, 0],
        step=raw.columns[:, 1].astype(np.int64),
        air_c=air_c,
        wet_bulb_c=columns[:, 5],
        humidity=np.minimum(vapour / saturation_pressure_pa(air_c), 1.0),
        ratio=ratio,
        core_c=columns[:, 0],
        face_c=np.column_stack([lower, upper]),
        face_aw=face_aw,
        weight_share=columns[:, 3],
        aw_mean=columns[:, 4],
        outer_c=outer[:, :, 0],
        outer_aw=outer[:, :, 1],
        outer_weight=weight[first:],
        states=raw.states,
        extras=raw.extras,
    )


def series(trace: Trace, open_share_below: float) -> Series:
    """Return the trace as what a lethality computation reads, marked as simulated."""
    return Series(
        time_s=trace.time_s,
        air_c=trace.air_c,
        wet_bulb_c=trace.wet_bulb_c,
        humidity=trace.humidity,
        core_c=trace.core_c,
        face_c=trace.face_c,
        face_aw=trace.face_aw,
        outer_c=trace.outer_c,
        outer_aw=trace.outer_aw,
        outer_weight=trace.outer_weight,
        open_faces=(open_share_below > 0.0, True),
        origin=Origin.SIMULATED,
    )


def _outer_weight(setup: RunSetup, given: Arrays) -> Array:
    """Return each node's share of the matrix of the upper outer millimetre; the whole half where it is thinner."""
    depth = min(OUTER_M / setup.thickness_m, 1 / 2) * (1.0 if given.mesh.whole else 2.0)
    edges = np.clip(np.concatenate([[0.0], np.cumsum(given.mesh.share)]) - (1.0 - depth), 0.0, depth)
    found: Array = np.diff(edges) / (edges[-1] - edges[0])
    return found


def gap(trace: Trace, given: Arrays) -> Array:
    """Return the widest difference of water activity between nodes, for every row."""
    from pellicle.run.events import NODES, aw_gap

    solvent = np.zeros(NODES + given.nodes.shape[0])
    return np.array([aw_gap(given.fields, nodes, given.piece, solvent) for nodes in trace.states])
