"""The steps behind linked charts: pale bands by turns, hairlines where one ends, and their names on tiers above."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pellicle.report.drawing import BAND, HAIRLINE, INK, LINE, write
from pellicle.report.line_names import Panel, wide_mm

TIER_MM = 4.2
MOST_TIERS = 6
NAME_GAP_MM = 0.9


@dataclass(frozen=True, slots=True)
class Band:
    """One step: its name, and when it began and ended, in hours."""

    name: str
    began: float
    ended: float


def draw_bands(panel: Panel, bands: Sequence[Band]) -> None:
    """Shade every other step, the longest not, and draw a hairline where one begins."""
    longest = max(range(len(bands)), key=lambda at: bands[at].ended - bands[at].began)
    for at, band in enumerate(bands):
        if (at - longest) % 2:
            panel.axes.axvspan(band.began, band.ended, color=BAND, linewidth=0, zorder=0)
        if at > 0:
            panel.axes.axvline(band.began, color=LINE, linewidth=HAIRLINE, zorder=1)


def tiers(bands: Sequence[Band], width_mm: float, hours: float, most_mm: float) -> list[int]:
    """Return the tier on which each step's name stands, 0 the lowest; no two names touch.

    ``width_mm`` is that of ``hours``, and a name may reach to ``most_mm``. Where that takes no more tiers, a name also
    keeps clear of the hairlines of later steps, which pass the tiers under their own names.
    """
    begins = [_left_mm(band, width_mm, hours, most_mm) for band in bands]
    reaches = [begin + wide_mm(band.name) + NAME_GAP_MM for begin, band in zip(begins, bands, strict=True)]
    clear, close = _clear(begins, reaches), _close(begins, reaches)
    return clear if max(clear) <= max(close) else close


def _clear(begins: Sequence[float], reaches: Sequence[float]) -> list[int]:
    """Seen from the last step: a name that reaches past the beginning of a later one stands above it."""
    found: list[int] = []
    for at in reversed(range(len(begins))):
        later = [tier for begin, tier in zip(begins[at + 1 :], reversed(found), strict=True) if begin < reaches[at]]
        found.append(max(later, default=-1) + 1)
    return found[::-1]


def _close(begins: Sequence[float], reaches: Sequence[float]) -> list[int]:
    """Seen from the first step: each name on the lowest tier where the last name ends before it."""
    found: list[int] = []
    ends: list[float] = []
    for begin, reach in zip(begins, reaches, strict=True):
        tier = next((at for at, end in enumerate(ends) if end <= begin), len(ends))
        ends[tier : tier + 1] = [reach]
        found.append(tier)
    return found


def draw_names(panel: Panel, bands: Sequence[Band], rows: Sequence[int], most_mm: float) -> None:
    """Write the names above a panel, each beside the hairline of its step; those above ``MOST_TIERS`` are left out."""
    low, high = panel.axes.get_xlim()
    for band, tier in zip(bands, rows, strict=True):
        if tier >= MOST_TIERS:
            continue
        foot, top = (panel.y_value(panel.height_mm + TIER_MM * (tier + share)) for share in (0.3, 0.95))
        panel.axes.plot([band.began] * 2, [panel.y_value(panel.height_mm), top], color=LINE, linewidth=HAIRLINE,
                        clip_on=False, zorder=1)  # fmt: skip
        left = _left_mm(band, panel.width_mm, high - low, most_mm)
        write(panel.axes, low + left / panel.width_mm * (high - low), foot, band.name, color=INK, va="baseline")


def _left_mm(band: Band, width_mm: float, hours: float, most_mm: float) -> float:
    begins = band.began / hours * width_mm + NAME_GAP_MM
    return max(min(begins, most_mm - wide_mm(band.name)), 0.0)
