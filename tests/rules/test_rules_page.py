"""``docs/rules.md`` lists every row of the table, as the table has it."""

from __future__ import annotations

from everything import TOP
from pellicle.rules.limits import Limit, limits
from pellicle.rules.words import plain

PAGE = TOP / "docs" / "rules.md"
HEAD = (
    "| row | limit | counted on | dates | use | clause and print | source |",
    "|---|---|---|---|---|---|---|",
)


def line(row: Limit) -> str:
    """Return a row of the table as its line on the page; a failing test shows the line that is wanted."""
    what = " ".join(part for part in (row.product, row.agent) if part)
    figure = "" if row.limit is None else f"{row.bound.value} {plain(row.limit)} {row.unit}".strip()
    basis = row.basis.value + (f", as {row.counted_as.removeprefix('as ')}" if row.counted_as else "")
    basis += f"; {row.condition}" if row.condition else ""
    dates = " ".join(text for text in (row.since and f"from {row.since}", row.until and f"until {row.until}") if text)
    sources = ", ".join(row.sources) + (" (to be verified)" if row.to_verify else "")
    printed = f"{row.clause}: {row.as_printed}"
    return f"| `{row.id}` {what} | {figure} | {basis} | {dates} | {row.use.value} | {printed} | {sources} |"


def test_every_row_of_the_table_stands_on_the_page() -> None:
    told = PAGE.read_text("utf-8").splitlines()
    missing = [line(row) for row in limits() if line(row) not in told]
    assert not missing, "\n".join(missing)


def test_the_page_lists_no_row_that_the_table_does_not_have() -> None:
    told = [text for text in PAGE.read_text("utf-8").splitlines() if text.startswith("| `")]
    assert sorted(told) == sorted(line(row) for row in limits())
