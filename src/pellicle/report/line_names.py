"""Where the names of lines stand on a chart: at their ends in the margin, or, where ends meet, where a line runs free.

Everything is measured in mm of the panel, so that a name keeps its distance whatever the axes count in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from pellicle.report.drawing import POINTS_PER_MM, TEXT_PT, face, write

if TYPE_CHECKING:
    from matplotlib.axes import Axes

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]  # left, right, bottom, top, in mm

LINE_MM = 4.4  # from one line of text to the next
GAP_MM = 1.2  # between a line and its name
PLACES = 121  # at how many places along a line its name is tried
NEVER, NEVER_NEAR = -1e9, 1e9
SLOPE = 0.25  # how much a steep stretch counts against a place: beside a level one it is plainer which line is meant
LOWEST_MM = 1.4  # over the time axis


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """One panel of linked charts: its axes, their size in mm, and the hours at which every line is known."""

    axes: Axes
    width_mm: float
    height_mm: float
    hours: Array

    def x_mm(self, hours: Array) -> Array:
        """Return where hours stand, mm from the left."""
        low, high = self.axes.get_xlim()
        return np.asarray((hours - low) / (high - low) * self.width_mm)

    def y_mm(self, values: Array) -> Array:
        """Return where values stand, mm from the bottom."""
        low, high = self.axes.get_ylim()
        return np.asarray((values - low) / (high - low) * self.height_mm)

    def y_value(self, mm: float) -> float:
        """Return the value that stands so many mm from the bottom."""
        low, high = self.axes.get_ylim()
        return float(low + mm / self.height_mm * (high - low))


@dataclass(frozen=True, slots=True)
class Name:
    """The name of a line, its ink, whether it is semibold, and the value beside which it stands."""

    text: str
    color: str
    at: float
    strong: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A line over the hours of its panel with its name: at its end, and (if that differs) along it."""

    values: Array
    text: str
    color: str
    strong: bool = False
    along: str = ""

    @property
    def beside(self) -> str:
        """The name that stands along the line."""
        return self.along or self.text


def wide_mm(text: str, strong: bool = False) -> float:
    """Return how wide a text is, in mm."""
    return _wide_pt(text, strong) / POINTS_PER_MM


def name_lines(
    panel: Panel,
    lines: Sequence[Line],
    others: Sequence[Name] = (),
    across: Sequence[float] = (),
    upright: float | None = None,
) -> None:
    """Name lines at their ends beside the ``others`` that stand there, or along them where ends meet or are clipped.

    A clipped line has no value (NaN) where it is not drawn; ``across`` are values at which a limit crosses the panel,
    ``upright`` is an hour at which a line does.
    """
    ends = [float(panel.y_mm(line.values)[-1]) for line in lines]
    meet = any(abs(a - b) < LINE_MM for at, a in enumerate(ends) for b in ends[:at])
    along = [line for line, end in zip(lines, ends, strict=True) if meet or not np.isfinite(end)]
    at_ends = [Name(one.text, one.color, float(one.values[-1]), one.strong) for one in lines if one not in along]
    names_at_the_end(panel, [*at_ends, *others])
    limits = [float(panel.y_mm(np.array(value))) for value in across]
    taken: list[Box] = []
    if upright is not None:
        at = float(panel.x_mm(np.array(upright)))
        taken.append((at, at, 0.0, panel.height_mm))
    for line in along:
        left, bottom = _free_place(panel, line, lines, limits, taken)
        taken.append((left, left + wide_mm(line.beside, line.strong), bottom, bottom + LINE_MM))
        low, high = panel.axes.get_xlim()
        x = low + left / panel.width_mm * (high - low)
        y = panel.y_value(bottom + LINE_MM / 2)
        write(panel.axes, x, y, line.beside, color=line.color, va="center", strong=line.strong)


def names_at_the_end(panel: Panel, names: Sequence[Name]) -> None:
    """Write names in the right margin, each beside its value, moved apart where they would touch."""
    wanted = [float(panel.y_mm(np.array(name.at))) for name in names]
    heights = spread([min(max(mm, 0.0), panel.height_mm) for mm in wanted], LINE_MM, LOWEST_MM, panel.height_mm)
    high = panel.axes.get_xlim()[1]
    x = high * (1 + GAP_MM / panel.width_mm)
    for name, mm in zip(names, heights, strict=True):
        write(panel.axes, x, panel.y_value(mm), name.text, color=name.color, va="center", strong=name.strong)


def spread(heights: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Return heights moved up or down until no two are nearer than ``apart``, inside ``low`` to ``high`` where they
    fit.

    >>> [round(height, 2) for height in spread([5.0, 5.0, 9.0], 2.0, 0.0, 10.0)]
    [4.0, 6.0, 9.0]
    """
    order = sorted(range(len(heights)), key=lambda at: heights[at])
    groups: list[tuple[float, int]] = []
    for at in order:
        middle, count = heights[at], 1
        while groups and middle - groups[-1][0] < apart * (count + groups[-1][1]) / 2:
            before, some = groups.pop()
            middle, count = (before * some + middle * count) / (some + count), some + count
        groups.append((middle, count))
    moved = [middle + apart * (at - (count - 1) / 2) for middle, count in groups for at in range(count)]
    for at in reversed(range(len(moved))):  # nothing above the top ...
        moved[at] = min(moved[at], high - apart * (len(moved) - 1 - at))
    for at in range(len(moved)):  # ... and, which comes first, nothing below the bottom
        moved[at] = max(moved[at], low + apart * at)
    placed = dict(zip(order, moved, strict=True))
    return [placed[at] for at in range(len(heights))]


def room_mm(curve: Array, bottom: float) -> float:
    """Return how far a curve stays from a name that reaches from ``bottom`` one line up; negative inside it."""
    return float(np.nanmin(np.max([bottom - curve, curve - bottom - LINE_MM], axis=0), initial=NEVER_NEAR))


def _free_place(
    panel: Panel, line: Line, lines: Sequence[Line], limits: Sequence[float], taken: Sequence[Box]
) -> tuple[float, float]:
    """Return left and bottom [mm] of the place beside a line from which other lines, limits and names are farthest."""
    x, width = panel.x_mm(panel.hours), wide_mm(line.beside, line.strong)
    own = panel.y_mm(line.values)
    rest = [panel.y_mm(each.values) for each in lines if each is not line]
    best, place = NEVER, (0.0, 0.0)
    for left in np.linspace(GAP_MM, max(panel.width_mm - width - GAP_MM, GAP_MM), PLACES):
        inside = (x >= left - GAP_MM) & (x <= left + width + GAP_MM)
        mine, others = own[inside], [curve[inside] for curve in rest]
        if not np.isfinite(mine).all() or not mine.size:
            continue
        for bottom in (float(mine.max()) + GAP_MM / 2, float(mine.min()) - GAP_MM / 2 - LINE_MM):
            box = (float(left), float(left) + width, bottom, bottom + LINE_MM)
            room = [
                bottom,
                panel.height_mm - bottom - LINE_MM,
                *(float(np.nanmin(np.abs(curve - mine), initial=NEVER_NEAR)) for curve in others),
                *(room_mm(curve, bottom) for curve in others),
                *(room_mm(np.array([limit]), bottom) for limit in limits),
                *(_between(box, other) for other in taken),
            ]
            score = min(*room, LINE_MM) - SLOPE * float(np.ptp(mine)) / LINE_MM
            if score > best:
                best, place = score, (float(left), bottom)
    return place


def _between(one: Box, other: Box) -> float:
    beside = max(one[0] - other[1], other[0] - one[1])
    above = max(one[2] - other[3], other[2] - one[3])
    return max(beside, above)


@cache
def _wide_pt(text: str, strong: bool) -> float:
    from matplotlib.textpath import TextPath

    return float(TextPath((0, 0), text, size=TEXT_PT, prop=face(strong)).get_extents().x1) if text.strip() else 0.0
