"""Tables of text in columns of one width: numbers to the right, decimals aligned on their point, long words wrapped."""

from __future__ import annotations

import re
import textwrap
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from pellicle.report.numerals import glued, plain
from pellicle.units import NBSP

GAP = 2
INDENT = 2

_NUMBER = re.compile(r"-?\d+(\.\d+)?")


class Align(StrEnum):
    """How the cells of a column stand: text to the left, figures to the right, or figures on their decimal point."""

    LEFT = "left"
    RIGHT = "right"
    POINT = "point"


@dataclass(frozen=True, slots=True)
class Column:
    """One column: what stands over it, how its cells stand, and its width in characters (0: the rest of the line)."""

    head: str
    align: Align = Align.RIGHT
    width: int = 0


def heading(name: str, columns: Sequence[Column], width: int) -> str:
    """Return the line over a table: its name over the first column, and the heads of the other columns."""
    columns = _laid(columns, width)
    cells = [_pad(column.head, column, column.align) for column in columns[1:]]
    first = " " * INDENT + " " * columns[0].width
    return (name + first[cells_wide(name) :] + " " * GAP + (" " * GAP).join(cells)).rstrip()


def table(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: int) -> list[list[str]]:
    """Return the lines of each row, so that a caller may mark one; no line is longer than ``width``.

    A cell of text wraps inside its column; a figure never does.

    >>> columns = [Column("", Align.LEFT), Column("kg", Align.POINT, 8)]
    >>> for lines in table(columns, [("salt", "1.6"), ("cure", "0.202")], 20):
    ...     print("".join(lines))
      salt         1.6
      cure         0.202
    """
    columns = _laid(columns, width)
    pointed = [_on_the_point([row[at] for row in rows], column) for at, column in enumerate(columns)]
    return [_row([pointed[at][row] for at in range(len(columns))], columns) for row in range(len(rows))]


def wrapped(text: str, width: int, indent: int = 0, hang: int | None = None) -> list[str]:
    """Return text broken into lines of at most ``width``, never between a number and its unit."""
    lines = textwrap.wrap(
        glued(plain(text)),
        width,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent if hang is None else hang),
        break_on_hyphens=False,
    )
    return [line.replace(NBSP, " ") for line in lines]


def cells_wide(text: str) -> int:
    """Return how many character cells a text takes on a terminal: wide characters take two, combining marks none."""
    wide = sum(2 if unicodedata.east_asian_width(character) in "WF" else 1 for character in text)
    return wide - sum(1 for character in text if unicodedata.combining(character))


def _laid(columns: Sequence[Column], width: int) -> list[Column]:
    taken = sum(column.width for column in columns) + GAP * (len(columns) - 1) + INDENT
    return [Column(column.head, column.align, column.width or max(width - taken, 1)) for column in columns]


def _on_the_point(cells: Sequence[str], column: Column) -> list[str]:
    if column.align is not Align.POINT:
        return list(cells)
    found = [len(match.group(1) or "") if (match := _NUMBER.fullmatch(cell)) else None for cell in cells]
    most = max((after for after in found if after is not None), default=0)
    return [cell if after is None else cell + " " * (most - after) for cell, after in zip(cells, found, strict=True)]


def _row(cells: Sequence[str], columns: Sequence[Column]) -> list[str]:
    parts = [
        wrapped(cell, column.width) or [""] if column.align is Align.LEFT else [cell]
        for cell, column in zip(cells, columns, strict=True)
    ]
    lines = []
    for at in range(max(len(part) for part in parts)):
        line = [
            _pad(part[at] if at < len(part) else "", column, column.align)
            for part, column in zip(parts, columns, strict=True)
        ]
        lines.append((" " * INDENT + (" " * GAP).join(line)).rstrip())
    return lines


def _pad(text: str, column: Column, align: Align) -> str:
    space = " " * max(column.width - cells_wide(text), 0)
    return text + space if align is Align.LEFT else space + text
