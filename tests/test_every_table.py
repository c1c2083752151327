"""House rules for every data table: provenance on every row, cells where they belong, numbers that are numbers."""

from __future__ import annotations

import csv
import math
import re
from datetime import date

import pytest

from everything import PACKAGE, tables
from pellicle.source import sources
from pellicle.table import PROVENANCE, keys, rows

EVERY = tables()


def columns(path: str) -> dict[str, list[str]]:
    """Return the filled cells of each column that is neither provenance nor a unit."""
    names = [name for name in rows(path)[0] if name not in {*PROVENANCE, "unit"}]
    return {name: [row[name] for row in rows(path) if row[name]] for name in names}


def as_number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


def test_there_are_tables_to_check() -> None:
    assert "parameters.csv" in EVERY


@pytest.mark.parametrize("path", EVERY)
def test_every_row_has_a_cell_for_every_column(path: str) -> None:
    """A comma too many shifts every later cell, and a shifted cell may still look like data."""
    lines = [
        line for line in (PACKAGE / path).read_text("utf-8").splitlines() if line.strip() and not line.startswith("#")
    ]
    header, *body = csv.reader(lines)
    assert body
    assert not [row for row in body if len(row) != len(header)]


@pytest.mark.parametrize("path", EVERY)
def test_every_row_names_registered_sources(path: str) -> None:
    unknown = {key for row in rows(path) for key in keys(row)} - set(sources())
    assert not unknown
    assert not [row for row in rows(path) if not keys(row)]


@pytest.mark.parametrize("path", EVERY)
def test_checked_is_a_date_or_no(path: str) -> None:
    for row in rows(path):
        text = row["checked"]
        assert text == "no" or (re.fullmatch(r"\d{4}-\d\d-\d\d", text) and date.fromisoformat(text)), dict(row)


@pytest.mark.parametrize("path", EVERY)
def test_a_column_of_numbers_holds_nothing_else(path: str) -> None:
    """A column counts as one of numbers when more than half of its filled cells are."""
    for name, cells in columns(path).items():
        numbers = [as_number(cell) for cell in cells]
        if sum(number is not None for number in numbers) * 2 > len(cells):
            odd = [
                cell for cell, number in zip(cells, numbers, strict=True) if number is None or not math.isfinite(number)
            ]
            assert not odd, f"{name}: {odd}"


@pytest.mark.parametrize("path", EVERY)
def test_no_row_stands_twice(path: str) -> None:
    seen = [tuple(row.values()) for row in rows(path)]
    assert len(seen) == len(set(seen))
