"""Water activity against weight, drawn for paper: every line is named where it ends, and grey print loses nothing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pellicle.answers.plan_answer import CurvePoint, PlanAnswer
from pellicle.report.drawing import (
    CURVE,
    DOTS,
    HAIRLINE,
    INK,
    POINTS_PER_PX,
    SOFT,
    TEAL,
    TEAL_TINT,
    as_svg,
    face,
    few_ticks,
    frame,
    write,
)
from pellicle.report.numerals import number, span, word
from pellicle.report.plan_rows import pull_digits

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

# The drawing begins at this multiple of the pull weight, if so many points are left: heavier is far too wet.
FROM, FEWEST = 1.7, 5
AW_STEP = 0.05
# Room under the lowest curve, in aw, for the name at its end.
ROOM_BELOW = 0.01
# Kept free around the axes, in mm: left, bottom, right, top.
MARGIN_MM = (9.2, 11.2, 0.4, 4.6)


def aw_chart(answer: PlanAnswer, width_mm: float = 80.0, height_mm: float = 66.0) -> bytes:
    """Return the chart as SVG: the curve with the range of its pieces, the limit, and where to pull.

    Weight falls to the right, as it does on the scale. Past the pull the curve is dotted. The same answer gives the
    same bytes.
    """

    def draw(figure: Figure) -> None:
        left, bottom, right, top = MARGIN_MM
        inside = (width_mm - left - right) / width_mm, (height_mm - bottom - top) / height_mm
        axes = figure.add_axes((left / width_mm, bottom / height_mm, *inside))
        points = _drawn(answer)
        _frame(axes, points, answer)
        _curve(axes, points, answer)
        _limit(axes, points, answer)
        _pull(axes, answer)

    return as_svg(width_mm, height_mm, draw)


def _drawn(answer: PlanAnswer) -> list[CurvePoint]:
    """Return the points to draw, heaviest first: all, or from some way above the pull weight downwards."""
    points = [point for point in sorted(answer.curve, key=lambda point: -point.kg) if math.isfinite(point.aw)]
    if answer.pull.kg is None:
        return points
    near = [point for point in points if point.kg <= FROM * answer.pull.kg]
    return near if len(near) >= FEWEST else points


def _frame(axes: Axes, points: list[CurvePoint], answer: PlanAnswer) -> None:
    lowest = min([point.aw_low for point in points] + [answer.pull.aw])
    bottom = math.floor((lowest - ROOM_BELOW) / AW_STEP) * AW_STEP
    heaviest, lightest = points[0].kg, points[-1].kg
    axes.set_xlim(heaviest, lightest - 0.16 * (heaviest - lightest))
    axes.set_ylim(bottom, 1.0)
    axes.set_yticks([bottom + AW_STEP * step for step in range(round((1.0 - bottom) / AW_STEP) + 1)])
    axes.yaxis.set_major_formatter(lambda value, _: f"{value:.2f}")
    axes.set_xticks(few_ticks(lightest, heaviest))
    frame(axes)
    axes.set_xlabel(word("chart_weight"), color=SOFT, fontproperties=face(), loc="left", labelpad=2)
    axes.set_title(word("chart_aw"), color=SOFT, fontproperties=face(), loc="left", pad=5)


def _curve(axes: Axes, points: list[CurvePoint], answer: PlanAnswer) -> None:
    kg = [point.kg for point in points]
    low, high = [point.aw_low for point in points], [point.aw_high for point in points]
    axes.fill_between(kg, low, high, color=TEAL_TINT, linewidth=0, zorder=1)
    for edge in (low, high):
        axes.plot(kg, edge, color=TEAL, linewidth=0.6 * POINTS_PER_PX, zorder=2)
    pull = answer.pull.kg
    solid = [point for point in points if pull is None or point.kg >= pull * (1 - 1e-9)]
    dotted = points[max(len(solid) - 1, 0) :]
    axes.plot([point.kg for point in solid], [point.aw for point in solid], color=TEAL, linewidth=CURVE, zorder=4)
    axes.plot(
        [point.kg for point in dotted],
        [point.aw for point in dotted],
        color=TEAL,
        linewidth=CURVE,
        zorder=4,
        linestyle=DOTS,
    )
    last = points[-1]
    gap = 0.02 * (points[0].kg - last.kg)
    names = (("chart_wettest", last.aw_high), ("chart_mean", last.aw), ("chart_driest", last.aw_low))
    floor, ceiling = axes.get_ylim()
    apart = 0.062 * (ceiling - floor)
    heights = _spread([at for _, at in names], apart)
    for (name, _), height in zip(names, heights, strict=True):
        write(axes, last.kg - gap, height, word(name), color=TEAL, va="center", strong=name == "chart_mean")


def _spread(heights: list[float], apart: float) -> list[float]:
    """Return heights, falling, moved apart around the middle one."""
    top, middle, bottom = heights
    return [max(top, middle + apart), middle, min(bottom, middle - apart)]


def _limit(axes: Axes, points: list[CurvePoint], answer: PlanAnswer) -> None:
    heaviest, lightest = points[0].kg, points[-1].kg
    axes.plot([heaviest, lightest], [answer.pull.aw] * 2, color=INK, linewidth=HAIRLINE, zorder=3)
    at = heaviest - 0.02 * (heaviest - lightest)
    write(axes, at, answer.pull.aw, word("chart_limit", aw=number(answer.pull.aw, 2)), color=INK, va="bottom")


def _pull(axes: Axes, answer: PlanAnswer) -> None:
    pull = answer.pull
    if pull.kg is None:
        return
    floor, ceiling = axes.get_ylim()
    near = min(answer.curve, key=lambda point: abs(point.kg - pull.kg))  # type: ignore[operator]
    axes.plot([pull.kg] * 2, [floor, ceiling], color=INK, linewidth=1.25 * POINTS_PER_PX, zorder=5)
    axes.plot([pull.kg], [near.aw], "o", color=INK, markersize=5, zorder=6)
    digits = pull_digits(answer)
    text = word("chart_pull", kg=number(pull.kg, digits))
    if pull.low_kg is not None and pull.high_kg is not None:
        height = ceiling - 0.04 * (ceiling - floor)
        axes.plot([pull.high_kg, pull.low_kg], [height] * 2, color=TEAL, linewidth=4, solid_capstyle="butt", zorder=4)
        text += "\n" + span(pull.low_kg, pull.high_kg, digits)
    heaviest, lightest = axes.get_xlim()
    write(
        axes,
        pull.kg + 0.015 * (heaviest - lightest),
        floor + 0.04 * (ceiling - floor),
        text,
        color=INK,
        va="bottom",
        ha="right",
        strong=True,
    )
