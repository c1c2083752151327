"""Steps resolved: how set points are reached and held, what goes on to the next step, which film, which end."""

from __future__ import annotations

import pytest
from houses_to_try import WEIGHTS, passing

from pellicle.air.state import air_state
from pellicle.errors import InputError
from pellicle.house.chamber import resolve_house
from pellicle.house.film import FilmFrom
from pellicle.house.lying import resolve_piece
from pellicle.house.reach import reach_remarks
from pellicle.house.schedule import Control, resolve_schedule
from pellicle.house.until import LONGEST_S, EndKind
from pellicle.passage import House, Lie, Piece, Step, StopWeight, WeightOf

WARM = Step("warm", dry_bulb_c=50.0, humidity=0.4, for_s=1200.0)


def test_a_ramp_starts_from_the_room_and_then_from_the_step_before() -> None:
    first, second = resolve_schedule(
        passing(
            Step("warm", dry_bulb_c=52.0, humidity=0.4, for_s=3600.0, ramp_k_s=1 / 60),
            Step("cook", dry_bulb_c=70.0, wet_bulb_c=60.0, for_s=3600.0, ramp_s=900.0),
        )
    )

    assert (first.dry_bulb_from_c, first.ramp_s) == (22.0, pytest.approx(1800.0))
    assert (second.dry_bulb_from_c, second.dry_bulb_c) == (52.0, 70.0)
    assert second.held_from == pytest.approx(air_state(52.0, humidity=0.4).wet_bulb_c)


def test_a_ramp_cut_short_goes_on_from_where_it_came_to() -> None:
    cut = Step("warm", dry_bulb_c=62.0, humidity=0.4, for_s=1200.0, ramp_k_s=1 / 60)
    product = passing(cut, Step("cook", dry_bulb_c=70.0, humidity=0.5, for_s=3600.0, ramp_s=900.0))
    first, second = resolve_schedule(product)

    assert (first.dry_bulb_from_c, first.dry_bulb_c, first.left_off.dry_bulb_c) == (22.0, 62.0, pytest.approx(42.0))
    assert second.dry_bulb_from_c == pytest.approx(42.0)
    (remark,) = reach_remarks((first, second), resolve_house(product))
    assert "the ramp to 62.0 °C takes 40 min, and the step ends after 20 min, at 42.0 °C" in str(remark)


def test_without_a_ramp_the_set_point_is_there_at_once() -> None:
    (step,) = resolve_schedule(passing(WARM))

    assert (step.dry_bulb_from_c, step.ramp_s, step.held_from) == (50.0, 0.0, 0.4)


def test_humidity_goes_on_until_a_step_says_otherwise() -> None:
    steps = resolve_schedule(
        passing(
            WARM,
            Step("hotter", dry_bulb_c=65.0, for_s=600.0),
            Step("open", dry_bulb_c=65.0, damper=0.5, for_s=600.0),
            Step("on", dry_bulb_c=70.0, for_s=600.0),
        )
    )

    assert [step.control for step in steps] == [
        Control.HUMIDITY, Control.HUMIDITY, Control.BALANCE, Control.BALANCE,
    ]  # fmt: skip
    assert steps[3].fresh_kg_s == steps[2].fresh_kg_s > 0


def test_a_shut_damper_still_leaks() -> None:
    (step,) = resolve_schedule(passing(Step("shut", dry_bulb_c=60.0, fresh_kg_s=0.0, for_s=600.0)))

    assert step.fresh_kg_s == pytest.approx(30 / 3600)


def test_a_rest_is_sealed_and_needs_no_humidity() -> None:
    (rest,) = resolve_schedule(passing(Step("rest", dry_bulb_c=20.0, rest=True, until_gap=0.02, at_most_s=36000.0)))

    assert rest.sealed
    assert rest.control is Control.NONE
    assert (rest.end.kind, rest.end.falling) == (EndKind.GAP, True)


def test_the_film_coefficient_is_the_steps_then_the_houses_then_the_kinds() -> None:
    house = House(kind="damper house", air_speed_m_s=1.0)
    stated, quicker, houses = resolve_schedule(
        passing(
            Step("a", dry_bulb_c=65.0, humidity=0.3, film_w_m2k=25.0, for_s=60.0),
            Step("b", dry_bulb_c=65.0, humidity=0.3, air_speed_m_s=4.0, for_s=60.0),
            Step("c", dry_bulb_c=65.0, humidity=0.3, for_s=60.0),
            house=house,
        )
    )
    (kinds,) = resolve_schedule(passing(WARM))

    assert (stated.film.w_m2k, stated.film.rests_on) == (25.0, FilmFrom.STATED)
    assert quicker.film.w_m2k == pytest.approx(2 * houses.film.w_m2k, rel=0.02)  # grows with the root of the speed
    assert (kinds.film.w_m2k, kinds.film.rests_on) == (20.0, FilmFrom.KIND)
    assert stated.film.log_sd < quicker.film.log_sd < kinds.film.log_sd


def test_a_film_coefficient_has_a_range_around_it() -> None:
    (step,) = resolve_schedule(passing(WARM))

    assert step.film.low_w_m2k < step.film.w_m2k < step.film.high_w_m2k
    assert step.film.low_w_m2k * step.film.high_w_m2k == pytest.approx(step.film.w_m2k**2)


@pytest.mark.parametrize(
    ("stop", "share"),
    [
        (StopWeight(0.52, WeightOf.RAW), 0.52 * 100 / 112),
        (StopWeight(0.48, WeightOf.MARINATED), 0.48),
        (StopWeight(44.0, WeightOf.KG), 44 / 112),
    ],
)
def test_a_weight_ends_a_step_as_share_of_what_went_in(stop: StopWeight, share: float) -> None:
    step = Step("dry", dry_bulb_c=70.0, humidity=0.2, until_weight=stop)

    (found,) = resolve_schedule(passing(step), WEIGHTS)

    assert found.end.kind is EndKind.WEIGHT
    assert found.end.value == pytest.approx(share)


def test_a_step_without_at_most_is_still_ended_some_day() -> None:
    (step,) = resolve_schedule(passing(Step("dry", dry_bulb_c=70.0, humidity=0.2, until_aw=0.85)))

    assert (step.end.at_most_s, step.end.at_most_stated) == (LONGEST_S, False)


def test_a_product_without_a_schedule_cannot_be_run() -> None:
    with pytest.raises(InputError, match="there is no schedule"):
        resolve_schedule(passing().replace({"schedule": ()}))


@pytest.mark.parametrize(
    ("stop", "said"),
    [
        (StopWeight(1.2, WeightOf.RAW), "not less than the 112.0 kg that goes in"),
        (StopWeight(0.25, WeightOf.RAW), "less than the 30.0 kg that stays when all water has left"),
        (StopWeight(200.0, WeightOf.KG), "not less than the 112.0 kg"),
    ],
)
def test_a_weight_that_cannot_be_reached_is_refused(stop: StopWeight, said: str) -> None:
    step = Step("dry", dry_bulb_c=70.0, humidity=0.2, until_weight=stop)

    with pytest.raises(InputError) as refused:
        resolve_schedule(passing(step), WEIGHTS)
    assert said in str(refused.value)


def test_weights_are_asked_for_where_a_step_ends_at_one() -> None:
    step = Step("dry", dry_bulb_c=70.0, humidity=0.2, until_weight=StopWeight(0.5, WeightOf.RAW))

    with pytest.raises(InputError, match="the weight that goes in is not known"):
        resolve_schedule(passing(step))


def test_how_a_piece_lies_decides_its_lower_face() -> None:
    shares = {
        lie: resolve_piece(passing(piece=Piece(thickness_m=0.006, lie=lie))).open_share_below
        for lie in (Lie.HUNG, Lie.SCREEN, Lie.TRAY)
    }
    stated = resolve_piece(passing(piece=Piece(thickness_m=0.006, lie=Lie.SCREEN, open_share_below=0.8)))

    assert shares == {Lie.HUNG: 1.0, Lie.SCREEN: pytest.approx(0.65), Lie.TRAY: 0.0}
    assert stated.open_share_below == 0.8
