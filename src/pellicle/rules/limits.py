"""Published limits as dated rows: which stand on a day, in a jurisdiction, for a product and an agent.

The rows are data (``data/limits.csv``). A row is judged only where its ``use`` says so: ``blocks`` stops a release
where it is not met, ``informs`` never does, ``listed`` is shown and not applied. Values are compared unrounded.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cache

from pellicle.errors import DataError
from pellicle.source import Known, sources
from pellicle.table import Row, keys, number, rows

TABLE = "rules/data/limits.csv"

# Binary fractions lose about one part in 10^16 at each step of a sum; a value that stands exactly at its limit on
# paper may come out above it by that. A part in 10^9 is far above such noise and far below anything a scale or a
# laboratory resolves: 200.0001 against 200 is over.
FLOAT_NOISE = 1e-9  # own-arithmetic


class Use(StrEnum):
    """What a row is for: it stops a release, it informs, or it is only listed."""

    BLOCKS = "blocks"
    INFORMS = "informs"
    LISTED = "listed"


class Bound(StrEnum):
    """Which side of the limit a value has to be on; reaching the limit exactly meets it."""

    AT_MOST = "at most"
    AT_LEAST = "at least"


class Basis(StrEnum):
    """What a limit is counted on: the agent put in per green weight, or what an analysis finds in the product."""

    INGOING = "ingoing"
    FINISHED = "finished"
    RESIDUAL = "residual"
    COMBINED = "combined residual"
    PRODUCT = "of product"
    STATE = "product"
    PROCESS = "process"
    SHARE = "share of the accelerator"


@dataclass(frozen=True, slots=True)
class Limit:
    """One published limit: whose, on what, how counted, how much, from when until when, and where it is written.

    ``limit`` is in ``unit`` (None: the row states a duty without a figure); ``counted_as`` names the substance it is
    written in; ``since`` and ``until`` are inclusive, None is open; ``as_printed`` is what the clause itself says.
    """

    id: str
    jurisdiction: str
    topic: str
    product: str
    agent: str
    basis: Basis
    counted_as: str
    bound: Bound
    limit: float | None
    unit: str
    use: Use
    condition: str
    since: date | None
    until: date | None
    clause: str
    as_printed: str
    sources: tuple[str, ...]
    locator: str
    note: str
    checked: str

    @property
    def to_verify(self) -> bool:
        """True where the figure rests on memory, so that it is yet to be verified."""
        return any(sources()[key].known is Known.MEMORY for key in self.sources)

    @property
    def judged(self) -> bool:
        """True where checks apply the row."""
        return self.use is not Use.LISTED

    def in_force(self, on: date) -> bool:
        """Tell whether the row stands on a day; its first and last day count.

        >>> [row.in_force(date(2025, 10, 9)) for row in limits() if row.id.startswith("eu-nitrite-added")]
        [False, True]
        """
        return (self.since is None or self.since <= on) and (self.until is None or on <= self.until)

    def met_by(self, value: float) -> bool:
        """Tell whether an unrounded value meets the limit; ValueError if the row has no figure."""
        if self.limit is None:
            raise ValueError(f"{self.id} has no figure")
        return within(value, self.limit, self.bound)


def within(value: float, limit: float, bound: str = Bound.AT_MOST) -> bool:
    """Tell whether a value meets a limit, unrounded but for the noise of binary fractions (one part in 10^9).

    >>> within(200.0001, 200), within(0.1 + 0.2, 0.3), within(119.99, 120, Bound.AT_LEAST)
    (False, True, False)
    """
    slack = FLOAT_NOISE * abs(limit)
    return value >= limit - slack if bound == Bound.AT_LEAST else value <= limit + slack


@cache
def limits() -> tuple[Limit, ...]:
    """Return every row of the table, in its order; DataError if a row cannot be right."""
    found = tuple(_limit(row) for row in rows(TABLE))
    for earlier, row in enumerate(found):
        if any(other.id == row.id for other in found[:earlier]):
            raise DataError("rules.table_twice", row=row.id)
    return found


def by_id(id: str) -> Limit:
    """Return one row; KeyError if there is none.

    >>> by_id("us-nitrite-comminuted").limit
    156.25
    """
    for row in limits():
        if row.id == id:
            return row
    raise KeyError(id)


def in_force(on: date, jurisdiction: str | None = None, topic: str | None = None) -> tuple[Limit, ...]:
    """Return the rows that stand on a day, in one jurisdiction or all, on one topic or all."""
    return tuple(
        row
        for row in limits()
        if row.in_force(on)
        and (jurisdiction is None or row.jurisdiction in (jurisdiction.strip().lower(), "any"))
        and (topic is None or row.topic == topic)
    )


def select(
    on: date, jurisdiction: str, topic: str, products: Iterable[str], agents: Iterable[str], basis: Basis | None = None
) -> tuple[Limit, ...]:
    """Return the judged rows for the first of ``products`` that has any for one of ``agents``.

    >>> [row.limit for row in select(date(2026, 1, 1), "us", "cure", ["dry-rubbed"], ["nitrite"])]
    [625.0]
    """
    names = tuple(agents)
    for product in products:
        found = tuple(
            row
            for row in in_force(on, jurisdiction, topic)
            if row.judged and row.product == product and row.agent in names and (basis is None or row.basis is basis)
        )
        if found:
            return found
    return ()


def jurisdictions(judged: bool = False) -> tuple[str, ...]:
    """Return the jurisdictions that have rows on cure, or only those in which such rows are judged.

    >>> jurisdictions(judged=True)
    ('ca', 'codex', 'eu', 'us')
    """
    return tuple(sorted({row.jurisdiction for row in limits() if row.topic == "cure" and (row.judged or not judged)}))


def _limit(row: Row) -> Limit:
    try:
        return Limit(
            id=row["id"],
            jurisdiction=row["jurisdiction"],
            topic=row["topic"],
            product=row["product"],
            agent=row["agent"],
            basis=Basis(row["basis"]),
            counted_as=row["counted_as"],
            bound=Bound(row["bound"] or Bound.AT_MOST),
            limit=number(row, "limit") if row["limit"] else None,
            unit=row["unit"],
            use=Use(row["use"]),
            condition=row["condition"],
            since=_day(row["from"]),
            until=_day(row["until"]),
            clause=row["clause"],
            as_printed=row["as_printed"],
            sources=keys(row),
            locator=row["locator"],
            note=row["note"],
            checked=row["checked"],
        )
    except ValueError as wrong:
        raise DataError("rules.table_row", row=row["id"], problem=str(wrong)) from wrong


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None
