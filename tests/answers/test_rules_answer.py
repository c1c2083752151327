"""``rules``: what stands on a day."""

from __future__ import annotations

from datetime import date

import pytest

from pellicle.answers.rules import rules_answer
from pellicle.errors import InputError


def ids(on: date, jurisdiction: str | None = None) -> set[str]:
    return {row.id for row in rules_answer(on, jurisdiction).rows}


def test_europe_changes_on_its_day() -> None:
    before, after = ids(date(2025, 10, 8), "eu"), ids(date(2025, 10, 9), "eu")
    assert "eu-nitrite-added-2011" in before - after
    assert "eu-nitrite-added-2025" in after - before


def test_without_a_jurisdiction_all_are_listed() -> None:
    everywhere = ids(date(2026, 1, 1))
    assert everywhere > ids(date(2026, 1, 1), "us")
    assert {"gb-nitrite-added", "br-combined", "anz-nitrite"} <= everywhere


def test_rows_from_memory_are_marked() -> None:
    marked = {row.id: row.to_verify for row in rules_answer(date(2026, 1, 1)).rows}
    assert marked["eu-nitrite-residual-2025"]
    assert not marked["codex-nitrite-residual"]


def test_an_unknown_jurisdiction_gets_the_list_of_known_ones() -> None:
    with pytest.raises(InputError, match="us") as refused:
        rules_answer(date(2026, 1, 1), "atlantis")
    assert refused.value.field == "--jurisdiction"
