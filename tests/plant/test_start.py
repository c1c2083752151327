"""Starting: refusals of one sentence, and the program as a person starts it."""

from __future__ import annotations

import os
import re
import signal
import socket
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from django.db import connection

from pellicle.errors import InputError, PellicleError
from pellicle.plant.folder import Folder, chosen, make
from pellicle.plant.start import checks
from pellicle.plant.start.lock import LockedError, held
from pellicle.plant.start.migrate import migrate

PROGRAM = [sys.executable, "-m", "pellicle"]


def pellicle(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([*PROGRAM, *words], capture_output=True, text=True, timeout=60)


@contextmanager
def serving(folder: Path) -> Iterator[tuple[str, subprocess.Popen[str]]]:
    """Start the server on any free port and give its address; end it as Ctrl-C does."""
    command = [*PROGRAM, "serve", "--data", str(folder), "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stdout is not None
    try:
        found = re.search(r"http://\S+/", process.stdout.readline())
        assert found, process.communicate(timeout=10)
        yield found.group(), process
    finally:
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=20)


def test_the_folder_is_closed_to_others(tmp_path: Path):
    folder = Folder(tmp_path / "deep" / "plant")
    make(folder)
    assert stat.S_IMODE(folder.path.stat().st_mode) == 0o700
    assert stat.S_IMODE(folder.secret.stat().st_mode) == 0o600
    secret = folder.secret.read_text("utf-8")
    make(folder)
    assert folder.secret.read_text("utf-8") == secret


def test_the_usual_folder_is_this_systems_place_for_data(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    monkeypatch.delenv("PELLICLE_DATA")
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert chosen().path == tmp_path / "pellicle"


def test_a_lock_is_held_by_one(tmp_path: Path):
    with held(tmp_path / "lock"), pytest.raises(LockedError), held(tmp_path / "lock"):
        pass
    with held(tmp_path / "lock"):
        pass


def test_too_little_disk_is_refused_and_little_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    monkeypatch.setattr(checks, "LEAST_FREE_MB", 10**9)
    with pytest.raises(PellicleError, match="records need"):
        checks.check_disk(tmp_path)
    monkeypatch.setattr(checks, "LEAST_FREE_MB", 0)
    monkeypatch.setattr(checks, "LITTLE_FREE_MB", 10**9)
    assert "before the next batch" in str(checks.check_disk(tmp_path))
    monkeypatch.setattr(checks, "LITTLE_FREE_MB", 0)
    assert checks.check_disk(tmp_path) is None


def test_a_port_that_is_taken_is_refused_with_another_one():
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(InputError, match=f"Try --port {port + 1}"):
            checks.check_port("127.0.0.1", port)


def test_tables_of_a_newer_version_are_left_alone(plant: Folder):
    with connection.cursor() as cursor:
        cursor.execute(
            "INSERT INTO django_migrations (app, name, applied) VALUES ('audit', '0999_later', '2030-01-01')"
        )
    with pytest.raises(PellicleError, match="newer version"):
        migrate(plant)


def test_records_are_written_through_to_the_disk(plant: Folder):
    with connection.cursor() as cursor:
        for pragma, value in (("journal_mode", "wal"), ("synchronous", 2), ("foreign_keys", 1)):
            cursor.execute(f"PRAGMA {pragma}")
            assert cursor.fetchone() == (value,)


def test_the_network_waits_for_encryption(tmp_path: Path):
    done = pellicle("serve", "--lan", "--data", str(tmp_path / "plant"))
    assert done.returncode == 2
    assert "--lan is not built yet" in done.stderr
    assert "without encryption" in done.stderr
    assert not (tmp_path / "plant").exists()


@pytest.mark.parametrize("command", [["backup", "x.zip"], ["verify"]])
def test_where_there_are_no_data_it_says_so(tmp_path: Path, command: list[str]):
    done = pellicle(*command, "--data", str(tmp_path / "nothing"))
    assert done.returncode == 2
    assert "There are no data" in done.stderr


@pytest.mark.slow
def test_planning_never_loads_the_server():
    script = "import sys; from pellicle.cli import main\ntry: main()\nfinally: print('django' in sys.modules)"
    example = Path(__file__).parents[2] / "examples" / "plain-pepper-strips.toml"
    done = subprocess.run(
        [sys.executable, "-c", script, "plan", str(example), "--json"], capture_output=True, text=True
    )
    assert done.stdout.rstrip().endswith("False")


@pytest.mark.slow
def test_a_plant_from_its_first_start_to_its_end(tmp_path: Path):
    folder = tmp_path / "plant"
    with serving(folder) as (address, process):
        with urlopen(address) as page:
            assert page.url == f"{address}first-run/"
            assert "This plant is new" in page.read().decode()
        with pytest.raises(HTTPError) as missing:
            urlopen(f"{address}no-such-page/")
        assert missing.value.code == 404
        missing.value.close()

        second = pellicle("serve", "--data", str(folder), "--port", "0")
        assert second.returncode == 2
        assert "already serves" in second.stderr

        kept = pellicle("backup", str(tmp_path / "plant.zip"), "--data", str(folder))
        assert kept.returncode == 0, kept.stderr
        refused = pellicle("restore", str(tmp_path / "plant.zip"), "--data", str(folder))
        assert refused.returncode == 2
        assert "End it first" in refused.stderr
    assert process.returncode == 0
    assert sorted(oct(path.stat().st_mode & 0o077) for path in folder.iterdir()) == ["0o0"] * len(os.listdir(folder))

    restored = pellicle("restore", str(tmp_path / "plant.zip"), "--data", str(folder))
    assert restored.returncode == 0, restored.stderr
    assert "What it replaced is in" in restored.stdout
    checked = pellicle("verify", "--data", str(folder))
    assert checked.returncode == 0
    assert "The audit is whole: 1 entries" in checked.stdout


def test_a_backup_that_is_not_there_makes_no_folder(tmp_path: Path):
    done = pellicle("restore", str(tmp_path / "none.zip"), "--data", str(tmp_path / "plant"))

    assert done.returncode == 2
    assert "there is no file" in done.stderr
    assert not (tmp_path / "plant").exists()
