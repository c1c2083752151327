"""Two readings give everything else, whichever pair one starts from; air that cannot be is refused in a sentence."""

from __future__ import annotations

import pytest

from pellicle.air.humid import pressure_at_altitude_pa
from pellicle.air.state import air_state
from pellicle.errors import InputError


@pytest.mark.parametrize("altitude", [0.0, 1600.0])
def test_any_pair_gives_the_same_air(altitude: float) -> None:
    pressure = float(pressure_at_altitude_pa(altitude))
    air = air_state(71.0, pressure, wet_bulb_c=60.0)

    for given in ({"humidity": air.humidity}, {"dew_point_c": air.dew_point_c}):
        again = air_state(71.0, pressure, **given)
        assert again.wet_bulb_c == pytest.approx(60.0, abs=1e-6)
        assert again.humidity_ratio == pytest.approx(air.humidity_ratio, rel=1e-7)


def test_bone_dry_air_has_no_dew_point() -> None:
    assert air_state(60.0, humidity=0.0).dew_point_c is None


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"humidity": 1.35}, "at most 100 %"),
        ({"humidity": -0.1}, "starts at 0 %"),
        ({"wet_bulb_c": 75.0}, "above the dry bulb of 71.0 °C"),
        ({"wet_bulb_c": 12.0}, "lower than even air without any vapour gives (24.3 °C)"),
        ({"dew_point_c": 72.0}, "such air would be fog"),
        ({}, "exactly one way"),
        ({"humidity": 0.3, "wet_bulb_c": 50.0}, "exactly one way"),
    ],
)
def test_air_that_cannot_be_is_refused(given: dict[str, float], said: str) -> None:
    with pytest.raises(InputError) as refused:
        air_state(71.0, field="--wet-bulb", **given)
    assert said in str(refused.value)


@pytest.mark.parametrize(
    ("dry", "given", "said"),
    [
        (98.0, {"humidity": 0.99}, "water boils at 94.6 °C there. At most 86 % is possible"),
        (110.0, {"wet_bulb_c": 94.5}, "water boils at 94.6 °C at that pressure"),
        (110.0, {"dew_point_c": 94.5}, "water boils at 94.6 °C at that pressure"),
        (300.0, {"humidity": 0.01}, "air from -10 °C to 150 °C"),
    ],
)
def test_high_up_water_boils_before(dry: float, given: dict[str, float], said: str) -> None:
    with pytest.raises(InputError) as refused:
        air_state(dry, float(pressure_at_altitude_pa(1600.0)), **given)
    assert said in str(refused.value)
