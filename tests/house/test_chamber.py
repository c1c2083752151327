"""A house resolved: what the file says comes first, its kind fills in the rest, and what was filled in is said."""

from __future__ import annotations

import pytest
from houses_to_try import passing

from pellicle.air.humid import pressure_at_altitude_pa, saturation_pressure_pa, vapour_pressure_pa
from pellicle.errors import InputError
from pellicle.house.chamber import resolve_house
from pellicle.house.kinds import house_kinds
from pellicle.passage import Arrangement, House


def test_every_kind_of_house_resolves() -> None:
    for name, kind in house_kinds().items():
        chamber = resolve_house(passing(house=House(kind=name)))
        assert chamber.leak_kg_s <= chamber.fresh_kg_s <= chamber.full_fresh_kg_s
        assert chamber.kind == kind


def test_what_the_file_says_comes_before_the_kind() -> None:
    chamber = resolve_house(passing(house=House(kind="damper house", volume_m3=3.0, leak_kg_s=0.001, emissivity=0.0)))

    assert (chamber.volume_m3, chamber.leak_kg_s, chamber.emissivity) == (3.0, 0.001, 0.0)


def test_what_was_filled_in_is_said() -> None:
    said = " ".join(str(text) for text in resolve_house(passing(house=House())).assumed)

    assert "No kind of house is stated" in said
    assert "10 m³" in said


def test_the_altitude_gives_the_pressure() -> None:
    chamber = resolve_house(passing(house=House(altitude_m=1600.0)))

    assert chamber.pressure_pa == pytest.approx(pressure_at_altitude_pa(1600.0))
    assert chamber.boiling_point_c == pytest.approx(94.65, abs=0.02)


def test_a_damper_opens_from_the_leak_to_all_of_its_air() -> None:
    house = House(kind="damper house", leak_kg_s=0.01, full_fresh_kg_s=0.21)
    even = resolve_house(passing(house=house))
    late = resolve_house(passing(house=house, model={"damper_exponent": 2.0}))

    assert [even.fresh_at(share) for share in (0.0, 0.5, 1.0)] == pytest.approx([0.01, 0.11, 0.21])
    assert late.fresh_at(0.5) == pytest.approx(0.06)


def test_an_emissivity_stated_alone_is_that_of_everything_around() -> None:
    alone = resolve_house(passing(house=House(kind="damper house", emissivity=0.9)))
    stacked = resolve_house(passing(house=House(emissivity=0.9, arrangement=Arrangement.STACKED)))
    seen = resolve_house(passing(house=House(emissivity=0.9, view_factor=0.5)))

    assert alone.emissivity == pytest.approx(0.9)
    assert stacked.emissivity == pytest.approx(0.9 * 0.2)
    assert seen.emissivity == pytest.approx(0.45)


def test_a_flame_adds_water_to_what_it_evaporates() -> None:
    """0.045 kg of water per MJ and 2.38 MJ per kg evaporated: 0.107 kg per kg (own arithmetic)."""
    gas = resolve_house(passing(house=House(kind="gas-fired damper house")))
    electric = resolve_house(passing(house=House(kind="damper house")))

    assert gas.moisture_per_evaporated == pytest.approx(0.107, abs=0.001)
    assert electric.moisture_per_evaporated == 0.0


@pytest.mark.parametrize(
    ("fresh_per_kg", "temperature", "evaporated", "humidity"),
    [
        (20, 57, 0.220, 18), (5, 57, 0.154, 35), (1, 57, 0.070, 65), (10, 66, 0.240, 19), (2.5, 66, 0.155, 39),
        (0.5, 66, 0.065, 70), (10, 79, 0.318, 14), (1, 79, 0.152, 46), (0.2, 79, 0.061, 75),
    ],
)  # fmt: skip
def test_a_wet_load_makes_its_own_humidity(
    fresh_per_kg: float, temperature: float, evaporated: float, humidity: float
) -> None:
    """Equilibrium table of the transport review, section 1: ambient 22 C and 50 %, kg/h per kg of product; RH in %."""
    chamber = resolve_house(passing(house=House(kind="damper house")))
    ratio = chamber.balance_humidity_ratio(float(temperature), fresh_per_kg / 3600, evaporated / 3600)
    found = vapour_pressure_pa(ratio, chamber.pressure_pa) / saturation_pressure_pa(float(temperature))

    assert 100 * float(found) == pytest.approx(humidity, abs=1.0)


@pytest.mark.parametrize(
    ("house", "said"),
    [
        (House(kind="smokehous"), "not a kind of house known here"),
        (House(kind="damper hose"), "Did you mean damper house"),
        (House(altitude_m=100.0, pressure_pa=95000.0), "both given"),
        (House(full_fresh_kg_s=0.001, leak_kg_s=0.01), "less than the 36.0 kg/h that leaks in"),
    ],
)
def test_a_house_that_contradicts_itself_is_refused(house: House, said: str) -> None:
    with pytest.raises(InputError) as refused:
        resolve_house(passing(house=house))
    assert said in str(refused.value)
