"""A passage through the house as a terminal page: sentence, steps, a compact chart, end, lethality, spread,
findings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pellicle.report.columns import Align, Column, heading, table, wrapped
from pellicle.report.ink import Paint, painter
from pellicle.report.numerals import number, plain, word
from pellicle.report.plan_rows import check_rows
from pellicle.report.process_texts import process_texts
from pellicle.report.run_texts import (
    WAYS,
    after_texts,
    end_texts,
    growth_texts,
    lethality_cells,
    pull_text,
    spread_texts,
)
from pellicle.report.terminal_checks import checks_section, sources_line

if TYPE_CHECKING:
    from pellicle.answers.run_answer import Profile, RunAnswer

TEXT_INDENT, NOTE_INDENT = 2, 4
CHART_COLUMNS, CHART_ROWS = 72, 10


def run_page(answer: RunAnswer, width: int = 100, colour: bool = False) -> str:
    """Return the page of a run, at most ``width`` columns wide."""
    paint = painter(colour)
    lines = [paint("bold", line) for line in wrapped(str(answer.sentence), width)]
    lines += wrapped(word("run_about", product=plain(answer.product), on=answer.on), width)
    lines += ["", *_steps(answer, width, paint), "", *_chart(answer, paint), "", *_end(answer, width, paint)]
    lines += ["", *_lethality(answer, width), *_after(answer, width, paint)]
    lines += [line for one in answer.profiles for line in _profile(one, width)]
    lines += _spread(answer, width, paint)
    lines += ["", *checks_section(check_rows(answer.checks), width, paint), ""]
    for caution in answer.cautions:
        lines += wrapped(word("caution", text=plain(str(caution.text))), width, TEXT_INDENT, NOTE_INDENT)
    lines += ["", paint("bold", word("assumed").upper())]
    for text in (*answer.assumptions, *answer.flags):
        lines += wrapped(plain(str(text)), width, TEXT_INDENT, NOTE_INDENT)
    return "\n".join([*lines, "", *sources_line(answer.sources, width, paint)])


def _steps(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    columns = [Column("", Align.LEFT), Column(word("run_minutes"), Align.RIGHT, 10), Column("", Align.LEFT, 50)]
    cells = [
        (plain(step.name), number(step.minutes, 0), word("run_ended_by", by=plain(step.ended_by)))
        for step in answer.steps
    ]
    title = word("run_house").upper()
    lines = [paint("bold", title) + heading(title, columns, width).removeprefix(title)]
    lines += [line for row in table(columns, cells, width) for line in row]
    for remark in (*answer.remarks, *([] if answer.problem is None else [answer.problem])):
        lines += wrapped(word("caution", text=plain(str(remark))), width, TEXT_INDENT, NOTE_INDENT)
    return lines


def _chart(answer: RunAnswer, paint: Paint) -> list[str]:
    """Air, wet bulb and core over time, as signs on a grid; each column one moment, the last sign drawn wins."""
    seen = answer.history
    series = (("-", seen.dry_bulb_c), ("~", seen.wet_bulb_c), ("o", seen.core_c))
    low = min(min(values) for _, values in series)
    high = max(max(values) for _, values in series)
    grid = [[" "] * CHART_COLUMNS for _ in range(CHART_ROWS)]
    for sign, values in series:
        for column in range(CHART_COLUMNS):
            value = values[round(column * (len(values) - 1) / (CHART_COLUMNS - 1))]
            row = round((high - value) / max(high - low, 1.0) * (CHART_ROWS - 1))
            grid[row][column] = sign
    labels = [number(high - (high - low) * row / (CHART_ROWS - 1), 0) for row in range(CHART_ROWS)]
    lines = [paint("bold", word("run_chart").upper()) + "  " + word("run_chart_signs")]
    lines += [f"{label:>7} |{''.join(cells)}" for label, cells in zip(labels, grid, strict=True)]
    end = word("run_hours", hours=number(answer.end.hours, 1))
    return [*lines, f"{'C':>7} +{'-' * CHART_COLUMNS}", " " * 9 + "0" + end.rjust(CHART_COLUMNS - 1)]


def _end(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    texts = [*end_texts(answer), pull_text(answer)]
    return [
        paint("bold", word("run_at_end").upper()),
        *(line for text in texts for line in wrapped(text, width, TEXT_INDENT)),
    ]


def _lethality(answer: RunAnswer, width: int) -> list[str]:
    columns = [Column("", Align.LEFT), *(Column(word(f"lethality_{name}"), Align.RIGHT, 12) for name in WAYS)]
    columns.append(Column(word("run_target"), Align.RIGHT, 8))
    cells = lethality_cells(answer)
    lines = [heading(word("run_lethality").upper(), columns, width)]
    lines += [line for row in table(columns, cells, width) for line in row]
    lines += wrapped(str(answer.uncounted), width, TEXT_INDENT, NOTE_INDENT)
    for text in (*process_texts(answer.process), *growth_texts(answer)):
        lines += wrapped(text, width, TEXT_INDENT, NOTE_INDENT)
    return lines


def _after(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    lines = [line for text in after_texts(answer) for line in wrapped(text, width, TEXT_INDENT, NOTE_INDENT)]
    return ["", paint("bold", word("run_afterwards").upper()), *lines] if lines else []


def _profile(one: Profile, width: int) -> list[str]:
    names = ("depth_m", "temperature_c", "water_percent", "salts_percent", "sugars_percent", "aw")
    heads = ("depth", "temperature", "water", "salts", "sugars", "aw")
    columns = [Column("", Align.LEFT), *(Column(word(f"run_profile_{head}"), Align.RIGHT, 12) for head in heads)]
    digits = (2, 1, 1, 2, 2, 3)
    cells = [
        ("", *(number(value, places) for value, places in zip((1000 * depth, *others), digits, strict=True)))
        for depth, *others in zip(*(getattr(one, name) for name in names), strict=True)
    ]
    title = word("run_profile", minutes=number(one.minutes, 0)).upper()
    return ["", heading(title, columns, width), *(line for row in table(columns, cells, width) for line in row)]


def _spread(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    lines = [line for text in spread_texts(answer) for line in wrapped(text, width, TEXT_INDENT)]
    return ["", paint("bold", word("run_spread").upper()), *lines] if lines else []
