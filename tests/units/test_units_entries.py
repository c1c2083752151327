"""What people type is understood: each entry beside the SI value its definition gives."""

from __future__ import annotations

import pytest

from agreement import agrees
from pellicle import units
from pellicle.units.kinds import DURATION, LENGTH, MASS, SHARE, TEMPERATURE, VOLUME, Kind
from pellicle.units.reading import tidy

LB = 0.45359237  # kg, exact: international pound of 1959


@pytest.mark.parametrize(
    ("entry", "kg"),
    [
        ("25 lb", 25 * LB),
        ("25lb", 25 * LB),
        ("25 LBS", 25 * LB),
        ("25#", 25 * LB),
        ("25 pounds", 25 * LB),
        ("2 lb 3 oz", 35 / 16 * LB),
        ("25lb 4oz", 25.25 * LB),
        ("2 lb. 3 oz.", 35 / 16 * LB),
        ("2 lb, 3 oz", 35 / 16 * LB),
        ("2 lb and 3 oz", 35 / 16 * LB),
        ("2 lb .5 oz", 32.5 / 16 * LB),
        ("1 1/2 lb", 1.5 * LB),
        ("1-1/2 lb", 1.5 * LB),
        ("1½ lb", 1.5 * LB),
        ("½ lb", 0.5 * LB),
        ("3/4 oz", 0.75 / 16 * LB),
        ("2 cwt", 200 * LB),
        ("1.5 kg", 1.5),
        ("1,5 kg", 1.5),
        ("1,25 kg", 1.25),
        ("1,2345 kg", 1.2345),
        ("2 kg 250 g", 2.25),
        (".5 kg", 0.5),
        ("1e-3 kg", 0.001),
        ("250 mg", 0.00025),
        ("0.3 t", 300.0),
        ("25\u00a0kg", 25.0),
        ("25\u202fkg", 25.0),
        ("  25   kg ", 25.0),
        ("+25 kg", 25.0),
    ],
)
def test_a_weight_as_people_type_it(entry: str, kg: float) -> None:
    assert units.mass(entry, "meat.raw") == pytest.approx(kg, rel=1e-12)


@pytest.mark.parametrize(
    ("entry", "c"),
    [
        ("71 C", 71.0),
        ("71 °C", 71.0),
        ("71℃", 71.0),
        ("71,5 c", 71.5),
        ("160 F", (160 - 32) / 1.8),
        ("160 °F", (160 - 32) / 1.8),
        ("160 deg F", (160 - 32) / 1.8),
        ("-40 F", -40.0),
        ("−5 °C", -5.0),
        ("0 C", 0.0),
        ("300 K", 26.85),
    ],
)
def test_a_temperature_as_people_type_it(entry: str, c: float) -> None:
    assert units.temperature_c(entry, "step[1].dry_bulb") == pytest.approx(c, abs=1e-9)


@pytest.mark.parametrize(
    ("entry", "m"),
    [
        ("1/4 in", 0.00635),
        ('0.25"', 0.00635),
        ("¼ inch", 0.00635),
        ("6.4 mm", 0.0064),
        ("0.64 CM", 0.0064),
        ("1 ft 2 in", 0.3556),
    ],
)
def test_a_length_as_people_type_it(entry: str, m: float) -> None:
    assert units.length_m(entry, "piece.thickness") == pytest.approx(m, rel=1e-12)


@pytest.mark.parametrize(
    ("entry", "s"),
    [
        ("1 h 20 min", 4800),
        ("1h20m", 4800),
        ("90 min", 5400),
        ("1.5 h", 5400),
        ("1½ hours", 5400),
        ("45 s", 45),
        ("2 d 3 h", 183600),
    ],
)
def test_a_time_as_people_type_it(entry: str, s: float) -> None:
    assert units.duration_s(entry, "step[1].for") == s


@pytest.mark.parametrize(
    ("entry", "ml"),
    [
        ("2 gal", 7570.823568),
        ("2 US gal", 7570.823568),
        ("2 imp gal", 9092.18),
        ("1 gal 1 qt", 4731.76473),
        ("1 cup", 236.5882365),
        ("3 fl oz", 88.7205887),
        ("3 fl. oz.", 88.7205887),
        ("1 tbsp", 14.7867648),
        ("1 1/2 tsp", 7.39338239),
        ("250 ml", 250),
        ("1 L", 1000),
        ("2 cm3", 2),
    ],
)
def test_a_volume_as_people_type_it(entry: str, ml: float) -> None:
    """Factors by hand from 231 cubic inches and from 4.54609 l to the gallon."""
    assert units.volume_m3(entry, "spoon") * 1e6 == pytest.approx(ml, rel=1e-8)


def test_a_gallon_of_water_weighs_what_the_trade_says() -> None:
    """8.34 lb to the US gallon: common figure of the trade; water near 20 C is within 0.1 % of 999 kg/m3."""
    assert agrees(units.density_kg_m3("8.34 lb/gal", "density"), "999")


@pytest.mark.parametrize(
    ("entry", "share"),
    [
        ("18 %", 0.18),
        ("18%", 0.18),
        ("18 per cent", 0.18),
        ("1/4 %", 0.0025),
        ("2.9 oz/lb", 0.18125),
        ("6 g/kg", 0.006),
        ("6 g / kg", 0.006),
        ("150 ppm", 0.00015),
        ("150 mg/kg", 0.00015),
        ("5 ‰", 0.005),
        ("4 oz/100 lb", 0.0025),
        ("1/2 oz/25 lb", 0.00125),
        ("1 lb per 25 lb", 0.04),
        ("1 oz / 2 lb 8 oz", 0.025),
        ("0 %", 0.0),
        ("100 %", 1.0),
    ],
)
def test_a_share_as_people_type_it(entry: str, share: float) -> None:
    assert units.share(entry, "uptake.pickup") == pytest.approx(share, rel=1e-12, abs=1e-15)


def test_a_share_may_pass_one_where_the_field_allows_it() -> None:
    assert units.share("120 %", "uptake.marinated", most=3.0) == pytest.approx(1.2)


def test_nothing_is_a_weight_only_where_the_field_allows_it() -> None:
    assert units.mass("0 kg", "--protein", zero=True) == 0.0


@pytest.mark.parametrize(("entry", "strength"), [("6.25 %", 0.0625), ("5,88 %", 0.0588), ("62.5 g/kg", 0.0625)])
def test_a_cure_strength_is_read_from_its_label(entry: str, strength: float) -> None:
    assert units.nitrite_strength(entry, "formula[3].nitrite") == pytest.approx(strength)


@pytest.mark.parametrize("entry", [0.85, "0.85", ".85", "0,85", " 0.85 "])
def test_a_water_activity_is_a_plain_number(entry: str | float) -> None:
    assert units.aw(entry, "product.aw_limit") == 0.85


@pytest.mark.parametrize(("entry", "value"), [(3, 3.0), ("3", 3.0), ("2 1/2", 2.5), (0, 0.0), (40.0, 40.0)])
def test_a_plain_number_within_its_bounds(entry: str | float, value: float) -> None:
    assert units.number(entry, "house.racks", 0, 40) == value


def test_signs_that_look_alike_are_read_alike() -> None:
    assert tidy("−2\u2009⅞″") == '-2 7/8 "'


@pytest.mark.parametrize("kind", [MASS, TEMPERATURE, LENGTH, DURATION, VOLUME, SHARE], ids=lambda kind: kind.name)
def test_the_forms_a_sentence_offers_are_understood(kind: Kind) -> None:
    read = {
        "mass": units.mass,
        "temperature": units.temperature_c,
        "length": units.length_m,
        "duration": units.duration_s,
        "volume": units.volume_m3,
        "share": units.share,
    }[kind.name]
    assert all(kind.least <= read(form, "x") <= kind.most for form in kind.forms)


@pytest.mark.parametrize("kind", [MASS, TEMPERATURE, LENGTH, DURATION, VOLUME, SHARE], ids=lambda kind: kind.name)
def test_the_limits_a_sentence_prints_are_the_limits_that_hold(kind: Kind) -> None:
    read = {
        "mass": units.mass,
        "temperature": units.temperature_c,
        "length": units.length_m,
        "duration": units.duration_s,
        "volume": units.volume_m3,
        "share": units.share,
    }[kind.name]
    assert read(kind.least_text, "x") == pytest.approx(kind.least)
    assert read(kind.most_text, "x") == pytest.approx(kind.most)
