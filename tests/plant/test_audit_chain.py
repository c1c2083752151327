"""The chain: what is appended stays, as it was written, and a break is found where it is."""

from __future__ import annotations

import hashlib
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing

import pytest
from django.core.management.sql import emit_post_migrate_signal
from django.db import connection, connections, transaction
from django.db.models import CharField, TextField
from django.db.utils import IntegrityError

from invented_plant import person
from pellicle.message import message
from pellicle.plant.audit.chain import By, append
from pellicle.plant.audit.guards import GUARDS, missing
from pellicle.plant.audit.models import Entry, Head
from pellicle.plant.audit.verify import verify_here
from pellicle.plant.folder import Folder
from pellicle.plant.roles.table import Role
from pellicle.plant.start.migrate import migrate

NOTE = message("plant_audit.signed_out", who="Inés")


def spoil(folder: Folder, *statements: str) -> None:
    """Change the database as somebody with a database tool and no scruples would."""
    connections.close_all()
    with closing(sqlite3.connect(folder.database)) as raw:
        for name in GUARDS:
            raw.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            raw.execute(statement)
        raw.commit()


def test_an_entry_is_a_sentence_and_its_facts_and_their_hash(new_plant: Folder):
    first = append(NOTE, By("Inés", 7), "person:7")
    second = append(NOTE, By("Inés", 7))

    sentence, facts = first.text.split("\n")
    assert sentence == "Inés signed out."
    assert '"by":{"name":"Inés","person":7}' in facts
    assert first.hash == hashlib.sha256(("0" * 64 + first.text).encode()).hexdigest()
    assert second.hash == hashlib.sha256((first.hash + second.text).encode()).hexdigest()


def test_the_chain_of_a_plant_is_whole(plant: Folder):
    found = verify_here()
    assert found.whole
    assert found.entries == Entry.objects.count() == 7
    assert found.head == Head.objects.get().hash


def test_a_change_that_is_not_kept_is_not_told(plant: Folder):
    before = Entry.objects.count()
    with transaction.atomic():
        append(NOTE, By("Olga"))
        transaction.set_rollback(True)
    assert Entry.objects.count() == before
    assert verify_here().whole


@pytest.mark.parametrize(
    "forbidden",
    [
        "UPDATE audit_entry SET text = 'x' WHERE seq = 2",
        "DELETE FROM audit_entry WHERE seq = 7",
        "INSERT INTO audit_entry (seq, at, kind, subject, text, hash) VALUES (99, '', '', '', '', '')",
        "UPDATE audit_head SET seq = 3",
        "DELETE FROM audit_head",
    ],
)
def test_the_database_itself_refuses_to_change_it(plant: Folder, forbidden: str):
    with pytest.raises(IntegrityError), connection.cursor() as cursor:
        cursor.execute(forbidden)
    assert verify_here().whole


def test_a_changed_text_is_found_at_its_entry(plant: Folder):
    spoil(plant, "UPDATE audit_entry SET text = replace(text, 'Lea', 'Leo') WHERE seq = 2")
    found = verify_here()
    assert "broken at entry 2" in str(found.fault)
    assert "Leo" in str(found.fault)


def test_an_entry_taken_out_is_found(plant: Folder):
    spoil(plant, "DELETE FROM audit_entry WHERE seq = 4")
    assert "entry 5 stands where entry 4 is wanted" in str(verify_here().fault)


def test_a_cut_end_is_found(plant: Folder):
    spoil(plant, "DELETE FROM audit_entry WHERE seq > 5")
    assert "stops at entry 5, and its head is entry 7" in str(verify_here().fault)


def test_a_changed_copy_beside_the_text_is_found(plant: Folder):
    spoil(plant, "UPDATE audit_entry SET subject = 'person:1' WHERE seq = 3")
    assert "broken at entry 3" in str(verify_here().fault)


def test_a_head_that_is_gone_is_found(plant: Folder):
    spoil(plant, "DELETE FROM audit_head")
    assert "no head" in str(verify_here().fault)


def test_guards_that_are_gone_are_put_back_at_the_start_and_reported(plant: Folder):
    spoil(plant)
    assert set(migrate(plant)) == set(GUARDS)
    assert missing(connection) == ()


def test_guards_are_back_after_a_migration_that_rebuilds_the_table(plant: Folder):
    """Django changes a column of SQLite by making the table anew, which drops its triggers without a word."""
    kind = Entry._meta.get_field("kind")
    assert isinstance(kind, CharField)
    wider = TextField()
    wider.set_attributes_from_name("kind")
    wider.model = Entry
    with connection.schema_editor() as editor:
        editor.alter_field(Entry, kind, wider)
    assert "audit_entry_stays" in missing(connection)

    emit_post_migrate_signal(verbosity=0, interactive=False, db="default")

    assert missing(connection) == ()
    assert verify_here().whole


def test_many_at_once_make_one_chain(plant: Folder):
    def work(number: int) -> None:
        for _ in range(10):
            append(NOTE, By(f"worker {number}"))
        connections.close_all()

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(work, range(8)))

    found = verify_here()
    assert found.whole
    assert found.entries == 7 + 80


def test_text_that_people_type_cannot_make_a_second_line(plant: Folder):
    entry = append(message("plant_audit.signed_out", who='Max\n{"at":"forged"}'), By("x"))
    assert entry.text.count("\n") == 1
    assert verify_here().whole


def test_everything_done_with_people_is_told_about_them(plant: Folder):
    told = Entry.objects.filter(subject=f"person:{person(Role.MAKER).pk}")
    assert [entry.sentence for entry in told] == ["Max changed their password.", "Olga added Max as maker."]
