"""Data tables: CSV beside the room that uses them, with provenance columns, read once.

Every table has the columns ``source`` (a key of ``sources.toml``, or several joined by ``;``), ``locator`` (page,
table, row), ``note`` and ``checked`` (the date it was compared with its source, or ``no``).
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from pellicle.errors import DataError

PROVENANCE = ("source", "locator", "note", "checked")

Row = Mapping[str, str]


@cache
def rows(path: str) -> tuple[Row, ...]:
    """Return the rows of a table in the package, such as ``food/data/solutes.csv``, each a mapping of column to text.

    Lines that begin with ``#`` are remarks. DataError if a provenance column is missing.
    """
    return read_rows((files("pellicle") / path).read_text("utf-8"), path)


def read_rows(text: str, path: str) -> tuple[Row, ...]:
    """Return the rows of a table given as text; ``path`` only names it in errors."""
    lines = [line for line in text.splitlines() if line.strip() and not line.startswith("#")]
    reader = csv.DictReader(lines)
    for column in PROVENANCE:
        if column not in (reader.fieldnames or ()):
            raise DataError("table.no_column", table=path, column=column)
    return tuple(MappingProxyType({name: (cell or "").strip() for name, cell in row.items()}) for row in reader)


def number(row: Row, column: str, empty: float | None = None) -> float:
    """Return a cell as a finite number; an empty cell gives ``empty`` where that is allowed, else DataError."""
    text = row[column]
    if text == "" and empty is not None:
        return empty
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise DataError("table.not_a_number", column=column, text=text, row=next(iter(row.values())))
    return value


def keys(row: Row) -> tuple[str, ...]:
    """Return the source keys of a row."""
    return tuple(key.strip() for key in row["source"].split(";") if key.strip())
