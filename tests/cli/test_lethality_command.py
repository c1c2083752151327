"""``pellicle lethality`` as another program meets it: invented logs, one document, exit statuses."""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path
from subprocess import CompletedProcess, run

import pytest

# each test starts the program anew
pytestmark = pytest.mark.slow


EXAMPLES = Path(__file__).parents[2] / "examples"


def pellicle(*words: str) -> CompletedProcess[str]:
    return run([sys.executable, "-m", "pellicle", "lethality", *words], capture_output=True, text=True)


def logged(folder: Path, gap: float = 2.0, hold_f: float = 142.0, name: str = "house.csv") -> str:
    """A controller's log in Fahrenheit: brought up in an hour with the bulbs ``gap`` apart, then held for two."""
    lines = ["House 2 export", "Channel list;see manual", "", "Time,Dry Bulb (F),Wet Bulb (F),Core (F)"]
    for minute in range(181):
        wet = min(70 + 1.4 * minute, hold_f)
        core = min(40 + 3 * minute, wet - 3)
        lines.append(f"{8 + minute // 60}:{minute % 60:02},{wet + gap:.1f},{wet:.1f},{core:.1f}")
    path = folder / name
    path.write_text("\n".join(lines), "utf-8")
    return str(path)


def test_a_humid_log_is_one_document_with_its_numbers(tmp_path: Path) -> None:
    done = pellicle(logged(tmp_path), "--species", "beef", "--json")
    found = json.loads(done.stdout)

    assert (done.returncode, done.stderr) == (0, "")
    assert next(iter(found)) == "schema"
    assert found["schema"] == "pellicle.lethality/1"
    assert set(found["lethality"]) == {"salmonella", "stec", "listeria", "aureus"}
    one = found["lethality"]["salmonella"]
    assert {"wet", "wet_lower", "local", "expected", "table", "table_ramp", "target", "verdict"} <= set(one)
    assert one["wet"] > one["wet_lower"] > one["target"] == 5.0
    assert one["local"] is None
    assert found["columns"] == {
        "core": ["Core (F)"],
        "dry_bulb": "Dry Bulb (F)",
        "wet_bulb": "Wet Bulb (F)",
        "humidity": "",
    }
    assert found["process"]["at_humidity"]["90"] > 100


def test_the_named_option_of_a_product_decides_its_support(tmp_path: Path) -> None:
    text = (EXAMPLES / "plain-pepper-strips.toml").read_text("utf-8")
    named = text.replace("[plan]", '[plan]\nhumidity_option = "2021 option 3"', 1)
    product = tmp_path / "strips.toml"
    product.write_text(named, "utf-8")

    moist = json.loads(pellicle(logged(tmp_path), "--product", str(product), "--json").stdout)
    dry = pellicle(logged(tmp_path, gap=30.0, name="dry.csv"), "--product", str(product), "--json")

    assert {check["id"]: check["verdict"] for check in moist["checks"]}["lethality.support"] == "met"
    assert {check["id"]: check["verdict"] for check in json.loads(dry.stdout)["checks"]}[
        "lethality.support"
    ] == "not met"
    assert dry.returncode == 1


def test_a_log_without_a_wet_bulb_is_never_met(tmp_path: Path) -> None:
    path = tmp_path / "core.csv"
    path.write_text("time (min),core (C)\n" + "".join(f"{at},65\n" for at in range(120)), "utf-8")
    found = json.loads(pellicle(str(path), "--species", "beef", "--json").stdout)

    assert found["lethality"]["salmonella"]["wet"] is None
    assert found["lethality"]["salmonella"]["verdict"] == "cannot tell"
    assert "wet bulb" in found["lethality"]["salmonella"]["why_withheld"]["wet"]


def test_typed_checkpoints_in_fahrenheit(tmp_path: Path) -> None:
    path = tmp_path / "typed.csv"
    path.write_text(
        "time,dry bulb,wet bulb,core\n0,150,140,60\n20,150,140,138\n25,150,140,140\n45,150,141,140\n", "utf-8"
    )
    found = json.loads(pellicle(str(path), "--unit", "F", "--species", "beef", "--json").stdout)

    # nothing on the way up (20 min apart, the lower end is 60 F), the ramp from 20 to 25 min, then 20 min at 140 F;
    # the 20 min in which it may have been at 45 to 54 C raise resistance by 1.6 * 5 / 45; without a product the meat
    # may have been tumbled, and germs inside take twice as long
    ramp = 5 / 2.63 * (1 - 10 ** (-2 / 1.8 / 5.32)) / (2 / 1.8 / 5.32 * math.log(10))
    assert found["lethality"]["salmonella"]["wet"] == pytest.approx(
        (20 / 2.63 + ramp) / (1 + 1.6 * 5 / 45) / 2, rel=0.02
    )


def test_columns_can_be_named(tmp_path: Path) -> None:
    path = tmp_path / "channels.csv"
    path.write_text("time (min),ch1 C,ch2 C,ch3 C\n0,70,60,58\n5,70,60,59\n10,70,60,59\n", "utf-8")
    named = ("--core", "ch3 C", "--dry-bulb", "1", "--wet-bulb", "ch2 C")
    done = json.loads(pellicle(str(path), *named, "--json").stdout)

    assert done["columns"]["core"] == ["ch3 C"]
    assert pellicle(str(path)).returncode == 2
    assert "ch1 C, ch2 C, ch3 C" in pellicle(str(path)).stderr


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"wet bulb C,core C\n57,40\n57,41\n", "no column of times"),
        (b"time,core C\n9:05,40\n9:04,41\n", "house.csv, line 3: The times run backwards"),
        (b"time,core C\n9:05,9999\n9:06,OL\n", "no reading at all"),
        (b"", "is empty"),
        (b"\x00\x01\x02PK", "not a text file"),
    ],
)
def test_a_bad_log_is_one_sentence_and_status_2(tmp_path: Path, content: bytes, says: str) -> None:
    path = tmp_path / "house.csv"
    path.write_bytes(content)
    done = pellicle(str(path), "--json")

    assert done.returncode == 2
    assert done.stdout == ""
    assert says in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--probe-error", "nan"), "--probe-error reads `nan`, which is no finite number"),
        (("--probe-error", "-3"), "--probe-error reads `-3`; allowed is from 0 to 10"),
        (("--steam", "15 h"), "--steam is 15 h, longer than the whole log (3 h)"),
        (("--altitude", "99999 m"), "more than the 5000 m that is the most allowed"),
        (("--on", "soon"), "--on reads `soon`, which is not a date"),
        (("--core", "core probe 7"), "asks for the column core probe 7, which the log does not have"),
        (("--product", "absent.toml"), "There is no file absent.toml"),
    ],
)
def test_an_option_that_cannot_be_is_one_sentence_and_status_2(
    tmp_path: Path, words: tuple[str, ...], says: str
) -> None:
    done = pellicle(logged(tmp_path), *words)

    assert (done.returncode, done.stdout) == (2, "")
    assert says in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1


def test_a_bad_log_is_named_once(tmp_path: Path) -> None:
    path = tmp_path / "house.csv"
    path.write_text("", "utf-8")

    assert pellicle(str(path)).stderr.count("house.csv") == 1


def test_the_altitude_moves_the_humidity_of_a_log(tmp_path: Path) -> None:
    """--altitude was once read as a length of at most 2 m. 155.6 F over 142 F is 69.9 % at the sea, 70.2 % at 5000 ft
    (``pellicle air``)."""
    log = logged(tmp_path, gap=13.6)
    sea, high = (
        json.loads(pellicle(log, "--json", *words).stdout)["process"]["at_humidity"]["70"]
        for words in ((), ("--altitude", "5000 ft"))
    )

    assert sea < 10
    assert high > 100


def test_a_product_file_with_an_option_that_is_none_is_refused(tmp_path: Path) -> None:
    text = (EXAMPLES / "plain-pepper-strips.toml").read_text("utf-8")
    product = tmp_path / "strips.toml"
    product.write_text(text.replace("[plan]", '[plan]\nhumidity_option = "2021 option 9"', 1), "utf-8")
    done = pellicle(logged(tmp_path), "--product", str(product))

    assert done.returncode == 2
    assert "2021 option 3" in done.stderr
