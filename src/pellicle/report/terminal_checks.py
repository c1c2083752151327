"""Checks and sources on the terminal: a mark and words, value and limit, and under them the reason."""

from __future__ import annotations

from collections.abc import Sequence

from pellicle.report.columns import Align, Column, table, wrapped
from pellicle.report.ink import Paint
from pellicle.report.numerals import word
from pellicle.report.plan_rows import CheckRow, mark_of
from pellicle.report.plan_texts import reason_text, sources_text
from pellicle.rules.verdict import Group, Verdict
from pellicle.source import Source

MARK_WIDTH = 16
REASON_INDENT = 20

_INKS = {Verdict.NOT_MET: "rust bold", Verdict.CANNOT_TELL: "ochre bold", Verdict.MET: "bold"}
_COLUMNS = (
    Column("", Align.LEFT, MARK_WIDTH),
    Column("", Align.LEFT),
    Column("", Align.RIGHT, 12),
    Column("", Align.LEFT, 20),
)


def checks_section(rows: Sequence[CheckRow], width: int, paint: Paint) -> list[str]:
    """Return the checks by group, the groups in the order in which they came, each with its reason wrapped under it."""
    lines: list[str] = []
    for group in dict.fromkeys(row.group for row in rows):
        name = paint("bold", word("checks").upper()) if not lines else ""
        title = word(f"group_{Group(group).name.lower()}")
        lines.append(f"{name}, {title}" if name else f"{' ' * 2}{title}")
        for row in rows:
            if row.group == group:
                lines += check_lines(row, width, paint)
    return lines


def check_lines(row: CheckRow, width: int, paint: Paint) -> list[str]:
    """Return one check: its line, and under it the reason with the clause."""
    mark = mark_of(row.verdict)
    (first, *rest), *_ = table(_COLUMNS, [(mark, row.title, row.value, row.limit)], width)
    first = first.replace(mark, paint(_INKS[Verdict(row.verdict)], mark), 1)
    return [first, *rest, *wrapped(reason_text(row), width, REASON_INDENT)]


def sources_line(sources: Sequence[Source], width: int, paint: Paint) -> list[str]:
    """Return how many sources the page rests on and how many of them are yet to be verified."""
    return wrapped(sources_text(sources), width)
