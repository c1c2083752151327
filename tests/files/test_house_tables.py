"""[piece], [house], [[step]] and house files as people write them: read into SI, or refused with line and sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from invented import PLAIN_FILE
from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text
from pellicle.passage import Arrangement, Lie, Position, StopWeight, WeightOf
from pellicle.product import Product

EVERYTHING = """\
[piece]
thickness = "1/4 in"
spread = "0.6 mm"
width = "30 mm"
length = "18 cm"
lie = "screen"
open_share_below = "70 %"
start_temperature = "3 C"
loaded_depth = "0.5 mm"
[house]
kind = "damper house"
load = "120 kg"
altitude = "5000 ft"
volume = "12 m3"
ambient_temperature = "20 C"
ambient_humidity = "45 %"
damper = true
fresh_air = "150 kg/h"
fresh_air_open = "720 kg/h"
leak = "36 kg/h"
steam = "7.2 kg/h"
combustion_water = "3.6 kg/h"
gas_fired = true
wall_condensation = 0.05
air_speed = "300 ft/min"
film_coefficient = "18 W/m2K"
emissivity = 0.9
view_factor = "20 %"
arrangement = "stacked screens"
[[house.position]]
name = "lowest screen"
air = "75 %"
warmer = "-1.5 K"
[[step]]
name = "warm"
dry_bulb = "130 F"
humidity = "40 %"
ramp = "1 C/min"
for = "30 min"
smoke = true
[[step]]
name = "dry"
dry_bulb = "72 C"
damper = "60 %"
steam = "0 kg/h"
air_speed = "2 m/s"
until_weight = "48 % of marinated"
at_most = "8 h"
[[step]]
name = "rest"
dry_bulb = "20 C"
rest = true
until_gap = 0.02
at_most = "12 h"
[model]
damper_exponent = 1.5
"""


def read(text: str, folder: Path = Path(".")) -> Product:
    return product_from_text(PLAIN_FILE + text, "strips.toml", folder)


def refusal(text: str, folder: Path = Path(".")) -> InputError:
    with pytest.raises(InputError) as caught:
        read(text, folder)
    return caught.value


def test_everything_the_model_leaves_open_can_be_stated() -> None:
    product = read(EVERYTHING)
    piece, house = product.piece, product.house

    assert (piece.thickness_m, piece.length_m, piece.lie) == (pytest.approx(0.00635), 0.18, Lie.SCREEN)
    assert (piece.open_share_below, piece.start_temperature_c, piece.loaded_depth_m) == (
        pytest.approx(0.7),
        3.0,
        0.0005,
    )
    assert (house.load_kg, house.altitude_m, house.volume_m3) == (120.0, pytest.approx(1524.0), 12.0)
    assert (house.fresh_kg_s, house.full_fresh_kg_s, house.leak_kg_s) == pytest.approx((150 / 3600, 0.2, 0.01))
    assert (house.steam_kg_s, house.combustion_kg_s) == pytest.approx((0.002, 0.001))
    assert (house.air_speed_m_s, house.film_w_m2k, house.emissivity, house.view_factor) == (
        pytest.approx(1.524),
        18.0,
        0.9,
        0.2,
    )
    assert house.arrangement is Arrangement.STACKED
    assert house.positions == (Position("lowest screen", 0.75, -1.5),)


def test_steps_say_their_air_their_humidity_and_their_end() -> None:
    warm, dry, rest = read(EVERYTHING).schedule

    assert (warm.dry_bulb_c, warm.humidity, warm.for_s, warm.smoke) == (
        pytest.approx(54.444, abs=1e-3),
        0.4,
        1800,
        True,
    )
    assert (warm.ramp_s, warm.ramp_k_s) == (None, pytest.approx(1 / 60))
    assert (dry.damper, dry.steam_kg_s, dry.air_speed_m_s) == (0.6, 0.0, 2.0)
    assert dry.until_weight == StopWeight(0.48, WeightOf.MARINATED)
    assert (rest.rest, rest.until_gap, rest.at_most_s) == (True, 0.02, 43200.0)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("52 % of raw", StopWeight(0.52, WeightOf.RAW)),
        ("48 % of the marinated weight", StopWeight(0.48, WeightOf.MARINATED)),
        ("9.5 lb", StopWeight(9.5 * 0.45359237, WeightOf.KG)),
    ],
)
def test_a_weight_ends_a_step_in_three_ways(typed: str, expected: StopWeight) -> None:
    (step,) = read(f'[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "20 %"\nuntil_weight = "{typed}"\n').schedule

    assert step.until_weight == expected


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[piece]\nthickness = "0 mm"\n', "must be above zero"),
        ('[piece]\nthickness = "80 mm"\n', "pieces from 0.5 mm to 50 mm"),
        ('[piece]\nthickness = "6 mm"\nstart_temperature = "200 C"\n', "below 100.0 °C, at which water boils there"),
        ('[piece]\nthickness = "6 mm"\nstart_temperature = "-18 C"\n', "pieces go in thawed, from -2 °C"),
        ('[step]\nname = "dry"\n', "each begins in double brackets: write [[step]]"),
        ('[[step]]\ndry_bulb = "70 C"\n', "step[1].name is missing. What the step is called"),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "6 g/kg"\nfor = "1 h"\n', "Write for example `35 %`"),
        (
            '[piece]\nthickness = "6 mm"\n[[step]]\nname = "dry"\ndry_bulb = "70 C"\nuntil_core = "2 C"\n',
            "the pieces go in at 5.0 °C, so it would end at once",
        ),
        ('[piece]\nthickness = "6 mm"\nwidth = "2 mm"\n', "exchange the two"),
        ('[piece]\nthickness = "6 mm"\nlie = "flat"\n', "Allowed are hung, screen, tray"),
        ('[house]\nkind = "climat chamber"\n', "Did you mean climate chamber"),
        ('[house]\nair_speed = "2"\n', "a number without a unit"),
        ("[house]\nemissivity = 1.4\n", "allowed is from 0 to 1"),
        ('[house]\naltitude = "90 km"\n', "more than the 5000 m"),
        ('[house]\nvolume = "0 m3"\n', "Write for example `12 m3`"),
        ('[house]\nload = "80 t"\n', "10 m³ have no room for it"),
        ('[house]\nambient_temperature = "100 C"\n', "lies between -40 °C and 50 °C"),
        ('[house]\npressure = "0 hPa"\n', "it must be above zero"),
        (
            '[[step]]\nname = "dry"\nuntill_core = "50 C"\n',
            "There is no 'untill_core' in step[1]. Did you mean until_core",
        ),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "9 %"\nfor = "-2 h"\n', "nothing below zero"),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "9 %"\nfor = "nan h"\n', "no finite number"),
        ('[house]\nfan = "on"\n', "There is no 'fan' in [house]"),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "20 %"\n', "says nothing of when it ends"),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "120 %"\nfor = "1 h"\n', "at most 100 %"),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nwet_bulb = "75 C"\nfor = "1 h"\n', "above the dry bulb"),
        ('[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "9 %"\nuntil_gap = 0.9\n', "from 0.001 to 0.5"),
        (
            '[[step]]\nname = "dry"\ndry_bulb = "70 C"\nhumidity = "9 %"\nuntil_weight = "2 % of total"\n',
            "not a weight a step can wait for",
        ),
        (
            '[house]\nkind = "home oven"\n[[step]]\nname = "dry"\ndry_bulb = "70 C"\ndamper = "50 %"\nfor = "1 h"\n',
            "this house (a kitchen oven with its door ajar) has none",
        ),
        (
            '[house]\nair_speed = "0 m/s"\nemissivity = 0\n[[step]]\nname = "dry"\ndry_bulb = "70 C"\nfor = "1 h"\n',
            "no heat reaches the pieces",
        ),
        ("[model]\ndamper_exponent = 9\n", "damper_exponent"),
    ],
)
def test_what_cannot_be_is_refused_at_its_line(text: str, said: str) -> None:
    error = refusal(text)

    assert said in str(error)
    assert error.line is not None
    assert error.line > PLAIN_FILE.count("\n")


def test_a_house_can_stand_in_its_own_file_and_inline_values_come_first(tmp_path: Path) -> None:
    (tmp_path / "house-2.toml").write_text(
        'format = 1\n[house]\nkind = "damper house"\nvolume = "9 m3"\nleak = "20 kg/h"\n'
    )

    house = read('[house]\nfile = "house-2.toml"\nleak = "36 kg/h"\n', tmp_path).house

    assert (house.kind, house.volume_m3, house.leak_kg_s) == ("damper house", 9.0, pytest.approx(0.01))


@pytest.mark.parametrize(
    ("content", "said", "line"),
    [
        ('[house]\nkind = "damper house"\n', "does not say its format", 1),
        ("format = 2\n[house]\n", "this version reads format = 1", 1),
        ('format = 1\n[house]\nvolume = "9"\n', "a number without a unit", 3),
        ('format = 1\n[house]\nsize = "9 m3"\n', "There is no 'size' in [house]", 3),
        ('format = 1\n[house]\nfile = "other.toml"\n', "names a further house file", 3),
        ("format = 1\n[house\n", "not valid TOML", 2),
    ],
)
def test_a_house_file_that_cannot_be_used_is_refused_by_its_own_name(
    tmp_path: Path, content: str, said: str, line: int
) -> None:
    (tmp_path / "house-2.toml").write_text(content)

    error = refusal('[house]\nfile = "house-2.toml"\n', tmp_path)

    assert said in str(error)
    assert (error.file, error.line) == ("house-2.toml", line)


def test_a_house_file_stays_inside_the_folder(tmp_path: Path) -> None:
    assert "lies outside the product file's folder" in str(refusal('[house]\nfile = "../house.toml"\n', tmp_path))


def test_a_house_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    assert "house-9.toml" in str(refusal('[house]\nfile = "house-9.toml"\n', tmp_path))


def test_a_place_without_any_air_is_refused() -> None:
    with pytest.raises(InputError, match="still air passes more"):
        read(EVERYTHING.replace('air = "75 %"', 'air = "0 %"'))
