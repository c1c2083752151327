"""Backup and restore: whole, made while people work, checked, and never over something that cannot be had back."""

from __future__ import annotations

import json
import sqlite3
import zipfile
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest
from django.db import connections

from invented_plant import client
from pellicle.errors import InputError, PellicleError
from pellicle.message import message
from pellicle.plant.audit.chain import By, append
from pellicle.plant.audit.models import Entry
from pellicle.plant.audit.tell import told
from pellicle.plant.audit.verify import verify_here
from pellicle.plant.folder import Folder
from pellicle.plant.keep.backup import backup
from pellicle.plant.keep.restore import restore
from pellicle.plant.people.models import Person
from pellicle.plant.roles.table import Role
from pellicle.plant.start.lock import held

NOTE = message("plant_audit.signed_out", who="Olga")


def rewritten(path: Path, change: dict[str, object], database: bytes | None = None) -> Path:
    """Return a copy of a backup whose manifest says something else."""
    other = path.with_name("other.zip")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(other, "w") as target:
        manifest = {**json.loads(source.read("manifest.json")), **change}
        target.writestr("manifest.json", json.dumps(manifest))
        target.writestr("plant.sqlite3", source.read("plant.sqlite3") if database is None else database)
    return other


def test_a_backup_holds_the_head_of_the_audit_and_is_told(plant: Folder, tmp_path: Path):
    before = verify_here()
    kept = backup(plant, tmp_path / "plant.zip")

    assert (kept.manifest.entries, kept.manifest.head) == (before.entries, before.head)
    assert Entry.objects.first().sentence.startswith("A backup of 7 entries was written to plant.zip")  # type: ignore[union-attr]
    assert (tmp_path / "plant.zip").stat().st_mode & 0o077 == 0
    assert [path.name for path in tmp_path.iterdir()] == ["plant.zip"]
    assert "made within the last day" in client(Role.OWNER).get("/").content.decode()


def test_what_is_restored_is_what_was_kept(plant: Folder, tmp_path: Path):
    backup(plant, tmp_path / "plant.zip")
    Person.objects.filter(name="Max").update(name="Moritz")

    done = restore(plant, tmp_path / "plant.zip")

    assert Person.objects.filter(name="Max").exists()
    assert verify_here().whole
    assert "The data were replaced by the backup plant.zip" in Entry.objects.first().sentence  # type: ignore[union-attr]
    assert done.replaced is not None
    with closing(sqlite3.connect(done.replaced / "plant.sqlite3")) as old:
        assert old.execute("SELECT count(*) FROM person WHERE name = 'Moritz'").fetchone() == (1,)


def test_a_backup_goes_into_a_new_folder_too(plant: Folder, tmp_path: Path):
    backup(plant, tmp_path / "plant.zip")
    connections.close_all()
    plant.database.unlink()
    assert restore(plant, tmp_path / "plant.zip").replaced is None
    assert verify_here().whole


def test_a_backup_made_while_people_work_is_whole(plant: Folder, tmp_path: Path):
    def work(number: int) -> None:
        for _ in range(15):
            append(NOTE, By(f"worker {number}"))
        connections.close_all()

    with ThreadPoolExecutor(4) as pool:
        running = [pool.submit(work, number) for number in range(4)]
        kept = backup(plant, tmp_path / "plant.zip")
        for one in running:
            one.result()

    restore(plant, tmp_path / "plant.zip")
    assert verify_here().entries == kept.manifest.entries + 1


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"migrations": ["audit.0001_initial", "audit.0999_later"], "version": "9.1"}, "made by Pellicle 9.1"),
        ({"sha256": "0" * 64}, "damaged"),
        ({"head": "0" * 64}, "damaged"),
        ({"entries": 3}, "damaged"),
        ({"format": 2}, "format 2"),
        ({"unknown": 1}, "no backup of Pellicle"),
    ],
)
def test_what_does_not_fit_is_refused_and_nothing_is_touched(
    plant: Folder, tmp_path: Path, change: dict[str, object], why: str
):
    backup(plant, tmp_path / "plant.zip")
    before = verify_here()
    with pytest.raises(InputError, match=why) as error:
        restore(plant, rewritten(tmp_path / "plant.zip", change))
    assert "Nothing was changed" in str(error.value) or "format" in str(error.value)
    assert verify_here() == before
    assert not plant.replaced.exists() or not any(plant.replaced.glob("*/other*"))


def test_a_file_that_is_no_backup_is_refused(plant: Folder, tmp_path: Path):
    note = tmp_path / "note.txt"
    note.write_text("milk, bread")
    with pytest.raises(InputError, match="no backup of Pellicle"):
        restore(plant, note)
    with pytest.raises(InputError, match="there is no file"):
        restore(plant, tmp_path / "gone.zip")


def test_a_backup_whose_audit_was_changed_is_refused(plant: Folder, tmp_path: Path):
    backup(plant, tmp_path / "plant.zip")
    copy = tmp_path / "copy.sqlite3"
    with zipfile.ZipFile(tmp_path / "plant.zip") as archive:
        copy.write_bytes(archive.read("plant.sqlite3"))
    with closing(sqlite3.connect(copy)) as raw:
        raw.execute("DROP TRIGGER audit_entry_stays_so")
        raw.execute("UPDATE audit_entry SET text = 'x' WHERE seq = 3")
        raw.commit()
    from pellicle.plant.keep.archive import checksum

    other = rewritten(tmp_path / "plant.zip", {"sha256": checksum(copy)}, copy.read_bytes())
    with pytest.raises(InputError, match="broken at entry 3"):
        restore(plant, other)


def test_no_restore_under_a_running_server(plant: Folder, tmp_path: Path):
    backup(plant, tmp_path / "plant.zip")
    with held(plant.serving), pytest.raises(PellicleError, match="End it first"):
        restore(plant, tmp_path / "plant.zip")


def test_a_backup_that_cannot_be_written_is_one_sentence(plant: Folder, tmp_path: Path):
    with pytest.raises(InputError, match="there is no folder"):
        backup(plant, tmp_path / "gone" / "plant.zip")
    (tmp_path / "taken").mkdir()
    with pytest.raises(InputError, match="cannot be written"):
        backup(plant, tmp_path / "taken")


def test_a_printed_head_is_found_in_the_chain(plant: Folder):
    entry = Entry.objects.get(seq=4)
    sentences, well = told(entry.short_hash.upper())
    assert well
    assert "is entry 4 of it" in sentences[1]
    sentences, well = told("0123 4567")
    assert not well
    assert "is not in this audit" in sentences[1]
    with pytest.raises(InputError, match="four or more of the digits"):
        told("xyz")
