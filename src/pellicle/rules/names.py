"""Names of dried meat that once stood for a moisture to protein ratio, as dated rows."""

from __future__ import annotations

from datetime import date

from pellicle.rules.limits import Limit, in_force, limits


def name_row(name_class: str, jurisdiction: str) -> Limit | None:
    """Return the row on moisture to protein of a name, whatever its dates, or None where the name has none.

    The longest name that stands in ``name_class`` counts, so that "kippered beef" is found in "Kippered beef, pepper".

    >>> name_row("Turkey jerky", "us").limit
    0.75
    """
    said, code = name_class.strip().lower(), jurisdiction.strip().lower()
    ratios = (row for row in limits() if row.topic == "mpr" and row.judged and row.jurisdiction == code)
    return max((row for row in ratios if row.product in said), key=lambda row: len(row.product), default=None)


def names_within(mpr: float, on: date, jurisdiction: str) -> tuple[Limit, ...]:
    """Return the rows in force whose name a product of this moisture to protein would have kept to, the driest first.

    >>> [row.product for row in names_within(1.6, date(2026, 1, 1), "us")]
    ['kippered beef', 'dried beef', 'chipped beef']
    """
    rows = (row for row in in_force(on, jurisdiction, "mpr") if row.judged and row.met_by(mpr))
    return tuple(sorted(rows, key=lambda row: row.limit or 0.0))


def mpr_of_name(name_class: str, jurisdiction: str, on: date) -> float | None:
    """Return the moisture to protein ratio that a name stands for on a day, or None.

    >>> mpr_of_name("jerky", "us", date(2025, 6, 30)), mpr_of_name("jerky", "us", date(2026, 1, 1))
    (0.75, None)
    """
    row = name_row(name_class, jurisdiction) if name_class else None
    return row.limit if row is not None and row.in_force(on) else None
