"""House rules for the register of sources."""

from __future__ import annotations

import re

import pytest

from everything import strings, tables
from pellicle.source import Known, cited, sources
from pellicle.table import keys, rows

USED = strings() | {key for path in tables() for row in rows(path) for key in keys(row)}


@pytest.mark.parametrize("key", sorted(sources()))
def test_every_source_is_used_somewhere(key: str) -> None:
    assert key in USED


@pytest.mark.parametrize("key", sorted(sources()))
def test_every_source_can_be_looked_up(key: str) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", key)
    assert len(sources()[key].title) > 10


def test_what_is_known_from_memory_is_to_be_verified() -> None:
    for source in sources().values():
        assert source.to_verify == (source.known in {Known.MEMORY, Known.PRACTICE})


def test_cited_gives_each_source_once_in_order() -> None:
    found = cited(["usda-sr28", "own-arithmetic", "usda-sr28"])
    assert [source.key for source in found] == ["own-arithmetic", "usda-sr28"]


def test_an_unregistered_source_cannot_be_cited() -> None:
    with pytest.raises(KeyError):
        cited(["a-rumour"])
