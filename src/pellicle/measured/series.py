"""A series: what the air and the product did over time, from a probe log or from a simulated run, columns optional.

A column that was not measured stays None and is never filled in from another: what needs it is withheld. A reading
that is missing inside a column is NaN.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from enum import StrEnum
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pellicle.errors import InputError

Array = NDArray[np.float64]

# columns with one row per time and one column per face (lower, upper) or per node of the outer millimetre
PLAIN = frozenset({"time_s", "outer_weight", "open_faces", "origin", "broken"})
_WIDE = frozenset({"face_c", "face_aw", "outer_c", "outer_aw"})


class Origin(StrEnum):
    """Where a series comes from: what a simulation finds wet is a prediction and supports no release."""

    MEASURED = "measured"
    SIMULATED = "simulated"


@dataclass(frozen=True, slots=True, eq=False)
class Series:
    """Rows over time; every column but the time is optional.

    ``time_s`` (n,), s, never falling (two rows of one time mark a jump). ``air_c``, ``wet_bulb_c``, ``core_c`` (n,)
    in degC; ``core_c`` is the coldest core where several were probed. ``humidity`` (n,) is relative, 0 to 1.
    ``face_c``, ``face_aw`` (n, 2): temperature in degC and water activity at the lower and the upper face.
    ``outer_c``, ``outer_aw`` (n, k): the same at the k nodes that made up the outer millimetre of the upper face at the
    start, ``outer_weight`` (k,) their shares of its dry matrix. ``open_faces``: which faces the air reaches; a closed
    one neither dries nor earns credit. ``broken``: by column, the rows (n,) whose reading failed or was taken out as
    doubtful, over which nothing is bridged. InputError for lengths that do not agree or a time that runs backwards.
    """

    time_s: Array
    air_c: Array | None = None
    wet_bulb_c: Array | None = None
    humidity: Array | None = None
    core_c: Array | None = None
    face_c: Array | None = None
    face_aw: Array | None = None
    outer_c: Array | None = None
    outer_aw: Array | None = None
    outer_weight: Array | None = None
    open_faces: tuple[bool, bool] = (True, True)
    origin: Origin = Origin.MEASURED
    broken: Mapping[str, NDArray[np.bool_]] = field(default_factory=lambda: MappingProxyType({}))

    def __post_init__(self) -> None:
        rows = self.time_s.size
        if self.time_s.ndim != 1 or rows < 1:
            raise InputError("measured.no_rows", field="time_s")
        if not np.all(np.isfinite(self.time_s)):
            raise InputError("measured.no_time", field="time_s")
        if rows > 1 and float(np.min(np.diff(self.time_s))) < 0:
            raise InputError("measured.backwards", field="time_s")
        for name in self.columns:
            column = getattr(self, name)
            wide = name in _WIDE
            if column.ndim != (2 if wide else 1) or column.shape[0] != rows:
                raise InputError("measured.lengths", field=name, column=name, rows=rows)
            if name.startswith("face") and column.shape[1] != len(self.open_faces):
                raise InputError("measured.two_faces", field=name, column=name)
        nodes = {column.shape[1] for column in (self.outer_c, self.outer_aw) if column is not None}
        if self.outer_weight is not None:
            nodes.add(self.outer_weight.size)
        if len(nodes) > 1:
            raise InputError("measured.outer", field="outer_weight")

    @property
    def columns(self) -> tuple[str, ...]:
        """The names of the columns that are there, besides the time."""
        wanted = [entry.name for entry in fields(self) if entry.name not in PLAIN]
        return tuple(name for name in wanted if getattr(self, name) is not None)

    def broken_in(self, *names: str) -> NDArray[np.bool_]:
        """The rows (n,) at which a reading of one of these columns failed or was taken out."""
        found = np.zeros(self.time_s.size, dtype=bool)
        for name in names:
            if name in self.broken:
                found |= self.broken[name]
        return found

    @property
    def simulated(self) -> bool:
        """True where a run computed the rows."""
        return self.origin is Origin.SIMULATED

    @property
    def duration_s(self) -> float:
        """From the first row to the last, s.

        >>> Series(np.array([0.0, 60.0, 180.0])).duration_s
        180.0
        """
        return float(self.time_s[-1] - self.time_s[0])
