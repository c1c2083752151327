"""Runs the published challenge studies and writes their table and figure into `docs/lethality.md` anew.

The text around the table is kept by hand. It takes about half a minute once the kernel is compiled.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from pellicle.study.challenge import DRAWS, Compared, Study, bias, compare, studies

PAGE = Path(__file__).resolve().parent.parent / "docs" / "lethality.md"
FIGURE = PAGE.with_suffix(".svg")
MARK = "<!-- everything below is written by scripts/lethality_page.py -->\n"
HEAD = (
    "| row | process and meat | organism | measured | wet, 5 % | wet, median | outer mm | likely | core alone |\n"
    "|---|---|---|---|---|---|---|---|---|\n"
)
BAND = 2.6


def page(text: str, found: Sequence[Compared]) -> str:
    """Return the page's text with its table brought up to date."""
    kept, mark, _ = text.partition(MARK)
    if not mark:
        raise ValueError(f"{PAGE.name} has lost the line {MARK.strip()}")
    return kept + mark + "\n" + summary(found) + "\n" + HEAD + "".join(map(_line, found)) + "\n" + left_out()


def summary(found: Sequence[Compared]) -> str:
    """Return what the comparison comes to, in words."""
    mean, sd, count = bias(tuple(found))
    inside = [one for one in found if one.study.middle is not None and abs(one.expected - one.study.middle) <= BAND]
    over = [one.study.id for one in found if one.exceeds]
    bold = "In no uncensored row does the 5 % quantile of what is credited exceed what was measured: the bound stands."
    if over:
        names = ", ".join(over)
        bold = f"The 5 % quantile of what is credited exceeds what was measured in {names}: the bound has to widen."
    above = [one.study.id for one in found if one.study.bound == "below" and one.expected > (one.study.high_log or 0.0)]
    upper = f" Likely exceeds the upper bound that was measured in {', '.join(above)}." if above else ""
    return (
        f"![Predicted against measured]({FIGURE.name})\n\n"
        f"{len(found)} of {len(studies())} rows were run, each {DRAWS} times. {bold}\n\n"
        f"What is called likely is off by {mean:+.1f} log on average over the {count} uncensored rows, with a\n"
        f"standard deviation of {sd:.1f}; {len(inside)} of {count} lie within its band of {BAND} log.{upper}\n\n"
        "The core alone, by the line of the printed table, says nothing once the surface is dry.\n"
    )


def left_out() -> str:
    """Return the studies that were not run, each with the reason."""
    lines = [
        f"* {one.id}: {one.process}, {one.meat} ({one.measured}): {one.why_not}." for one in studies() if one.why_not
    ]
    return "## Not run\n\n" + "\n".join(lines) + "\n"


def figure(found: Sequence[Compared]) -> None:
    """Draw what is likely, with its band, and the 5 % quantile of what is credited against what was measured."""
    import matplotlib as mpl

    mpl.use("svg")
    mpl.rcParams["svg.hashsalt"] = "lethality"
    from matplotlib.figure import Figure

    canvas = Figure(figsize=(7.0, 5.6), layout="tight")
    axes = canvas.subplots()
    axes.plot([0, 10], [0, 10], color="0.3", linewidth=0.8)
    for one in found:
        measured = one.study.middle
        censored = measured is None
        at = measured if measured is not None else (one.study.low_log or one.study.high_log or 0.0)
        axes.errorbar(at, one.expected, yerr=BAND, color="0.8", linewidth=0.8, zorder=1)
        axes.plot(at, one.expected, "o", color="0.25", markerfacecolor="white" if censored else "0.25", markersize=5)
        axes.plot(at, one.wet_low, "x", color="0.45", markersize=5)
    axes.plot([], [], "o", color="0.25", label="likely, measured value uncensored")
    axes.plot([], [], "o", color="0.25", markerfacecolor="white", label="likely, only a bound was measured")
    axes.plot([], [], "x", color="0.45", label="credited while wet, 5 % quantile")
    axes.set_xlim(0, 8)
    axes.set_ylim(0, 12)
    axes.set_xlabel("measured log reduction")
    axes.set_ylabel("predicted log reduction")
    axes.legend(frameon=False, loc="upper left")
    canvas.savefig(FIGURE, metadata={"Date": None})


def _line(one: Compared) -> str:
    study: Study = one.study
    core = "over 99" if one.table > 99 else f"{one.table:.1f}"
    figures = " | ".join(f"{value:.1f}" for value in (one.wet_low, one.wet, one.local, one.expected))
    return (
        f"| {study.id} | {study.process}; {study.meat} | {study.organism} | {study.measured} | {figures} | {core} |\n"
    )


if __name__ == "__main__":
    results = [compare(one) for one in studies() if one.stages]
    figure(results)
    PAGE.write_text(page(PAGE.read_text("utf-8"), results), "utf-8")
    sys.stdout.write(f"{PAGE.name}: {len(results)} studies\n")
