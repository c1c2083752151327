"""``pellicle air`` as people and other programs meet it."""

from __future__ import annotations

import json
import sys
from subprocess import CompletedProcess, run

import pytest


def air(*words: str) -> CompletedProcess[str]:
    return run([sys.executable, "-m", "pellicle", "air", *words], capture_output=True, text=True)


def test_it_prints_one_document_that_opens_with_its_schema() -> None:
    done = air("--dry-bulb", "79 C", "--humidity", "35 %", "--json")
    found = json.loads(done.stdout)

    assert (done.returncode, done.stderr) == (0, "")
    assert next(iter(found)) == "schema"
    assert found["schema"] == "pellicle.air/1"
    assert found["wet_bulb_c"] == pytest.approx(56.88, abs=0.01)
    assert found["dew_point_c"] == pytest.approx(55.23, abs=0.01)
    assert found["rh_percent"] == pytest.approx(35.0)
    assert found["humidity_ratio"] == pytest.approx(0.11605, abs=1e-4)
    assert found["vapour_pressure_pa"] == pytest.approx(0.35 * 45503, rel=1e-3)


def test_fahrenheit_and_feet_are_understood() -> None:
    """Rules review, section 1.3: 160 F and 140 F are 59.4 % at 84.3 kPa, which is about 5000 ft."""
    found = json.loads(air("--dry-bulb", "160 F", "--wet-bulb", "140 F", "--altitude", "5000 ft", "--json").stdout)

    assert found["rh_percent"] == pytest.approx(59.4, abs=0.1)
    assert found["boiling_point_c"] < 95.0


def test_dry_air_has_no_dew_point_and_the_document_says_null() -> None:
    assert json.loads(air("--dry-bulb", "60 C", "--humidity", "0 %", "--json").stdout)["dew_point_c"] is None


def test_the_page_says_what_a_wet_piece_does_in_this_air() -> None:
    said = " ".join(air("--dry-bulb", "79 C", "--humidity", "35 %").stdout.split())

    assert "a wet bulb in it reads 56.9 °C / 134.4 °F" in said.replace("\u00a0", " ")
    assert "A wet piece in this air holds at 57.0 °C" in said.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--humidity", "135 %"), "--humidity is 135 %; air holds at most 100 %"),
        (("--humidity", "2000 %"), "--humidity is 2000 %; air holds at most 100 %"),
        (("--humidity", "6 g/kg"), "`g/kg` is not a unit known here. Write for example `35 %`"),
        (("--wet-bulb", "75 C"), "--wet-bulb is 75.0 °C, above the dry bulb"),
        (("--dew-point", "75 C"), "such air would be fog"),
        (("--wet-bulb", "5 C"), "lower than even air without any vapour"),
        ((), "exactly one way"),
        (("--humidity", "35 %", "--wet-bulb", "50 C"), "exactly one way"),
        (("--humidity", "35"), "a number without a unit"),
        (("--humidity", "35 %", "--altitude", "1500"), "a number without a unit"),
        (("--humidity", "35 %", "--altitude", "1500 m", "--pressure", "846 hPa"), "Keep one"),
    ],
)
def test_air_that_cannot_be_ends_with_status_2_and_a_sentence(words: tuple[str, ...], said: str) -> None:
    done = air("--dry-bulb", "71 C", *words)

    assert done.returncode == 2
    assert done.stdout == ""
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_humidity_over_the_boiling_point_of_the_place_is_refused() -> None:
    done = air("--dry-bulb", "98 C", "--humidity", "99 %", "--altitude", "1600 m")

    assert done.returncode == 2
    assert "water boils at 94.6 °C there. At most 86 % is possible" in done.stderr
