"""Logs made up so that nothing was wet, or nothing was known, and what they once earned. All invented: the house is run
in the head, and what must not be met follows from it."""

from __future__ import annotations

import numpy as np
import pytest

from pellicle.measured.quality import checked, on_a_word, sock_doubted
from pellicle.measured.series import Array, Series
from pellicle.product import Form
from pellicle.rules.lethality_check import Support, lethality_checks
from pellicle.rules.verdict import Check, Verdict
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import lethality
from pellicle.safety.wetness import contradicted, with_humidity

BEEF = LethalityFacts("beef")
MINUTES = np.arange(0.0, 241.0)
OPTION_3 = Support("A guideline", "2021 option 3", form=Form.WHOLE_MUSCLE)


def judged(series: Series, support: Support = OPTION_3) -> tuple[dict[str, Check], float]:
    """The findings of a log as the command takes it, and what is credited while wet."""
    full = with_humidity(series)
    made, flags = checked(full)
    found = lethality(made, BEEF)
    doubted = sock_doubted(flags) or contradicted(full)
    checks = lethality_checks(made, BEEF, found, support, sock_doubted=doubted)
    return {check.id: check for check in checks}, found["salmonella"].wet or 0.0


def warmed(to_c: float, within: float, minutes: Array = MINUTES) -> Array:
    return 4.0 + (to_c - 4.0) * np.minimum(minutes / within, 1.0)


def test_a_dry_sock_with_noisy_readings_earns_nothing():
    noise = np.random.default_rng(4).normal(0.0, 0.15, MINUTES.size)
    core = np.where(MINUTES < 120, warmed(40.0, 40.0), 66.0)

    checks, wet = judged(Series(60 * MINUTES, np.full(241, 70.0), 70.0 + noise, core_c=core))

    assert wet == pytest.approx(0.0, abs=0.1)
    assert all(checks[f"lethality.{name}"].verdict is not Verdict.MET for name in ("support", "humidity", "row"))
    assert checks["lethality.estimate.salmonella"].verdict is not Verdict.MET


@pytest.mark.parametrize("below", [0.4, 0.7])
def test_a_dry_sock_that_reads_a_little_low_is_found(below: float):
    core = np.where(MINUTES < 120, warmed(40.0, 40.0), 66.0)

    checks, wet = judged(Series(60 * MINUTES, np.full(241, 70.0), np.full(241, 70.0 - below), core_c=core))

    assert wet == pytest.approx(0.0, abs=0.1)
    assert checks["lethality.humidity"].verdict is not Verdict.MET


def test_meat_held_back_far_below_the_wet_bulb_shows_a_sock_that_lies():
    """The sock reads 3 K under the air for hours, and the slices sit at 38 C all the while: they dry in dry air."""
    core = np.interp(MINUTES, [0.0, 20.0, 150.0, 170.0, 240.0], [4.0, 38.0, 39.0, 64.0, 64.0])

    series = Series(60 * MINUTES, np.full(241, 70.0), np.full(241, 67.0), core_c=core)

    assert [flag.id for flag in checked(series)[1]] == ["sock_far"]
    assert judged(series)[1] == 0.0


def test_thick_meat_that_goes_on_warming_is_no_such_sock():
    core = np.minimum(4.0 + 0.4 * MINUTES, 60.0)

    assert checked(Series(60 * MINUTES, np.full(241, 65.0), np.full(241, 62.0), core_c=core))[1] == ()


def moist(minutes: Array = MINUTES) -> tuple[Array, Array, Array]:
    wet = np.minimum(45.0 + minutes, 60.0)
    return wet + 2.0, wet, warmed(60.0, 30.0, minutes)


def test_a_core_pulled_for_24_minutes_is_not_bridged():
    air, wet, core = moist()
    whole = judged(Series(60 * MINUTES, air, wet, core_c=core))[1]
    core = core.copy()
    core[100:124] = 25.0

    checks, found = judged(Series(60 * MINUTES, air, wet, core_c=core))

    # 25 of the 210 minutes at 60 C are gone, and after them nobody saw the surface wet
    assert found < whole * (100 - 30) / 210 * 1.05
    assert checks["lethality.row"].value < 120.0


def test_a_wet_bulb_that_fails_for_25_minutes_is_not_bridged():
    air, wet, core = moist()
    whole = judged(Series(60 * MINUTES, air, wet, core_c=core))[1]
    wet = wet.copy()
    wet[100:125] = np.nan
    cooled = np.where((MINUTES >= 104) & (MINUTES <= 120), 40.0, core)

    found = judged(Series(60 * MINUTES, air, wet, core_c=cooled))[1]

    assert found < whole * (100 - 30) / 210 * 1.05


def test_a_short_dropout_costs_next_to_nothing():
    air, wet, core = moist()
    whole = judged(Series(60 * MINUTES, air, wet, core_c=core))[1]
    wet = wet.copy()
    wet[100:103] = np.nan

    assert judged(Series(60 * MINUTES, air, wet, core_c=core))[1] == pytest.approx(whole, rel=0.01)


def test_typed_rows_with_blanks_count_the_coldest_that_was_read():
    """Dry, wet and core typed every 20 minutes, the core alone in between: it had fallen to 40 C."""
    times = 600.0 * np.arange(13.0)
    sparse = np.arange(13) % 2 == 0
    air, wet = (np.where(sparse, value, np.nan) for value in (62.0, 60.5))
    steady = np.full(13, 60.0)
    dipped = np.where(sparse, 60.0, 40.0)
    series = [with_humidity(Series(times, air, wet, core_c=core)) for core in (steady, dipped)]

    good, bad = (lethality(one, BEEF)["salmonella"].wet for one in series)

    assert good > 20.0
    assert bad < 0.1


def test_three_dry_hours_before_the_humid_one_are_seen():
    dry, humid = MINUTES < 150, MINUTES >= 150
    air = np.where(dry, 70.0, 65.0)
    wet = np.where(dry, 42.0, 63.8)
    core = np.where(humid, 63.0, warmed(58.0, 120.0))

    checks, _ = judged(Series(60 * MINUTES, air, wet, core_c=core))

    assert checks["lethality.humidity"].verdict is not Verdict.MET
    assert checks["lethality.support"].verdict is not Verdict.MET


def test_a_dry_surface_is_not_wetted_by_air_whose_dew_point_is_below_it():
    early = MINUTES < 60
    air, wet = np.where(early, 75.0, 78.0), np.where(early, 40.0, 62.0)
    core = np.where(early, warmed(60.0, 60.0), 61.5)

    checks, found = judged(Series(60 * MINUTES, air, wet, core_c=core))

    assert found < 1.0
    assert checks["lethality.estimate.salmonella"].verdict is not Verdict.MET


def test_a_word_that_the_sock_was_wet_meets_nothing_by_itself():
    core = warmed(60.0, 30.0)
    series = Series(60 * MINUTES, np.full(241, 62.0), np.full(241, 61.8), core_c=core)
    doubted, flags = checked(series, sock_checked=True)
    made = with_humidity(doubted)

    found = lethality_checks(made, BEEF, lethality(made, BEEF), OPTION_3, on_a_word=on_a_word(flags))

    by_id = {check.id: check for check in found}
    assert by_id["lethality.humidity"].verdict is Verdict.CANNOT_TELL
    assert "who saw it" in str(by_id["lethality.estimate.salmonella"].why)


def test_no_word_helps_a_sock_that_meat_contradicts():
    """An owner's log: the sock 0.2 K under air of 79 C for hours, and no slice above 71 C."""
    core = np.interp(MINUTES, [0.0, 30.0, 240.0], [4.0, 69.0, 71.0])
    series = Series(60 * MINUTES, np.full(241, 79.4), np.full(241, 79.2), core_c=core)

    doubted, flags = checked(series, sock_checked=True)

    assert sock_doubted(flags)
    assert (lethality(with_humidity(doubted), BEEF)["salmonella"].wet or 0.0) == 0.0


def test_a_dry_sock_leaves_what_rests_on_it_untold_and_not_unmet():
    core = np.where(MINUTES < 120, warmed(40.0, 40.0), 66.0)

    checks, _ = judged(Series(60 * MINUTES, np.full(241, 70.0), np.full(241, 69.8), core_c=core))

    assert checks["lethality.estimate.salmonella"].verdict is Verdict.CANNOT_TELL
    assert checks["lethality.humidity"].verdict is Verdict.CANNOT_TELL


@pytest.mark.parametrize("began_c", [54.0, 61.0])
def test_a_record_that_begins_warm_shows_no_warming_up(began_c: float):
    air, wet, core = moist()

    checks, _ = judged(Series(60 * MINUTES, air, wet, core_c=np.maximum(core, began_c) + 0.01 * (MINUTES % 2)))

    assert checks["lethality.come_up"].verdict is Verdict.CANNOT_TELL
    assert "begins with a core" in str(checks["lethality.come_up"].why)
    assert checks["lethality.support"].verdict is Verdict.CANNOT_TELL


def test_a_core_that_never_moves_shows_no_warming_up_either():
    air, wet, _ = moist()

    checks, found = judged(Series(60 * MINUTES, air, wet, core_c=np.full(241, 61.0)))

    assert checks["lethality.come_up"].verdict is Verdict.CANNOT_TELL
    assert found == 0.0


def test_an_option_without_its_document_supports_nothing():
    air, wet, core = moist()

    checks, _ = judged(Series(60 * MINUTES, air, wet, core_c=core), Support("", "2021 option 4"))

    assert checks["lethality.support"].verdict is Verdict.CANNOT_TELL


def test_the_same_cook_logged_well_is_met():
    air, wet, core = moist()

    checks, _ = judged(Series(60 * MINUTES, air - 0.9, wet, core_c=core), Support("A guideline", "2021 option 4"))

    assert {checks[f"lethality.{name}"].verdict for name in ("support", "humidity", "row", "come_up")} == {Verdict.MET}
    assert checks["lethality.estimate.salmonella"].verdict is Verdict.MET


LONG = np.arange(0.0, 301.0)
CHECKS = ("support", "humidity", "row", "come_up")


def held_back(until: float = 120.0) -> Array:
    """A core that evaporation holds at 38 C, and that then warms to 63 C."""
    return np.interp(LONG, [0.0, 20.0, until, until + 20.0, 300.0], [4.0, 38.0, 38.5, 63.0, 63.0])


def honest(noise: float, seed: int = 1) -> Series:
    """Slices from 3 C in air of 93 %, brought up in half an hour; every reading scatters."""
    draw = np.random.default_rng(seed).normal
    air = np.minimum(45.0 + LONG, 64.5)
    wet = np.minimum(43.2 + LONG, 62.8)
    core = np.empty(LONG.size)
    core[0] = 3.0
    for at in range(1, LONG.size):
        core[at] = core[at - 1] + (wet[at] - core[at - 1]) / 8.0
    air, wet, core = (column + draw(0.0, noise, LONG.size) for column in (air, wet, core))
    return Series(60 * LONG, air, wet, core_c=core)


@pytest.mark.parametrize("noise", [0.1, 0.2, 0.3])
@pytest.mark.parametrize("seed", range(4))
def test_an_honest_humid_cook_is_met_whatever_its_readings_scatter(noise: float, seed: int):
    checks, wet = judged(honest(noise, seed))

    assert {checks[f"lethality.{name}"].verdict for name in CHECKS} == {Verdict.MET}
    assert checks["lethality.estimate.salmonella"].verdict is Verdict.MET
    assert wet > 50.0


def test_a_few_dropouts_of_a_row_or_two_cost_little():
    series = honest(0.2)
    wet, core = series.wet_bulb_c.copy(), series.core_c.copy()
    wet[[70, 71, 140]], core[[100, 200, 201]] = np.nan, np.nan

    checks, found = judged(Series(series.time_s, series.air_c, wet, core_c=core))

    assert found == pytest.approx(judged(series)[1], rel=0.05)
    assert checks["lethality.support"].verdict is Verdict.MET


def test_a_probe_read_before_it_is_put_in_is_no_warm_start():
    series = honest(0.1)
    core = np.concatenate([np.full(3, 21.0), series.core_c[:-3]])

    checks, _ = judged(Series(series.time_s, series.air_c, series.wet_bulb_c, core_c=core))

    assert checks["lethality.come_up"].verdict is Verdict.MET


def test_thin_slices_in_a_hot_house_are_no_pulled_probe():
    core = 64.0 - 61.0 * np.exp(-LONG / 2.0)

    flags = checked(Series(60 * LONG, np.full(301, 65.0), np.full(301, 63.0), core_c=core))[1]

    assert "pulled" not in {flag.id for flag in flags}


@pytest.mark.parametrize("humidity", [0.97, 1.0])
def test_a_humidity_sensor_that_sticks_is_no_better_than_a_dry_sock(humidity: float):
    checks, wet = judged(Series(60 * LONG, np.full(301, 70.0), humidity=np.full(301, humidity), core_c=held_back()))

    assert wet == 0.0
    assert checks["lethality.support"].verdict is not Verdict.MET


def test_a_humidity_that_its_own_wet_bulb_contradicts_meets_nothing():
    core = warmed(63.0, 40.0, LONG)
    series = Series(60 * LONG, np.full(301, 65.0), np.full(301, 42.0), np.full(301, 0.95), core)

    checks, _ = judged(series)

    assert all(checks[f"lethality.{name}"].verdict is not Verdict.MET for name in ("support", "humidity", "row"))


def test_a_humidity_without_its_dry_bulb_meets_nothing():
    checks, _ = judged(Series(60 * LONG, humidity=np.full(301, 0.95), core_c=warmed(63.0, 40.0, LONG)))

    assert checks["lethality.humidity"].verdict is Verdict.CANNOT_TELL


def test_two_missing_rows_do_not_hide_a_sock_that_meat_contradicts():
    core = held_back()
    core[[60, 110]] = np.nan

    checks, wet = judged(Series(60 * LONG, np.full(301, 70.0), np.full(301, 68.8), core_c=core))

    assert wet == 0.0
    assert checks["lethality.support"].verdict is not Verdict.MET


@pytest.mark.parametrize("held_c", [45.0, 50.0, 55.0])
def test_meat_held_at_the_real_wet_bulb_contradicts_the_sock(held_c: float):
    core = np.interp(LONG, [0.0, 20.0, 120.0, 140.0, 300.0], [4.0, held_c, held_c + 0.5, 63.0, 63.0])

    checks, wet = judged(Series(60 * LONG, np.full(301, 65.0), np.full(301, 63.8), core_c=core))

    assert wet == 0.0
    assert checks["lethality.support"].verdict is not Verdict.MET


def test_a_sock_above_the_dry_bulb_again_and_again_is_not_bridged():
    noise = np.random.default_rng(3).normal(0.0, 0.3, 301)

    checks, wet = judged(Series(60 * LONG, np.full(301, 65.0), 66.3 + noise, core_c=warmed(63.0, 40.0, LONG)))

    assert wet == 0.0
    assert checks["lethality.support"].verdict is not Verdict.MET


@pytest.mark.parametrize("way", ["failed", "not logged", "began late"])
def test_two_hours_of_which_nothing_is_known_are_not_taken_for_wet(way: str):
    air, wet = np.where(LONG < 150, 70.0, 65.0), np.where(LONG < 150, 42.0, 63.3)
    core = np.interp(LONG, [0.0, 30.0, 140.0, 170.0, 300.0], [4.0, 45.0, 58.0, 63.0, 63.0])
    kept = (LONG < 10) | (LONG > 148)
    if way == "not logged":
        series = Series(60 * LONG[kept], air[kept], wet[kept], core_c=core[kept])
    else:
        known = kept if way == "failed" else LONG >= 150
        series = Series(60 * LONG, air, np.where(known, wet, np.nan), core_c=core)

    checks, _ = judged(series)

    assert all(checks[f"lethality.{name}"].verdict is not Verdict.MET for name in ("support", "humidity", "row"))


@pytest.mark.parametrize("seed", range(5))
def test_the_scatter_of_readings_does_not_wet_a_dry_surface(seed: int):
    """The dew point stands at 61.8 C (65 and 62 C), the dried core half a degree over it."""
    noise = np.random.default_rng(seed).normal(0.0, 0.3, (3, 301))
    early = LONG < 150
    air, wet = np.where(early, 70.0, 65.0), np.where(early, 42.0, 62.0)
    core = np.interp(LONG, [0.0, 120.0, 150.0, 300.0], [4.0, 58.0, 62.3, 62.3])

    _, found = judged(Series(60 * LONG, air + noise[0], wet + noise[1], core_c=core + noise[2]))

    assert found < 1.0
