"""How charts for paper are drawn: inks, widths, typefaces, halos and frames, and SVG that is the same each time."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from pellicle.report.typefaces import file_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.text import Text

MM_PER_INCH = 25.4
POINTS_PER_PX = 0.75
POINTS_PER_MM = 72 / MM_PER_INCH
INK, SOFT, EDGE, LINE, BAND, PAPER = "#23201C", "#5D564D", "#857B6D", "#CFC6B6", "#F3EEE4", "#FFFFFF"
TEAL, SLATE, RUST, PLUM = "#0F6A6A", "#35506B", "#9A3B1E", "#6B3A6E"
TEAL_TINT, PLUM_TINT = "#D7E2DD", "#DFD3D8"
CURVE, HAIRLINE, TICK = 2.5 * POINTS_PER_PX, 1 * POINTS_PER_PX, 4 * POINTS_PER_PX
HATCH = 0.6 * POINTS_PER_PX
TEXT_PT = 9.0
# What lies past the pull; in widths of its own line.
DOTS = (0, (0.8, 1.6))


def as_svg(width_mm: float, height_mm: float, draw: Callable[[Figure], None]) -> bytes:
    """Return what ``draw`` puts on a figure, as SVG without a date: the same drawing gives the same bytes."""
    import matplotlib
    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure

    with matplotlib.rc_context(
        {"svg.fonttype": "path", "svg.hashsalt": "pellicle", "text.parse_math": False, "hatch.linewidth": HATCH}
    ):
        figure = Figure(figsize=(width_mm / MM_PER_INCH, height_mm / MM_PER_INCH), facecolor=PAPER)
        FigureCanvasSVG(figure)
        draw(figure)
        written = io.BytesIO()
        figure.savefig(written, format="svg", metadata={"Date": None, "Creator": None})
    return written.getvalue()


def frame(axes: Axes) -> None:
    """Give axes their two edges and ticks outside, in the inks and the face of the page."""
    axes.tick_params(direction="out", length=TICK, width=HAIRLINE, color=EDGE, labelcolor=SOFT)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(EDGE)
        spine.set_linewidth(HAIRLINE)
    for label in (*axes.get_xticklabels(), *axes.get_yticklabels()):
        label.set_fontproperties(face())


def few_ticks(low: float, high: float, most: int = 6) -> list[float]:
    """Return round ticks between two values, both ends included where they are round."""
    from matplotlib.ticker import MaxNLocator

    ticks = MaxNLocator(nbins=most, steps=[1, 2, 2.5, 5, 10]).tick_values(low, high)
    return [float(tick) for tick in ticks if low <= tick <= high]


def write(
    axes: Axes, x: float, y: float, text: str, *, color: str, va: str, ha: str = "left", strong: bool = False
) -> Text:
    """Write on a chart with a halo of paper, so that what is crossed stays readable."""
    from matplotlib.patheffects import withStroke

    return axes.text(
        x,
        y,
        text,
        color=color,
        va=va,
        ha=ha,
        fontproperties=face(strong),
        path_effects=[withStroke(linewidth=4 * POINTS_PER_PX, foreground=PAPER)],
        zorder=7,
        linespacing=1.15,
        clip_on=False,
    )


def face(strong: bool = False) -> Any:
    """Return the sheet's own sans at the size of labels, semibold if ``strong``; a stand-in where it is missing."""
    from matplotlib.font_manager import FontProperties

    path = file_of("SourceSansPro-Semibold" if strong else "SourceSansPro-Regular")
    if path is None:
        return FontProperties(family="DejaVu Sans", size=TEXT_PT, weight="bold" if strong else "normal")
    return FontProperties(fname=str(path), size=TEXT_PT)
