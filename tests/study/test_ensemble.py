"""Many pieces: places of the house, the weight of unlike pieces, and when the wettest of them are at the limit."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from pellicle.air.humid import humidity_ratio_from_wet_bulb, saturation_pressure_pa
from pellicle.passage import Position
from pellicle.run.setup import Air, move
from pellicle.run.simulate import Run, simulate
from pellicle.study.air_of import at_place, held_as, in_air
from pellicle.study.ensemble import PieceSpread, ensemble
from pellicle.study.wettest import aw_when_wettest_are_at, longer
from pieces_to_run import DRY, MIX, pork

LIKE = PieceSpread(thickness=0.0, position_log=0.0, film_log=0.0, diffusivity_log=0.0, cookout=0.0)


def nothing(run: Run) -> float:
    return 0.0


def test_pieces_that_do_not_differ_end_alike():
    found = ensemble(pork(), LIKE, 12, nothing, 0.85)

    alone = simulate(pork()).aw_mean
    assert np.ptp(found.pieces.aw_mean) == 0.0
    assert found.pieces.aw_mean[0, 0] == pytest.approx(alone, abs=2e-4)  # once more, with the steps timed


def test_thickness_spreads_the_pieces_and_thick_ones_weigh_more():
    found = ensemble(pork(), replace(LIKE, thickness=0.12), 40, nothing, 0.85)

    assert np.all(np.corrcoef(found.mass[0], found.pieces.aw_mean[0])[0, 1] > 0.9)
    assert found.mass.mean() == pytest.approx(1.0, abs=0.05)


def test_a_slow_cool_place_is_run_beside_the_pieces_and_ends_wetter():
    spread = replace(LIKE, places=(Position("middle"), Position("floor", 0.7, -2.0)))

    found = ensemble(pork(), spread, 12, nothing, 0.85)

    middle, floor = found.places.aw_mean[0]
    assert middle == pytest.approx(found.pieces.aw_mean[0, 0], abs=1e-6)
    assert floor > middle + 0.005


def test_a_warmer_place_holds_the_same_vapour():
    here, there = pork(steps=MIX), at_place(pork(steps=MIX), Position("top", 1.0, 4.0))

    for step, warm in zip(here.steps, there.steps, strict=True):
        assert warm.dry_bulb_c[1] == step.dry_bulb_c[1] + 4.0
        if step.air.relative is not None:
            vapour = [one.air.relative[1] * float(saturation_pressure_pa(one.dry_bulb_c[1])) for one in (step, warm)]
        else:
            vapour = [
                float(humidity_ratio_from_wet_bulb(one.dry_bulb_c[1], one.air.wet_bulb_c[1], here.pressure_pa))
                for one in (step, warm)
            ]
        assert vapour[1] == pytest.approx(vapour[0], rel=1e-5)


def test_like_pieces_are_at_the_limit_when_the_batch_is():
    steps = pork(steps=DRY)

    going_on = longer(steps)
    found = aw_when_wettest_are_at(0.85, simulate(going_on), [going_on] * 20, np.ones(20))

    assert found == pytest.approx(0.85, abs=0.003)


def test_unlike_pieces_need_a_drier_batch():
    steps = pork(steps=DRY)
    shares = np.exp(0.15 * np.linspace(-1.6, 1.6, 20))
    going_on = longer(steps)
    pieces = [replace(going_on, thickness_m=steps.thickness_m * share) for share in shares]

    assert aw_when_wettest_are_at(0.85, simulate(going_on), pieces, shares) < 0.82


def test_what_can_never_dry_so_far_is_not_a_number():
    damp = replace(DRY[-1], air=replace(DRY[-1].air, relative=(0.9, 0.9)))
    steps = pork(steps=(damp,))

    assert math.isnan(aw_when_wettest_are_at(0.85, simulate(longer(steps)), [longer(steps)] * 2, np.ones(2)))


def test_a_run_in_the_air_it_found_itself_is_the_same_run():
    """A house left to its load, its humidity given back as what was found: the piece must not notice."""
    open_ = Air(fresh_kg_s=0.02, fresh_ratio=0.008, volume_m3=10.0)
    steps = tuple(replace(step, air=open_) for step in DRY)
    free = pork(steps=steps, load_kg=60.0, house_ratio=0.01)
    found = simulate(free)

    again = simulate(held_as(free, found))

    assert again.aw_mean == pytest.approx(found.aw_mean, abs=2e-3)
    assert again.weight_share == pytest.approx(found.weight_share, abs=2e-3)


def test_a_piece_in_fast_air_does_not_dry_the_whole_house():
    """Were the load like the piece, a fast one would moisten its own air and dry less ahead of the others. Without
    juice, which moist heat presses out."""
    shut = Air(fresh_kg_s=0.02, fresh_ratio=0.008, volume_m3=10.0)
    steps = tuple(replace(step, air=shut) for step in DRY)
    house = pork(steps=steps, load_kg=150.0, house_ratio=0.01, move=move({"cookout_factor": 0.0}))
    middle = simulate(house)

    alone = simulate(in_air(house, 0.4)).weight_share
    among = simulate(in_air(held_as(house, middle), 0.4)).weight_share

    assert among < alone < middle.weight_share
