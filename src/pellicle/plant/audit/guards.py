"""Triggers in the database itself: an entry is never changed or removed, whoever asks, and the head only moves on.

Rebuilding a table drops them, so they are put back after every migration and looked for at every start.
"""

from __future__ import annotations

from django.db.backends.base.base import BaseDatabaseWrapper

GUARDS = {
    "audit_entry_stays": (
        "CREATE TRIGGER audit_entry_stays BEFORE DELETE ON audit_entry "
        "BEGIN SELECT RAISE(ABORT, 'an audit entry is never removed'); END"
    ),
    "audit_entry_stays_so": (
        "CREATE TRIGGER audit_entry_stays_so BEFORE UPDATE ON audit_entry "
        "BEGIN SELECT RAISE(ABORT, 'an audit entry is never changed'); END"
    ),
    "audit_entry_comes_last": (
        "CREATE TRIGGER audit_entry_comes_last BEFORE INSERT ON audit_entry "
        "WHEN NEW.seq <> COALESCE((SELECT MAX(seq) FROM audit_entry), 0) + 1 "
        "BEGIN SELECT RAISE(ABORT, 'an audit entry comes last'); END"
    ),
    "audit_head_stays": (
        "CREATE TRIGGER audit_head_stays BEFORE DELETE ON audit_head "
        "BEGIN SELECT RAISE(ABORT, 'the head of the audit is never removed'); END"
    ),
    "audit_head_moves_on": (
        "CREATE TRIGGER audit_head_moves_on BEFORE UPDATE ON audit_head WHEN NEW.seq <> OLD.seq + 1 "
        "BEGIN SELECT RAISE(ABORT, 'the head of the audit only moves on'); END"
    ),
}


def missing(connection: BaseDatabaseWrapper) -> tuple[str, ...]:
    """Return the names of guards that are not there, or not as written here; none where the tables are not there."""
    if not {"audit_entry", "audit_head"} <= set(connection.introspection.table_names()):
        return ()
    with connection.cursor() as cursor:
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        there = dict(cursor.fetchall())
    return tuple(name for name, sql in GUARDS.items() if there.get(name) != sql)


def install(connection: BaseDatabaseWrapper) -> tuple[str, ...]:
    """Put every missing guard in its place and return which were missing."""
    gone = missing(connection)
    with connection.cursor() as cursor:
        for name in gone:
            cursor.execute(f"DROP TRIGGER IF EXISTS {name}")
            cursor.execute(GUARDS[name])
    return gone
