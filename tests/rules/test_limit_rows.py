"""The table of limits: dates, comparison, selection, and rows that cannot be right."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.errors import DataError
from pellicle.rules import limits as module
from pellicle.rules.limits import Basis, Use, by_id, in_force, jurisdictions, limits, select, within
from pellicle.table import read_rows

HEAD = (
    "id,jurisdiction,topic,product,agent,basis,counted_as,bound,limit,unit,use,condition,from,until,clause,as_printed,"
    "source,locator,note,checked\n"
)


@pytest.mark.parametrize("row", limits(), ids=lambda row: row.id)
def test_every_row_can_be_applied_or_is_only_listed(row) -> None:
    assert row.limit is not None or row.use is Use.LISTED
    assert row.clause
    assert row.as_printed
    assert row.unit or row.topic in ("aw", "mpr") or row.limit is None
    assert row.since is None or row.until is None or row.since <= row.until
    assert row.jurisdiction == row.jurisdiction.lower()


@pytest.mark.parametrize("row", [row for row in limits() if row.to_verify], ids=lambda row: row.id)
def test_a_row_from_memory_was_never_checked_and_blocks_only_where_it_keeps_nitrite_or_nitrate_down(row) -> None:
    assert row.checked == "no"
    assert row.use is not Use.BLOCKS or (row.agent in ("nitrite", "nitrate") and row.basis is Basis.INGOING)


def test_no_two_judged_rows_speak_of_the_same_thing_on_the_same_day() -> None:
    days = {row.since for row in limits() if row.since} | {row.until + timedelta(1) for row in limits() if row.until}
    for day in (*days, date(2000, 1, 1), date(2030, 1, 1)):
        said = [
            (row.jurisdiction, row.topic, row.product, row.agent, row.basis, row.bound, row.condition)
            for row in in_force(day)
            if row.judged
        ]
        assert len(said) == len(set(said))


def test_the_day_a_rule_ends_still_counts_and_the_next_does_not() -> None:
    row = by_id("us-mpr-jerky")
    assert row.in_force(date(2025, 12, 31))
    assert not row.in_force(date(2026, 1, 1))


def test_the_european_rows_change_over_without_a_gap_or_an_overlap() -> None:
    old, new = by_id("eu-nitrite-added-2011"), by_id("eu-nitrite-added-2025")
    assert old.until + timedelta(1) == new.since == date(2025, 10, 9)


@given(st.floats(0.01, 1e4), st.floats(1e-8, 1.0))
def test_over_by_more_than_noise_is_over(limit: float, share: float) -> None:
    assert not within(limit * (1 + share), limit)
    assert not within(limit * (1 - share), limit, "at least")


@given(st.integers(1, 4000), st.integers(1, 5000))
def test_a_value_exactly_at_its_limit_on_paper_is_met(quarter_ounces: int, pounds: int) -> None:
    """Whole quarter ounces in whole pounds, summed in kilograms: the fraction is exact on paper, not in binary."""
    cure_kg, meat_kg = quarter_ounces * 0.45359237 / 64, pounds * 0.45359237
    assert within(cure_kg * 0.0625 * 1e6 / meat_kg, quarter_ounces * 62500 / (64 * pounds))


def test_a_limit_of_nothing_allows_nothing() -> None:
    assert within(0.0, 0.0)
    assert not within(1e-12, 0.0)


def test_selection_takes_the_first_product_that_has_a_row() -> None:
    found = select(date(2026, 1, 1), "ca", "cure", ("side bacon", "meat product"), ("nitrate",), Basis.INGOING)
    assert [row.id for row in found] == ["ca-nitrate"]


def test_listed_rows_are_never_selected() -> None:
    assert select(date(2026, 1, 1), "gb", "cure", ("meat product",), ("nitrite",)) == ()
    assert "gb" in jurisdictions()
    assert "gb" not in jurisdictions(judged=True)


def test_a_row_that_cannot_be_right_is_named() -> None:
    (row,) = read_rows(
        HEAD + "odd,us,cure,x,nitrite,by heart,NaNO2,at most,1,ppm,blocks,,,,c,p,own-arithmetic,,,no", "t"
    )
    with pytest.raises(DataError, match="odd"):
        module._limit(row)
