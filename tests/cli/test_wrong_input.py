"""Wrong input on the command line: one sentence that says what to do, status 2, and nothing printed or written."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from invented import PLAIN_FILE
from pellicle.cli.main import app, refusal
from pellicle.errors import PellicleError


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def refused(*words: str) -> str:
    """Run a command that has to refuse, and return its sentence."""
    before = {path: path.read_bytes() for path in Path().iterdir()}
    done = CliRunner().invoke(app, words)
    assert isinstance(done.exception, PellicleError), done.output
    assert done.stdout == ""
    assert {path: path.read_bytes() for path in Path().iterdir()} == before
    return refusal(done.exception)


@pytest.mark.parametrize(
    ("command", "content"),
    [
        ("run", b""),
        ("run", b"format = 1\n[product\n"),
        ("run", b'format = 1\n[product]\nname = "unclosed'),
        ("run", b"\x00\x01\x02"),
        ("run", b"\xff\xfe\x00"),
        ("run", b"format = 1\n"),
        ("lethality", b""),
        ("lethality", b"\x00\x01\x02"),
        ("lethality", b"some words\n"),
        ("lethality", b"dry bulb (C),core (C)\n70,40\n70,41\n"),
        ("lethality", b"time,core (C)\n9:05,9999\n9:06,OL\n"),
    ],
)
def test_the_file_is_named_once_in_what_is_wrong_with_it(here: Path, command: str, content: bytes) -> None:
    (here / "given.txt").write_bytes(content)

    assert refused(command, "given.txt").count("given.txt") == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("run", "absent.toml"), "There is no file absent.toml."),
        (("run", "."), ". is a folder."),
        (("lethality", "absent.csv"), "There is no log absent.csv."),
        (("lethality", "."), "The log . cannot be read: Is a directory."),
        (("lethality", "absent.csv", "--product", "absent.toml"), "There is no file absent.toml."),
    ],
)
def test_what_is_no_file_is_said(here: Path, words: tuple[str, ...], says: str) -> None:
    assert refused(*words).startswith(says)


LOG = "time (min),dry bulb (C),wet bulb (C),core (C)\n0,70,62,5\n30,70,62,58\n60,70,62,61\n"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--core", "pit"), "--core asks for the column pit, which the log does not have"),
        (("--core", "9"), "--core asks for the column 9, which the log does not have"),
        (
            ("--wet-bulb", "core (C)", "--core", "core (C)"),
            "--wet-bulb asks for the column core (C), which --core has already",
        ),
        (("--unit", "K"), "--unit is 'K'. Allowed are C, F"),
        (("--unit", "F"), "is in C by what the log itself says"),
        (("--species", "beff"), "Did you mean beef?"),
        (
            ("--altitude", "900"),
            "--altitude reads `900`, a number without a unit. Write the unit too, for example `1500 m`",
        ),
        (("--altitude", "9 km"), "more than the 5000 m"),
        (("--steam", "90"), "a number without a unit"),
        (("--steam", "90 h"), "--steam is 3 d 18 h, longer than the whole log (1 h)"),
        (("--sealed", "-5 min"), "nothing below zero makes sense"),
        (("--probe-error", "-1"), "--probe-error reads `-1`; allowed is from 0 to 10"),
        (("--probe-error", "nan"), "--probe-error reads `nan`, which is no finite number"),
        (("--probe-error", "much"), "--probe-error reads `much`"),
        (("--on", "2026-13-45"), "--on reads `2026-13-45`, which is not a date"),
    ],
)
def test_a_log_asked_wrongly(here: Path, words: tuple[str, ...], says: str) -> None:
    (here / "log.csv").write_text(LOG)

    assert says in refused("lethality", "log.csv", *words)


PRODUCT = f"""\
{PLAIN_FILE}[uptake]
taken_up = "100 %"
[piece]
thickness = "6 mm"
[[step]]
name = "dry"
dry_bulb = "70 C"
humidity = "20 %"
for = "2 h"
"""


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('for = "2 h"\n', "", "line 15: step[1] (dry) says nothing of when it ends"),
        (
            'for = "2 h"',
            'until_core = "2 C"',
            "line 19: step[1].until_core: the step dry waits for a core of 2.0 °C, and the pieces go in at 5.0 °C",
        ),
        (
            'for = "2 h"',
            "until_aw = 0.995",
            "line 19: step[1].until_aw: the end of the step dry (mean water activity 0.995)",
        ),
        ('for = "2 h"', "until_gap = 0.02", "step dry (water activity even to 0.020) is there before it begins"),
        (
            'for = "2 h"',
            'until_weight = "130 % of raw"',
            "is 130.0 % of raw (13.0 kg), not less than the 10.2 kg that goes in",
        ),
        ('for = "2 h"', 'until_weight = "44 kg"', "step[1].until_weight is 44.0 kg, not less than"),
        ('for = "2 h"', 'until_weight = "12 % of raw"', "less than the 2.93 kg that stays when all water has left"),
        ('raw = "10 kg"\n', "", "There is no weight of meat to work with"),
        ('thickness = "6 mm"\n', "", "piece.thickness is missing"),
    ],
)
def test_a_passage_that_cannot_be(here: Path, old: str, new: str, says: str) -> None:
    assert old in PRODUCT
    (here / "strips.toml").write_text(PRODUCT.replace(old, new))

    said = refused("run", "strips.toml", "--pdf", "strips.pdf").replace("\u00a0", " ")
    assert said.startswith("strips.toml, line ")
    assert says in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--pieces", "-1"), "--pieces reads `-1`; allowed is from 0 to 20000"),
        (("--pieces", "1.5"), "--pieces reads `1.5`, which is not a whole number"),
        (("--pieces", "1e9"), "--pieces reads `1e9`; allowed is from 0 to 20000"),
        (("--pieces", "many"), "--pieces reads `many`"),
        (("--raw", "-5 kg"), "--raw reads `-5 kg`, and nothing below zero makes sense"),
        (("--profile", "soon"), "--profile reads `soon`"),
        (("--profile", "50 h"), "past the end of this passage"),
        (("--on", "tomorrow"), "--on reads `tomorrow`, which is not a date"),
    ],
)
def test_a_passage_asked_wrongly(here: Path, words: tuple[str, ...], says: str) -> None:
    (here / "strips.toml").write_text(PRODUCT)

    assert says in refused("run", "strips.toml", *words)
