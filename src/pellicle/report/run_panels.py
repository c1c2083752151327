"""The four linked charts of a passage, one function each: temperatures, weight, water activity, lethality.

One meaning per hue, and a line style beside it, so that grey print loses nothing. Up to the pull lines are solid, past
it dotted.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pellicle.report.drawing import (
    CURVE,
    DOTS,
    HAIRLINE,
    INK,
    PLUM,
    PLUM_TINT,
    POINTS_PER_PX,
    RUST,
    SLATE,
    SOFT,
    TEAL,
    TEAL_TINT,
    few_ticks,
    write,
)
from pellicle.report.line_names import LINE_MM, Array, Line, Name, Panel, name_lines, names_at_the_end, room_mm, wide_mm
from pellicle.report.numerals import batch_digits, number, span, word
from pellicle.rules.words import logs
from pellicle.safety.wetness import CREDIT_AW

if TYPE_CHECKING:
    from pellicle.answers.run_answer import RunAnswer

AIR, FINE = 2 * POINTS_PER_PX, 1.5 * POINTS_PER_PX
DASHES = (0, (7 / 2, 4 / 2))  # in widths of a line of 2 px
SURFACE_DASHES = (0, (4 / 1.5, 3 / 1.5))
DOT = 5.0
AW_STEP = 0.05
AW_BELOW = 0.02  # kept below the lowest mean and the limit
# The axis of lethality ends at so many times the target where more is credited, and a little above it at least.
MOST_TARGETS, ABOVE_TARGET = 3.0, 1.25
NO_TARGET = 5.0
PULL_BAR = 3 * POINTS_PER_PX
INSET_MM = 1.5
SHORTEST = 1e-3  # of the time axis: a stretch shorter than this is not seen
LEVELS = 13  # how many heights are tried for a word in a stretch
# Kept above and below the lines, as a share of their range; the range taken for a line that never moves.
ROOM, FLAT = 0.06, 1.0


def temperatures(panel: Panel, answer: RunAnswer, pulled_h: float | None) -> None:
    """Draw air, wet bulb and core."""
    seen = answer.history
    air, wet, core = (np.array(values) for values in (seen.dry_bulb_c, seen.wet_bulb_c, seen.core_c))
    _between(panel, [air, wet, core], most=5)
    _line(panel, air, pulled_h, color=SLATE, width=AIR)
    _line(panel, wet, pulled_h, color=SLATE, width=AIR, style=DASHES)
    _line(panel, core, pulled_h, color=RUST, width=CURVE)
    lines = [
        Line(air, word("run_chart_air"), SLATE),
        Line(wet, word("run_chart_wet_bulb"), SLATE),
        Line(core, word("run_chart_core"), RUST, strong=True),
    ]
    name_lines(panel, lines, upright=pulled_h)


def weight(panel: Panel, answer: RunAnswer, pulled_h: float | None) -> None:
    """Draw the weight with the range of the pull as a band, the weight to pull at as a bar, and where it is reached."""
    kg = np.array(answer.history.weight_percent_of_raw) * answer.raw_kg / 100.0
    low, high, use = answer.pull_low_kg, answer.pull_high_kg, answer.pull_lightest_kg
    _between(panel, [kg, np.array([low, high, use])], most=4)
    ends = panel.axes.get_xlim()
    panel.axes.fill_between(ends, low, high, color=TEAL_TINT, linewidth=0, zorder=2)
    for edge in (low, high):
        panel.axes.plot(ends, [edge] * 2, color=TEAL, linewidth=0.6 * POINTS_PER_PX, zorder=2)
    panel.axes.plot(ends, [use] * 2, color=TEAL, linewidth=PULL_BAR, solid_capstyle="butt", zorder=3)
    _line(panel, kg, pulled_h, color=RUST, width=CURVE)
    digits = batch_digits(use)
    out = word("run_chart_out", kg=number(float(kg[-1]), digits))
    names = [
        Name(word("chart_pull", kg=number(use, digits)), INK, use, strong=True),
        Name(word("run_chart_range", span=span(low, high, digits)), TEAL, (low + high) / 2),
        Name(out, RUST, float(kg[-1]), strong=True),
    ]
    names_at_the_end(panel, names)
    if pulled_h is None:
        _say(panel, word("run_chart_not_reached"), max(use, high), va="bottom", color=INK)
    else:
        _dot(panel, kg, pulled_h)


def water_activity(panel: Panel, answer: RunAnswer, pulled_h: float | None) -> None:
    """Draw mean and drier face, the limit, and the water activity from which heat counts; a dry face may be clipped."""
    mean, face = np.array(answer.history.aw_mean), np.array(answer.history.aw_surface)
    lowest = min(float(mean.min()), answer.aw_limit)
    bottom = math.floor((lowest - AW_BELOW) / AW_STEP) * AW_STEP
    panel.axes.set_ylim(bottom, 1.0)
    panel.axes.set_yticks(few_ticks(bottom, 1.0, most=5))
    panel.axes.yaxis.set_major_formatter(lambda value, _: f"{value:.2f}")
    panel.axes.axhline(answer.aw_limit, color=INK, linewidth=HAIRLINE, zorder=3)
    panel.axes.axhline(CREDIT_AW, color=SOFT, linewidth=HAIRLINE, linestyle=(0, (1.5, 3)), zorder=3)
    _line(panel, mean, pulled_h, color=TEAL, width=CURVE)
    _line(panel, face, pulled_h, color=TEAL, width=FINE, style=SURFACE_DASHES)
    said = {name: number(float(value), 2) for name, value in (("mean", mean[-1]), ("face", face[-1]))}
    along = {name: word("run_chart_at_the_end", line=word(f"run_chart_{name}"), aw=aw) for name, aw in said.items()}
    if float(face.min()) < bottom:
        along["face"] = word("run_chart_face_clipped", aw=number(float(face.min()), 2))
    name_lines(
        panel,
        [
            Line(mean, f"{word('run_chart_mean')} {said['mean']}", TEAL, strong=True, along=along["mean"]),
            Line(
                np.where(face >= bottom, face, np.nan),
                f"{word('run_chart_face')} {said['face']}",
                TEAL,
                along=along["face"],
            ),
        ],
        [
            Name(word("chart_limit", aw=number(answer.aw_limit, 2)), INK, answer.aw_limit),
            Name(word("run_chart_counts_from", aw=number(CREDIT_AW, 2)), SOFT, CREDIT_AW),
        ],
        across=(answer.aw_limit, CREDIT_AW),
        upright=pulled_h,
    )
    if pulled_h is not None:
        _dot(panel, mean, pulled_h)


def lethality(panel: Panel, answer: RunAnswer, pulled_h: float | None) -> None:
    """Draw what is credited: filled while heat counts, hatched while it does not, with the target."""
    one = answer.lethality[answer.governing]
    credited = [value for value in answer.history.lethality_wet if value is not None]
    known = one.wet is not None and len(credited) == len(answer.history.lethality_wet)
    top = axis_end(answer)
    panel.axes.set_ylim(0.0, top)
    panel.axes.set_yticks(few_ticks(0.0, top, most=4))
    counted = _hatch(panel, answer)
    credit = np.minimum(np.array(credited), top) if known else np.zeros(panel.hours.size)
    names = []
    if known:
        for began, ended in counted:
            inside = np.clip(panel.hours, began, ended)
            under = np.interp(inside, panel.hours, credit)
            panel.axes.fill_between(inside, 0.0, under, color=PLUM_TINT, linewidth=0, zorder=2)
        panel.axes.plot(panel.hours, credit, color=PLUM, linewidth=CURVE, zorder=6, clip_on=False)
        wet, lower = float(one.wet or 0.0), one.wet_lower
        if lower is not None:
            names.append(Name(word("run_chart_at_least", log=logs(lower)), PLUM, min(wet, top)))
        names.append(Name(word("run_chart_credited", log=logs(wet)), PLUM, min(wet, top), strong=True))
    else:
        _say(panel, word("run_chart_withheld"), top / 2, va="center", color=PLUM)
    if one.target is not None:
        panel.axes.axhline(one.target, color=INK, linewidth=HAIRLINE, zorder=5)
        names.append(Name(word("run_chart_target", log=logs(one.target)), INK, one.target))
    why = word("run_chart_uncounted", aw=number(CREDIT_AW, 2))
    _word_in(panel, _gaps(panel, counted), [why, word("run_chart_uncounted_short")], credit, one.target)
    if known:
        _word_in(panel, counted, [word("run_chart_counted")], credit, one.target)
    names_at_the_end(panel, names)


def axis_end(answer: RunAnswer) -> float:
    """Return where the axis of lethality ends: above what is credited, unless that is many times the target."""
    one = answer.lethality[answer.governing]
    target = one.target or NO_TARGET
    credited = max((value for value in answer.history.lethality_wet if value is not None), default=0.0)
    return min(max(credited * 1.08, ABOVE_TARGET * target), MOST_TARGETS * target)


def is_clipped(answer: RunAnswer) -> bool:
    """Return whether more is credited than the axis of lethality shows."""
    return max((value for value in answer.history.lethality_wet if value is not None), default=0.0) > axis_end(answer)


def _hatch(panel: Panel, answer: RunAnswer) -> list[tuple[float, float]]:
    """Hatch the stretches that did not count, and return those that did, in hours."""
    counted = [(one.from_minutes / 60.0, one.to_minutes / 60.0) for one in answer.counted]
    end = panel.axes.get_xlim()[1]
    for began, ended in _gaps(panel, counted):
        panel.axes.axvspan(
            began, ended, facecolor="none", edgecolor=PLUM, hatch="////", linewidth=0, alpha=0.5, zorder=1
        )
        for edge in (began, ended):
            if 0.0 < edge < end:
                panel.axes.axvline(edge, color=PLUM, linewidth=HAIRLINE, linestyle=(0, (3, 2)), zorder=4)
    return counted


def _gaps(panel: Panel, counted: list[tuple[float, float]]) -> list[tuple[float, float]]:
    edges = [0.0, *(hour for stretch in counted for hour in stretch), panel.axes.get_xlim()[1]]
    return [
        (began, ended)
        for began, ended in zip(edges[::2], edges[1::2], strict=True)
        if ended - began > SHORTEST * edges[-1]
    ]


def _word_in(
    panel: Panel, stretches: list[tuple[float, float]], texts: list[str], credit: Array, target: float | None
) -> None:
    """Write the first text that fits into the longest stretch, as low as credit and target leave it room."""
    if not stretches:
        return
    began, ended = max(stretches, key=lambda stretch: stretch[1] - stretch[0])
    left, right = panel.x_mm(np.array([began, ended]))
    fits = [text for text in texts if wide_mm(text, strong=True) + 2 * INSET_MM <= right - left]
    if not fits:
        return
    reaches = left + wide_mm(fits[0], strong=True) + 2 * INSET_MM
    x = panel.x_mm(panel.hours)
    crossing = panel.y_mm(credit)[(x >= left) & (x <= reaches)]
    if target is not None:
        crossing = np.append(crossing, panel.y_mm(np.array(target)))
    heights = np.linspace(INSET_MM, max(panel.height_mm - LINE_MM - INSET_MM, INSET_MM), LEVELS)
    rooms = [min(room_mm(crossing, float(height)), INSET_MM) for height in heights]
    foot = float(heights[int(np.argmax(rooms))])
    x_hours = began + (ended - began) * INSET_MM / float(right - left)
    write(panel.axes, x_hours, panel.y_value(foot), fits[0], color=PLUM, va="bottom", strong=True)


def _between(panel: Panel, series: list[Array], most: int) -> None:
    """Set a value axis that holds all series, with a little room, and round ticks inside it."""
    low, high = min(float(values.min()) for values in series), max(float(values.max()) for values in series)
    room = max(high - low, FLAT)
    bottom, top = low - ROOM * room, high + ROOM * room
    panel.axes.set_ylim(bottom, top)
    panel.axes.set_yticks(few_ticks(bottom, top, most))


def _line(
    panel: Panel, values: Array, pulled_h: float | None, *, color: str, width: float, style: object = "solid"
) -> None:
    """Draw a line over time, dotted past the pull."""
    hours = panel.hours
    until = hours[-1] if pulled_h is None else pulled_h
    at = float(np.interp(until, hours, values))
    before, after = hours <= until, hours > until
    panel.axes.plot(
        [*hours[before], until], [*values[before], at], color=color, linewidth=width, linestyle=style, zorder=6
    )
    if after.any():
        panel.axes.plot(
            [until, *hours[after]], [at, *values[after]], color=color, linewidth=width, linestyle=DOTS, zorder=6
        )


def _dot(panel: Panel, values: Array, pulled_h: float) -> None:
    panel.axes.plot(
        [pulled_h], [float(np.interp(pulled_h, panel.hours, values))], "o", color=INK, markersize=DOT, zorder=8
    )


def _say(panel: Panel, text: str, at: float, va: str, color: str) -> None:
    x = panel.axes.get_xlim()[1] * INSET_MM / panel.width_mm
    write(panel.axes, x, at, text, color=color, va=va)
