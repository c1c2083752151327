"""``pellicle run --pdf`` as another program meets it: one file, or none and a sentence."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from test_commands import EXAMPLES, PLAIN, pellicle

# each test starts the program anew
pytestmark = pytest.mark.slow

CABINET = EXAMPLES / "ridge-venison-strips.toml"


def test_a_run_is_written_whole_and_said_where(tmp_path: Path):
    file = tmp_path / "run.pdf"

    done = pellicle("run", str(CABINET), "--pdf", str(file), "--paper", "a4", "--on", "2026-11-25")

    assert done.returncode == 1  # some checks are not met
    assert done.stdout.splitlines()[-1] == f"Sheet: {file}"
    assert file.read_bytes().startswith(b"%PDF-")
    assert [found.name for found in tmp_path.iterdir()] == ["run.pdf"]


def test_with_json_nothing_else_is_printed(tmp_path: Path):
    done = pellicle("run", str(CABINET), "--pdf", str(tmp_path / "run.pdf"), "--json")

    found = json.loads(done.stdout)
    assert found["pull_lightest_kg"] == min(found["pull_kg"], found["pull_kg_without_run"])
    assert [step["name"] for step in found["schedule"]] == ["dry"]
    assert (tmp_path / "run.pdf").exists()


def test_over_the_cure_limit_no_paper_is_written(tmp_path: Path):
    path = tmp_path / "strips.toml"
    path.write_text(PLAIN.read_text().replace("150 ppm nitrite of raw", "0.4 % of raw"))

    done = pellicle("run", str(path), "--pdf", str(tmp_path / "run.pdf"))

    assert done.returncode == 1
    assert done.stdout.splitlines()[-1] == "No sheet was written: a cure limit is exceeded."
    assert [found.name for found in tmp_path.iterdir()] == ["strips.toml"]


def test_an_unknown_paper_is_refused(tmp_path: Path):
    done = pellicle("run", str(PLAIN), "--pdf", str(tmp_path / "run.pdf"), "--paper", "legal")

    assert (done.returncode, done.stdout) == (2, "")
    assert "--paper is legal; allowed are letter, a4." in done.stderr
    assert list(tmp_path.iterdir()) == []
