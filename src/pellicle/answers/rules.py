"""What ``rules`` answers: the limits in force on a day, with clause, source and what is yet to be verified."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pellicle.errors import InputError
from pellicle.rules.limits import Limit, in_force, limits
from pellicle.source import Source, cited


@dataclass(frozen=True, slots=True)
class RuleRow:
    """One limit as it is listed: ``limit`` in ``unit`` is what is compared, ``as_printed`` what the clause says.

    ``use`` is ``blocks``, ``informs`` or ``listed``; ``since`` and ``until`` are dates as text, empty where open.
    """

    id: str
    jurisdiction: str
    topic: str
    product: str
    agent: str
    basis: str
    counted_as: str
    bound: str
    limit: float | None
    unit: str
    use: str
    condition: str
    since: str
    until: str
    clause: str
    as_printed: str
    note: str
    to_verify: bool
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RulesAnswer:
    """The rows that stand on a day, in the order of the table, and the sources they rest on."""

    on: str
    jurisdiction: str
    rows: tuple[RuleRow, ...]
    sources: tuple[Source, ...]


def rules_answer(on: date, jurisdiction: str | None = None) -> RulesAnswer:
    """Return the rows in force on a day, for one jurisdiction (with those that hold anywhere) or for all.

    InputError for a jurisdiction of which the table has no row.

    >>> [row.limit for row in rules_answer(date(2026, 1, 1), "codex").rows if row.use == "blocks"]
    [80.0]
    """
    if jurisdiction is not None:
        codes = sorted({row.jurisdiction for row in limits()} - {"any"})
        if jurisdiction.strip().lower() not in codes:
            raise InputError("rules.no_rows", field="--jurisdiction", read=jurisdiction, known=", ".join(codes))
    found = in_force(on, jurisdiction)
    keys = [key for row in found for key in row.sources]
    return RulesAnswer(on.isoformat(), jurisdiction or "", tuple(_listed(row) for row in found), cited(keys))


def _listed(row: Limit) -> RuleRow:
    return RuleRow(
        id=row.id,
        jurisdiction=row.jurisdiction,
        topic=row.topic,
        product=row.product,
        agent=row.agent,
        basis=row.basis.value,
        counted_as=row.counted_as,
        bound=row.bound.value,
        limit=row.limit,
        unit=row.unit,
        use=row.use.value,
        condition=row.condition,
        since=row.since.isoformat() if row.since is not None else "",
        until=row.until.isoformat() if row.until is not None else "",
        clause=row.clause,
        as_printed=row.as_printed,
        note=row.note,
        to_verify=row.to_verify,
        sources=row.sources,
    )
