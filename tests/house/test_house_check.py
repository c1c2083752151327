"""What a schedule cannot be is refused in a sentence; what is merely dangerous passes."""

from __future__ import annotations

import pytest
from houses_to_try import passing

from pellicle.errors import InputError
from pellicle.house.chamber import resolve_house
from pellicle.house.check import check_passage
from pellicle.house.reach import humidity_needed, reach_remarks, wet_hold_c
from pellicle.house.schedule import resolve_schedule
from pellicle.passage import House, Piece, Step, StopWeight, WeightOf


def step(**more: object) -> Step:
    """Return a step of an hour in air of 70 C and 30 %, changed as said."""
    facts = {"name": "x", "dry_bulb_c": 70.0, "humidity": 0.3, "for_s": 3600.0, **more}
    return Step(**facts)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (step(for_s=None), "says nothing of when it ends"),
        (step(until_aw=0.85), "has two ends, for and until_aw"),
        (step(dry_bulb_c=None), "has no dry_bulb"),
        (step(wet_bulb_c=50.0), "two ways, wet_bulb and humidity"),
        (step(humidity=None, damper=0.2, fresh_kg_s=0.1), "two ways, damper and fresh_air"),
        (step(humidity=None, wet_bulb_c=72.0), "above the dry bulb of 70.0 °C"),
        (step(humidity=None, wet_bulb_c=5.0), "lower than even air without any vapour"),
        (step(humidity=1.2), "at most 100 %"),
        (step(dry_bulb_c=105.0, humidity=0.9), "water boils at 100.0 °C there"),
        (step(dry_bulb_c=300.0), "air from -10 °C to 150 °C"),
        (step(steam_kg_s=0.001), "how much steam that takes follows"),
        (step(at_most_s=60.0), "at most after 1 min, before its 1 h"),
        (step(for_s=None, until_core_c=74.0), "waits for a core of 74.0 °C in air of 70.0 °C"),
        (step(for_s=None, until_aw=0.25), "so nothing dries below 0.30"),
        (step(for_s=None, until_aw=0.8, rest=True), "does not change while no water leaves"),
        (step(for_s=None, until_weight=StopWeight(0.5, WeightOf.RAW), rest=True), "does not change while no water"),
    ],
)
def test_a_step_that_makes_no_sense_is_refused(wrong: Step, said: str) -> None:
    with pytest.raises(InputError) as refused:
        check_passage(passing(wrong))
    assert said in str(refused.value)
    assert "step[1]" in refused.value.field


def test_a_house_without_a_damper_takes_no_damper_step() -> None:
    house = House(kind="climate chamber")
    with pytest.raises(InputError, match="has none"):
        check_passage(passing(step(humidity=None, damper=0.3), house=house))
    with pytest.raises(InputError, match="no damper to leave it to"):
        check_passage(passing(step(humidity=None), house=house))

    check_passage(passing(step(humidity=None, damper=0.3), house=House(kind="climate chamber", damper=True)))


def test_still_air_without_radiation_brings_no_heat() -> None:
    with pytest.raises(InputError, match="no heat reaches the pieces"):
        check_passage(passing(step(), house=House(air_speed_m_s=0.0, emissivity=0.0)))

    check_passage(passing(step(), house=House(air_speed_m_s=0.0, emissivity=0.9)))
    check_passage(passing(step(film_w_m2k=10.0), house=House(air_speed_m_s=0.0, emissivity=0.0)))


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        (Piece(thickness_m=0.006, spread_m=0.004), "leaves pieces of no thickness"),
        (Piece(thickness_m=0.006, loaded_depth_m=0.004), "deeper than the middle"),
    ],
)
def test_a_piece_that_contradicts_itself_is_refused(piece: Piece, said: str) -> None:
    with pytest.raises(InputError) as refused:
        check_passage(passing(piece=piece))
    assert said in str(refused.value)


@pytest.mark.parametrize(
    "dangerous",
    [
        step(dry_bulb_c=40.0, humidity=0.1, for_s=4 * 3600.0),  # a dry, cool start
        step(dry_bulb_c=79.0, humidity=0.35, for_s=None, until_core_c=74.0),  # waits above its wet surface
        step(dry_bulb_c=30.0, humidity=0.9, for_s=24 * 3600.0),
    ],
)
def test_what_is_dangerous_but_possible_passes(dangerous: Step) -> None:
    check_passage(passing(dangerous))


def test_a_core_above_the_wet_surface_is_recognised_and_what_it_takes_is_said() -> None:
    """79 C and 35 %: 57.0 C; to bring a wet core to 74 C takes 81 % (transport review, sections 0 and 1)."""
    waiting = step(name="cook", dry_bulb_c=79.0, humidity=0.35, for_s=None, until_core_c=74.0)
    product = passing(waiting, house=House(kind="damper house", emissivity=0.0))
    chamber, steps = resolve_house(product), resolve_schedule(product)

    assert wet_hold_c(steps[0], chamber) == pytest.approx(57.03, abs=0.01)
    assert humidity_needed(steps[0], chamber, 74.0) == pytest.approx(0.81, abs=0.006)
    (remark,) = reach_remarks(steps, chamber)
    assert str(remark) == (
        "cook: the wet surface holds at 57.0 °C; the core cannot reach 74.0 °C before it is dry. "
        "A humidity of 81 % would bring it there wet."
    )


@pytest.mark.parametrize(
    ("dry_bulb", "target", "printed"),
    [
        (66, 57.2, 65), (66, 62.8, 86), (71, 57.2, 51), (71, 65.0, 76), (74, 60.0, 52), (74, 71.1, 88), (79, 57.2, 36),
        (79, 71.1, 71), (85, 62.8, 37), (85, 74.0, 63),
    ],
)  # fmt: skip
def test_the_humidity_a_wet_surface_needs_for_a_target(dry_bulb: float, target: float, printed: float) -> None:
    """Table of the transport review, section 1, in %."""
    product = passing(step(dry_bulb_c=float(dry_bulb)), house=House(kind="damper house", emissivity=0.0))
    (found,) = resolve_schedule(product)

    assert 100 * (humidity_needed(found, resolve_house(product), target) or 0.0) == pytest.approx(printed, abs=1.0)


def test_no_humidity_brings_a_core_above_its_air() -> None:
    product = passing(step())
    assert humidity_needed(resolve_schedule(product)[0], resolve_house(product), 75.0) is None
