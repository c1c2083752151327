"""Appending to the chain: text, hash and head, in the transaction of the change itself: neither is without the other.

An entry's text is its human sentence, a line break, and the facts as JSON. The hash is that of the hash before it and
exactly the text as stored, never of fields put together again.
"""

from __future__ import annotations

import hashlib
import json
import unicodedata
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from django.db import transaction

from pellicle.message import Message, say
from pellicle.plant.audit.models import Entry, Head

START = "0" * 64
FORMAT = 1


@dataclass(frozen=True, slots=True)
class By:
    """Who did it: a person of the plant, or the machine itself."""

    name: str
    person: int | None = None


def by(user: Any) -> By:
    """Return the person of a request."""
    return By(user.name, user.pk)


def append(told: Message, who: By, subject: str = "", at: datetime | None = None) -> Entry:
    """Add what was done to the end of the chain. The message id is the kind of entry, its values are the facts.

    Opens a transaction, or joins the one it is called in. SQLite has taken its write lock at the beginning of either
    (IMMEDIATE); PostgreSQL locks the head's row here. So no two appends see the same head.
    """
    moment = at or datetime.now(UTC)
    kind = told.id.partition(".")[2]
    facts = {
        "format": FORMAT,
        "at": moment.isoformat(timespec="microseconds"),
        "by": {"name": who.name, "person": who.person},
        "kind": kind,
        "subject": subject,
        "facts": dict(told.values),
    }
    with transaction.atomic():
        head = Head.objects.select_for_update().filter(pk=1).first() or Head(pk=1, seq=0, hash=START)
        text = canonical(say(told), facts)
        entry = Entry(seq=head.seq + 1, at=moment, kind=kind, subject=subject, text=text, hash=link(head.hash, text))
        entry.save(force_insert=True)
        head.seq, head.hash = entry.seq, entry.hash
        head.save()
    return entry


def canonical(sentence: str, facts: dict[str, Any]) -> str:
    """Return the text that is stored and hashed: one line for people, one line of JSON, both composed Unicode.

    >>> canonical("Ines signed in.", {"kind": "signed_in", "at": "2026-10-15"})
    'Ines signed in.\\n{"at":"2026-10-15","kind":"signed_in"}'
    """
    line = " ".join(sentence.split())
    data = json.dumps(facts, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return unicodedata.normalize("NFC", f"{line}\n{data}")


def link(previous: str, text: str) -> str:
    """Return the hash of an entry from the hash before it and its own text.

    >>> link(START, "Ines signed in.")[:12]  # as sha256sum gives it for 64 zeros and the text
    'e057badfed44'
    """
    return hashlib.sha256((previous + text).encode("utf-8")).hexdigest()
