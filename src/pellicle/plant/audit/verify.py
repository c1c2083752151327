"""Checking the chain from its first entry to its head, on the running database or on a copy of it."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from pellicle.message import Message, message
from pellicle.plant.audit.chain import START, link

Row = tuple[int, datetime, str, str, str, str]  # seq, at, kind, subject, text, hash


@dataclass(frozen=True, slots=True)
class Verified:
    """What checking a chain gave: how many entries, where it ends, and the first thing that is wrong, if any."""

    entries: int
    head: str
    fault: Message | None = None
    found: int | None = None  # the entry whose hash begins as asked

    @property
    def whole(self) -> bool:
        """Whether every entry follows from the one before it."""
        return self.fault is None


def verify(rows: Iterable[Row], head: tuple[int, str] | None, printed: str = "") -> Verified:
    """Check rows in their order against each other and against the head; ``printed`` is looked for on the way."""
    seq, previous, found = 0, START, None
    for row in rows:
        fault = _fault(seq, previous, row)
        if fault is not None:
            return Verified(seq, previous, fault, found)
        seq, previous = row[0], row[5]
        if printed and previous.startswith(printed):
            found = seq
    if head is None and seq == 0:
        return Verified(0, START, None, found)
    if head is None:
        return Verified(seq, previous, message("plant_audit.no_head", seq=seq), found)
    if head != (seq, previous):
        return Verified(seq, previous, message("plant_audit.cut_off", seq=seq, head=head[0]), found)
    return Verified(seq, previous, None, found)


def verify_here(printed: str = "") -> Verified:
    """Check the chain of the running plant."""
    from pellicle.plant.audit.models import Entry, Head

    rows = Entry.objects.order_by("seq").values_list("seq", "at", "kind", "subject", "text", "hash")
    return verify(rows.iterator(), Head.objects.values_list("seq", "hash").first(), printed)


def verify_copy(connection: sqlite3.Connection) -> Verified:
    """Check the chain in a copy of the database."""
    head = connection.execute("SELECT seq, hash FROM audit_head").fetchone()
    return verify(_rows(connection), head)


def _rows(connection: sqlite3.Connection) -> Iterator[Row]:
    query = "SELECT seq, at, kind, subject, text, hash FROM audit_entry ORDER BY seq"
    for seq, at, kind, subject, text, hash in connection.execute(query):
        yield seq, datetime.fromisoformat(at).replace(tzinfo=UTC), kind, subject, text, hash


def _fault(last: int, previous: str, row: Row) -> Message | None:
    seq, at, kind, subject, text, hash = row
    if seq != last + 1:
        return message("plant_audit.gap", wanted=last + 1, seq=seq)
    if hash != link(previous, text):
        return message("plant_audit.changed", seq=seq, sentence=text.partition("\n")[0][:120])
    try:
        facts = json.loads(text.partition("\n")[2])
        same = (datetime.fromisoformat(facts["at"]), facts["kind"], facts["subject"]) == (at, kind, subject)
    except (ValueError, KeyError, TypeError):
        same = False
    return None if same else message("plant_audit.copies_differ", seq=seq)
