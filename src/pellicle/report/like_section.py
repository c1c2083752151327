"""Matching another product's taste per bite: the factor of each seasoning, and what that does to the plan."""

from __future__ import annotations

from pellicle.answers.plan_answer import Like
from pellicle.report.columns import Align, Column, heading, table, wrapped
from pellicle.report.ink import Paint
from pellicle.report.numerals import number, plain, word


def like_section(like: Like, width: int, paint: Paint) -> list[str]:
    """Return the lines of the comparison: shares of the finished weight, factor, share of raw before and after."""
    columns = [
        Column("", Align.LEFT),
        Column(word("like_here"), width=14),
        Column(word("like_other"), width=14),
        Column(word("like_factor"), width=8),
        Column(word("percent_of_raw"), width=10),
        Column(word("like_new"), width=10),
    ]
    name = word("like", other=plain(like.other))
    lines = [paint("bold", line) for line in wrapped(name, width)]
    lines.append(heading("", columns, width))
    for row in table(columns, like_cells(like), width):
        lines += row
    for text in like_texts(like):
        lines += wrapped(text, width, 2)
    return lines


def like_cells(like: Like) -> list[tuple[str, ...]]:
    """Return the cells of each seasoning's row."""
    return [
        (
            plain(line.ingredient),
            number(line.percent_of_finished, 2),
            number(line.other_percent_of_finished, 2),
            number(line.factor, 2),
            number(line.percent_of_raw, 2),
            number(line.new_percent_of_raw, 2),
        )
        for line in like.lines
    ]


def like_texts(like: Like) -> list[str]:
    """Return what the match does to pull weight, water activity and nitrite, and the notes."""
    changes = [
        ("like_pull", like.pull_kg_before, like.pull_kg_after, 1),
        ("like_aw", like.aw_before, like.aw_after, 3),
        ("like_nitrite", like.nitrite_ppm_before, like.nitrite_ppm_after, 0),
    ]
    said = [
        word(name, before=number(before, digits), after=number(after, digits))
        for name, before, after, digits in changes
        if before is not None or after is not None
    ]
    return [*([" ".join(said)] if said else []), *(plain(str(note)) for note in like.notes)]
