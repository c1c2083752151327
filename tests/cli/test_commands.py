"""The command line as another program meets it: one document on stdout, sentences on stderr, exit statuses."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from subprocess import CompletedProcess, run

import pytest

# each test starts the program anew
pytestmark = pytest.mark.slow


EXAMPLES = Path(__file__).parents[2] / "examples"
PLAIN = EXAMPLES / "plain-pepper-strips.toml"


def pellicle(*words: str, cwd: Path | None = None) -> CompletedProcess[str]:
    return run([sys.executable, "-m", "pellicle", *words], capture_output=True, text=True, cwd=cwd)


def document(*words: str) -> dict:
    done = pellicle(*words, "--json")
    assert done.stderr == "" or done.stderr.startswith("Preparing the calculation")
    return json.loads(done.stdout)


def test_plan_prints_one_document_that_opens_with_its_schema():
    found = document("plan", str(PLAIN))

    assert next(iter(found)) == "schema"
    assert found["schema"] == "pellicle.plan/1"
    assert {"lines", "total_kg", "cure", "pull", "curve", "checks", "sources", "figures"} <= set(found)
    assert {"ingredient", "kg", "percent_of_raw"} <= set(found["lines"][0])
    assert {"ingoing_ppm", "basis", "method", "limit_ppm", "verdict"} <= set(found["cure"])
    assert {
        "aw", "confidence", "kg", "percent_of_raw", "percent_of_marinated", "low_kg", "high_kg", "batch_mean_aw",
    } <= set(found["pull"])  # fmt: skip
    assert {
        "kg", "percent_of_raw", "water_kg", "aw", "aw_low", "aw_high", "mpr", "salt_percent", "sugar_percent",
    } <= set(found["curve"][0])  # fmt: skip
    assert {"id", "verdict", "value", "limit", "why", "source"} <= set(found["checks"][0])


def test_every_figure_points_at_a_place_in_the_document():
    found = document("plan", str(PLAIN))

    for pointer, figure in found["figures"].items():
        place = found
        for name in pointer.strip("/").split("/"):
            place = place[int(name)] if isinstance(place, list) else place[name]
        assert place == pytest.approx(figure["value"])


def test_the_green_weight_can_be_given_in_pounds():
    found = document("plan", str(PLAIN), "--raw", "40 lb")

    assert found["lines"][0]["kg"] == pytest.approx(18.1436948)  # 40 lb of 0.45359237 kg
    assert found["pull"]["kg"] < 18


def test_a_broken_own_limit_ends_with_status_1(tmp_path: Path):
    path = tmp_path / "strips.toml"
    path.write_text(PLAIN.read_text().replace("at most 156 ppm", "at most 120 ppm"))

    done = pellicle("plan", str(path))

    assert done.returncode == 1
    assert "blocked by one limit" in " ".join(done.stdout.split())


def test_over_the_cure_limit_no_sheet_is_written(tmp_path: Path):
    path = tmp_path / "strips.toml"
    path.write_text(PLAIN.read_text().replace("150 ppm nitrite of raw", "0.4 % of raw"))

    done = pellicle("plan", str(path), "--pdf", str(tmp_path / "sheet.pdf"))

    assert done.returncode == 1
    assert not (tmp_path / "sheet.pdf").exists()
    assert "No sheet was written" in done.stdout
    assert "The most of curing salt for this batch is" in " ".join(done.stdout.split())


def test_bad_input_is_one_sentence_on_stderr_with_status_2(tmp_path: Path):
    path = tmp_path / "strips.toml"
    path.write_text(PLAIN.read_text().replace('"black pepper"', '"blak pepper"'))

    done = pellicle("plan", str(path), "--pdf", str(tmp_path / "sheet.pdf"))

    assert (done.returncode, done.stdout) == (2, "")
    assert "strips.toml, line" in done.stderr
    assert "black pepper" in done.stderr
    assert "Traceback" not in done.stderr
    assert sorted(found.name for found in tmp_path.iterdir()) == ["strips.toml"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["plan", "absent.toml"], "There is no file absent.toml"),
        (["plan", str(PLAIN), "--raw", "1,500 g"], "1,500"),
        (["plan", str(PLAIN), "--raw", "40"], "unit"),
        (["plan", str(PLAIN), "--raw", "40 lb", "--total", "50 lb"], "Give one of them"),
        (["plan", str(PLAIN), "--on", "tomorrow"], "Write year-month-day"),
        (["plan", str(PLAIN), "--pdf", "no/such/folder/sheet.pdf"], "cannot be written"),
        (["run", str(PLAIN), "--pieces", "1.5"], "--pieces reads `1.5`, which is not a whole number"),
        (["run", str(PLAIN), "--pieces", "-1"], "allowed is from 0 to 20000"),
        (["run", str(PLAIN), "--profile", "abc"], "--profile reads `abc`"),
        (["aw", "--water", "1 kg", "--solute", "slat=1 g"], "salt"),
        (["aw", "--water", "1 kg", "--solute", "salt"], "does not name a solute and a mass"),
        (["aw", "--water", "0 kg", "--solute", "salt=1 g"], "no water"),
        (["cure", "--method", "tumbled", "--meat", "100 lb", "--cure", "4 oz"], "never assumed"),
        (["cure", "--method", "tumbled", "--meat", "100 lb", "--cure", "4 oz", "--nitrite", "0.0625"], "6.25 %"),
        (["cure", "--method", "injected", "--meat", "100 lb", "--cure", "4 oz", "--nitrite", "6.25 %"], "pickle"),
        (["ingredients", "blak pepper"], "black pepper"),
    ],
)  # fmt: skip
def test_each_wrong_input_has_its_sentence(words: list[str], sentence: str):
    done = pellicle(*words)

    assert done.returncode == 2
    assert sentence in done.stderr
    assert done.stdout == ""


def test_aw_of_a_three_molal_brine_is_in_the_table():
    found = document("aw", "--water", "1 kg", "--protein", "0 kg", "--solute", "salt=0.17532 kg")

    # 3 mol/kg sodium chloride: 0.8932, Robinson and Stokes, Electrolyte Solutions, appendix (from memory)
    assert found["aw"] == pytest.approx(0.8932, abs=0.001)
    assert found["aw_low"] < found["aw"] < found["aw_high"]
    assert {"shares", "warnings", "sources"} <= set(found)


def test_the_chart_figure_of_4_ounces_is_found_on_the_command_line():
    found = document(
        "cure", "--method", "tumbled", "--meat", "100 lb", "--cure", "4 oz", "--nitrite", "6.25 %", "--on", "2026-11-25"
    )

    assert found["ingoing_ppm"] == pytest.approx(156.25)  # 0.25 lb x 0.0625 / 100 lb; common chart figure 156
    assert found["verdict"] == "met"


def test_run_prints_one_document_with_every_key_of_its_contract():
    found = document("run", str(PLAIN), "--pieces", "12")

    assert found["schema"] == "pellicle.run/1"
    assert {"name", "minutes", "ended_by"} <= set(found["steps"][0])
    assert {"hours", "kg", "percent_of_raw", "percent_of_marinated", "aw_mean"} <= set(found["end"])
    assert {"aw_surface", "core_c", "moisture_percent", "mpr"} <= set(found["end"])
    assert {"wet", "wet_lower", "local", "expected", "table", "target", "verdict"} <= set(
        found["lethality"]["salmonella"]
    )
    assert {"growth", "drip_percent_of_marinated", "checks", "spread", "sources", "flags", "history"} <= set(found)


def test_new_writes_a_file_that_plans_and_never_overwrites(tmp_path: Path):
    first = pellicle("new", "Willow Bend Strips", cwd=tmp_path)
    planned = pellicle("plan", "willow-bend-strips.toml", cwd=tmp_path)
    second = pellicle("new", "Willow Bend Strips", cwd=tmp_path)

    assert first.returncode == 0
    assert planned.stdout.startswith("Pull at ")
    assert second.returncode == 2
    assert "left as it is" in second.stderr


@pytest.mark.parametrize("words", [["ingredients", "salt"], ["rules"], ["sources"], ["--help"], ["plan", "--help"]])
def test_the_lists_and_help_print(words: list[str]):
    done = pellicle(*words)

    assert done.returncode == 0
    assert len(done.stdout.splitlines()) > 5


def test_the_sheet_is_a_pdf_of_one_or_two_pages(tmp_path: Path):
    done = pellicle("plan", str(PLAIN), "--pdf", str(tmp_path / "sheet.pdf"))

    content = (tmp_path / "sheet.pdf").read_bytes()
    assert done.returncode == 0
    assert content.startswith(b"%PDF-")
