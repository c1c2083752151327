"""The charts of a passage: four panels on one time axis in hours from the start, steps behind, the pull across them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pellicle.report import run_panels
from pellicle.report.drawing import INK, POINTS_PER_PX, SOFT, as_svg, face, frame, write
from pellicle.report.line_names import GAP_MM, Panel, wide_mm
from pellicle.report.numerals import batch_digits, number, plain, word
from pellicle.report.step_bands import MOST_TIERS, TIER_MM, Band, draw_bands, draw_names, tiers
from pellicle.units import show_duration

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from pellicle.answers.run_answer import RunAnswer

LEFT_MM, RIGHT_MM, BOTTOM_MM, TITLE_MM, BETWEEN_MM = 9.5, 37.0, 6.5, 5.2, 2.6
# The panels from the top, and their shares of the height that is left.
PANELS = (
    ("temperature", run_panels.temperatures, 0.33),
    ("weight", run_panels.weight, 0.22),
    ("aw", run_panels.water_activity, 0.22),
    ("lethality", run_panels.lethality, 0.23),
)
# Round distances between ticks, in hours, and how many ticks there may be.
TICK_HOURS = (0.01, 0.02, 0.05, 0.1, 0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 96, 240)
MOST_TICKS = 12
TICK_ROOM_MM = 2.5  # what the last of them takes to its right
MINUTES, HOUR_S = 60.0, 3600.0


def run_chart(answer: RunAnswer, width_mm: float, height_mm: float) -> bytes:
    """Return the charts as SVG; the same answer gives the same bytes."""
    hours = np.array(answer.history.minutes) / MINUTES
    bands = bands_of(answer)
    wide = width_mm - LEFT_MM - RIGHT_MM
    rows = tiers(bands, wide, float(hours[-1]), width_mm - LEFT_MM)
    names_mm = TIER_MM * (min(max(rows), MOST_TIERS - 1) + 1)
    pulled = pulled_at(answer)

    def draw(figure: Figure) -> None:
        free = height_mm - BOTTOM_MM - names_mm - len(PANELS) * TITLE_MM - (len(PANELS) - 1) * BETWEEN_MM
        top = height_mm
        for at, (name, panel_of, share) in enumerate(PANELS):
            first, last = at == 0, at == len(PANELS) - 1
            high = share * free
            top -= TITLE_MM + (names_mm if first else BETWEEN_MM)
            axes = figure.add_axes((LEFT_MM / width_mm, (top - high) / height_mm, wide / width_mm, high / height_mm))
            panel = Panel(axes, wide, high, hours)
            axes.set_xlim(0.0, float(hours[-1]))
            draw_bands(panel, bands)
            panel_of(panel, answer, pulled)
            _time_axis(panel, last)
            frame(axes)
            unnamed = sum(row >= MOST_TIERS for row in rows) if first else 0
            note = _note(answer, name) + (word("run_chart_unnamed", count=unnamed) if unnamed else "")
            _title(panel, word(f"run_chart_{name}"), note, names_mm if first else 0.0)
            if first:
                draw_names(panel, bands, rows, width_mm - LEFT_MM)
            if pulled is not None:
                axes.axvline(pulled, color=INK, linewidth=1.25 * POINTS_PER_PX, zorder=5)
            top -= high

    return as_svg(width_mm, height_mm, draw)


def bands_of(answer: RunAnswer) -> tuple[Band, ...]:
    """Return the steps as they went, with the hours at which each began and ended."""
    found, began = [], 0.0
    for step in answer.steps:
        ended = began + step.minutes / MINUTES
        found.append(Band(plain(step.name), began, ended))
        began = ended
    return tuple(found)


def pulled_at(answer: RunAnswer) -> float | None:
    """Return the hour at which the weight first comes down to that of the pull; None where it stays above it."""
    kg = np.array(answer.history.weight_percent_of_raw) * answer.raw_kg / 100.0
    under = np.flatnonzero(kg <= answer.pull_lightest_kg)
    if not under.size:
        return None
    at, minutes = int(under[0]), answer.history.minutes
    if at == 0:
        return 0.0
    share = (kg[at - 1] - answer.pull_lightest_kg) / (kg[at - 1] - kg[at])
    return float(minutes[at - 1] + share * (minutes[at] - minutes[at - 1])) / MINUTES


def _note(answer: RunAnswer, name: str) -> str:
    if name == "weight":
        note = word("run_chart_weight_note", raw=number(answer.raw_kg, batch_digits(answer.raw_kg)))
        hours = pulled_at(answer)
        return note if hours is None else note + word("run_chart_pulled", after=show_duration(hours * HOUR_S))
    if name != "lethality":
        return word(f"run_chart_{name}_note")
    label = plain(answer.lethality[answer.governing].label)
    note = word("run_chart_lethality_note", organism=label)
    return (
        note + word("run_chart_clipped", end=number(run_panels.axis_end(answer), 0))
        if run_panels.is_clipped(answer)
        else note
    )


def _title(panel: Panel, name: str, note: str, above_mm: float) -> None:
    low, high = panel.axes.get_xlim()
    y = panel.y_value(panel.height_mm + above_mm + 1.2)
    write(panel.axes, low - (high - low) * LEFT_MM / panel.width_mm, y, name, color=INK, va="bottom", strong=True)
    beside = (wide_mm(name, strong=True) + 2.0 - LEFT_MM) / panel.width_mm
    write(panel.axes, low + (high - low) * beside, y, note, color=SOFT, va="bottom")


def _time_axis(panel: Panel, labelled: bool) -> None:
    end = float(panel.hours[-1])
    apart = next((hours for hours in TICK_HOURS if end / hours <= MOST_TICKS), TICK_HOURS[-1])
    ticks = [apart * at for at in range(int(end / apart + 1e-9) + 1)]
    panel.axes.set_xticks(ticks)
    panel.axes.set_xticklabels([_hours(tick) for tick in ticks] if labelled else [""] * len(ticks))
    if labelled:
        beyond = GAP_MM + (TICK_ROOM_MM if (end - ticks[-1]) / end * panel.width_mm < TICK_ROOM_MM else 0.0)
        x = end * (1 + beyond / panel.width_mm)
        panel.axes.annotate(
            word("run_chart_hours"), (x, 0.0), xytext=(0, -5.4), textcoords="offset points", color=SOFT, va="top",
            fontproperties=face(), annotation_clip=False,
        )  # fmt: skip


def _hours(hours: float) -> str:
    return word("run_chart_zero") if hours == 0 else f"{hours:.2f}".rstrip("0").rstrip(".")
