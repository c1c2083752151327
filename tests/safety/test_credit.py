"""What is credited: only while wet, at the coldest, across gaps and crossings, inside whole muscle, after a history."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from pellicle.measured.series import Origin, Series
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import Lethality, lethality, survivors_mean, wet_history
from pellicle.safety.wetness import with_humidity

BEEF = LethalityFacts("beef")
HALF_HOUR = 60.0 * np.arange(0.0, 31.0)


def salmonella(series: Series, facts: LethalityFacts = BEEF) -> Lethality:
    return lethality(series, facts)["salmonella"]


def level(value: float, times: np.ndarray = HALF_HOUR) -> np.ndarray:
    return np.full(times.size, value)


def log_of(core: float = 60.0, wet: float | None = 60.0, times: np.ndarray = HALF_HOUR, air: float = 65.0) -> Series:
    wet_bulb = None if wet is None else level(wet, times)
    return Series(times, air_c=level(air, times), wet_bulb_c=wet_bulb, core_c=level(core, times))


def run_of(
    times: np.ndarray, core: np.ndarray, face: np.ndarray, aw: np.ndarray, open_faces: tuple[bool, bool] = (True, True)
) -> Series:
    both = np.stack([face, face], axis=1)
    wet = np.stack([aw, aw], axis=1)
    return Series(times, core_c=core, face_c=both, face_aw=wet, open_faces=open_faces, origin=Origin.SIMULATED)


def test_half_an_hour_at_60_wet_is_11_4_log_by_the_line_for_decisions() -> None:
    """30 / 2.63 (the review's own figure)."""
    assert salmonella(log_of()).wet == pytest.approx(30 / 2.63)


def test_without_a_wet_bulb_nothing_is_credited_and_nothing_stands_in_for_it() -> None:
    found = salmonella(log_of(wet=None))
    assert found.wet is None
    assert found.wet_lower is None
    assert found.withheld["wet"].id == "safety.wet_no_humidity"
    assert found.table == 6.5  # the row is another number, and another finding


def test_without_a_core_nothing_is_credited_whatever_the_air_was() -> None:
    series = Series(HALF_HOUR, air_c=level(65.0), wet_bulb_c=level(60.0))
    found = salmonella(series)
    assert (found.wet, found.table, found.table_ramp) == (None, None, None)


def test_a_humidity_is_as_good_as_a_wet_bulb_and_gives_the_same() -> None:
    by_wet_bulb = with_humidity(log_of(core=58.0, wet=58.0))
    assert by_wet_bulb.humidity is not None
    by_humidity = with_humidity(Series(HALF_HOUR, air_c=level(65.0), humidity=by_wet_bulb.humidity, core_c=level(58.0)))
    assert salmonella(by_humidity).wet == pytest.approx(salmonella(by_wet_bulb).wet, rel=0.02)


def test_the_coldest_of_core_and_wet_bulb_counts() -> None:
    assert salmonella(log_of(core=62.0, wet=60.0)).wet is not None
    cooler_core = salmonella(log_of(core=57.0, wet=60.0)).wet
    cooler_air = salmonella(log_of(core=60.0, wet=59.0)).wet
    assert cooler_core == pytest.approx(30 / (2.63 * 10 ** (3 / 5.32)))
    assert cooler_air is not None
    assert cooler_air < 30 / (2.63 * 10 ** (1 / 5.32)) + 1e-9


def test_a_product_well_above_the_wet_bulb_shows_a_dry_surface() -> None:
    assert salmonella(log_of(core=70.0, wet=60.0, air=80.0)).wet == 0.0


def test_a_surface_once_dry_stays_dry_until_water_condenses_on_it() -> None:
    times = 60.0 * np.arange(0.0, 61.0)
    wet = np.where(times < 1200, 40.0, 60.0)
    core = np.where(times < 1200, 50.0, 61.0)
    never_wetted = Series(times, air_c=level(68.0, times), wet_bulb_c=wet, core_c=core)
    assert salmonella(never_wetted).wet == 0.0
    # a wet bulb over the core is not enough: at 68 and 61.5 C the dew point is 61.1 C, at 66 and 62 C it is 61.8 C
    # (handbook of psychrometrics, own reading); what is no warmer than that is wetted
    warmer = Series(times, air_c=level(68.0, times), wet_bulb_c=np.where(times < 1800, wet, 61.5), core_c=core + 0.3)
    assert salmonella(with_humidity(warmer)).wet == 0.0
    steamed = with_humidity(
        Series(times, air_c=level(66.0, times), wet_bulb_c=np.where(times < 1800, wet, 65.0), core_c=core)
    )
    found = salmonella(steamed).wet
    assert found is not None
    assert found > 5.0


def test_credit_ends_where_the_face_passes_0_95_inside_a_step() -> None:
    """Water activity falls straight from 0.99 to 0.91 in ten minutes: wet for the first five."""
    ten = np.array([0.0, 600.0])
    found = salmonella(run_of(ten, np.full(2, 60.0), np.full(2, 60.0), np.array([0.99, 0.91])))
    assert found.credited_s == pytest.approx(300.0)
    fine = np.linspace(0.0, 600.0, 601)
    again = salmonella(run_of(fine, level(60.0, fine), level(60.0, fine), np.linspace(0.99, 0.91, 601)))
    assert found.wet == pytest.approx(again.wet, rel=0.02)


def test_a_face_that_wets_again_is_credited_from_its_crossing() -> None:
    times = np.array([0.0, 600.0])
    found = salmonella(run_of(times, np.full(2, 60.0), np.full(2, 60.0), np.array([0.91, 0.99])))
    assert found.credited_s == pytest.approx(300.0)


def test_the_worse_of_two_open_faces_counts_and_a_closed_one_does_not() -> None:
    times = HALF_HOUR
    faces = np.stack([level(60.0), level(60.0)], axis=1)
    aw = np.stack([level(0.90), level(0.99)], axis=1)
    values = {"core_c": level(60.0), "face_c": faces, "face_aw": aw, "origin": Origin.SIMULATED}
    assert salmonella(Series(times, **values)).wet == 0.0
    assert salmonella(Series(times, open_faces=(False, True), **values)).wet == pytest.approx(30 / 2.63)


def test_germs_inside_whole_muscle_take_twice_as_long() -> None:
    assert salmonella(log_of(), LethalityFacts("beef", inside=True)).wet == pytest.approx(30 / 2.63 / 2)


def test_an_hour_of_sub_lethal_warmth_multiplies_the_time_by_2_6() -> None:
    times = 60.0 * np.arange(0.0, 121.0)
    core = np.where(times < 3660, 50.0, 60.0)
    slow = salmonella(Series(times, air_c=level(66.0, times), wet_bulb_c=core, core_c=core))
    quick = salmonella(Series(times[61:], air_c=level(66.0, times[61:]), wet_bulb_c=core[61:], core_c=core[61:]))
    assert slow.wet is not None
    assert quick.wet is not None
    hour_at_50 = 61 / (2.63 * 10 ** (10 / 5.32))
    assert slow.wet == pytest.approx(quick.wet / 2.6 + hour_at_50, rel=0.06)


def test_between_points_six_minutes_apart_only_the_lower_end_counts() -> None:
    apart = np.array([0.0, 360.0])
    warm = np.array([57.0, 60.0])
    found = salmonella(Series(apart, air_c=warm + 5, wet_bulb_c=warm, core_c=warm))
    assert found.wet == pytest.approx(6 / (2.63 * 10 ** (3 / 5.32)))


def test_between_points_31_minutes_apart_nothing_counts() -> None:
    apart = np.array([0.0, 1860.0])
    found = salmonella(Series(apart, air_c=np.full(2, 65.0), wet_bulb_c=np.full(2, 60.0), core_c=np.full(2, 60.0)))
    assert (found.wet, found.table, found.table_ramp) == (0.0, 0.0, 0.0)


def test_a_simulated_series_has_no_gaps() -> None:
    apart = np.array([0.0, 1860.0])
    found = salmonella(run_of(apart, np.full(2, 60.0), np.full(2, 60.0), np.full(2, 0.99)))
    assert found.wet == pytest.approx(31 / 2.63)


def test_a_row_has_to_be_held_without_a_break() -> None:
    """12 min at 140 F: six, a dip, and six more are not twelve; the integral beside it does not care."""
    times = 60.0 * np.arange(0.0, 14.0)
    core = level(60.01, times)
    core[6] = 53.0
    found = salmonella(Series(times, core_c=core))
    assert found.table == 0.0
    assert found.table_ramp is not None
    assert found.table_ramp > 5.0
    assert salmonella(Series(times, core_c=level(60.01, times))).table == 6.5


def test_the_error_of_the_probe_is_taken_off_before_a_row_is_held() -> None:
    times = 60.0 * np.arange(0.0, 13.0)
    series = Series(times, core_c=level(60.0, times))
    assert salmonella(series).table == 6.5
    assert salmonella(series, LethalityFacts("beef", probe_error_c=0.5)).table == 0.0


def test_dryness_and_sugar_cost_local_lethality() -> None:
    times = HALF_HOUR
    outer = {"outer_c": np.full((31, 2), 60.0), "outer_weight": np.array([0.5, 0.5]), "origin": Origin.SIMULATED}
    faces = {"core_c": level(60.0), "face_c": np.full((31, 2), 60.0)}

    def local(aw: float, sugar: float = 0.0) -> float:
        wet = {"face_aw": np.full((31, 2), aw), "outer_aw": np.full((31, 2), aw)}
        found = salmonella(Series(times, **outer, **faces, **wet), LethalityFacts("beef", sugar_share=sugar)).local
        assert found is not None
        return found

    assert local(0.99) > local(0.95) > local(0.85) > local(0.85, sugar=1.0) > 0.0


def test_what_is_expected_adds_drying_and_says_how_wide() -> None:
    times = 3600.0 * np.arange(0.0, 11.0)
    cool = {"core_c": level(20.0, times), "face_c": np.full((11, 2), 20.0), "outer_c": np.full((11, 1), 20.0)}
    dry = {"face_aw": np.full((11, 2), 0.8), "outer_aw": np.full((11, 1), 0.8), "outer_weight": np.ones(1)}
    found = salmonella(Series(times, **cool, **dry, origin=Origin.SIMULATED))
    assert found.expected == pytest.approx(3.0, abs=0.01)  # 4 h of 0.6, then 0.1, at most 3 in all
    assert found.expected_low == pytest.approx(0.4, abs=0.01)
    assert found.expected_high == pytest.approx(5.6, abs=0.01)
    assert found.wet == 0.0


def test_the_bound_is_the_tenth_percentile_about_the_published_mean_and_not_of_the_envelope() -> None:
    """The review's own arithmetic: 17.4 log by the mean line over 3.25 is 5.4, with log D known to 0.4."""
    found = salmonella(log_of())
    assert found.wet_lower == pytest.approx(30 / 1.72 / 3.25, rel=0.05)


def test_poultry_is_never_quicker_than_its_printed_table() -> None:
    for fahrenheit in range(136, 165):
        celsius = (fahrenheit - 32) / 1.8
        found = salmonella(log_of(celsius, celsius, air=celsius + 5), LethalityFacts("turkey"))
        by_table = salmonella(log_of(celsius, celsius, air=celsius + 5), LethalityFacts("duck"))
        assert found.wet is not None
        assert by_table.table_ramp is not None
        assert found.wet <= by_table.table_ramp + 1e-9


def test_what_is_credited_by_every_row_ends_at_the_number() -> None:
    series = log_of()
    history = wet_history(series, BEEF)
    assert history is not None
    assert history[0] == 0.0
    assert np.all(np.diff(history) > 0)
    assert history[-1] == pytest.approx(salmonella(series).wet)


@given(warm=some.floats(50.0, 70.0), more=some.floats(0.1, 5.0))
def test_warmer_never_credits_less(warm: float, more: float) -> None:
    cooler, warmer = (salmonella(log_of(value, value, air=value + 5)) for value in (warm, warm + more))
    assert cooler.wet is not None
    assert warmer.wet is not None
    assert warmer.wet > cooler.wet
    assert cooler.wet_lower is not None
    assert cooler.wet_lower <= cooler.wet


@given(cut=some.integers(1, 29))
def test_a_log_cut_in_two_adds_up(cut: int) -> None:
    rising = np.linspace(50.0, 62.0, 31)
    whole = Series(HALF_HOUR, air_c=rising + 5, wet_bulb_c=rising, core_c=rising)
    parts = [
        Series(HALF_HOUR[at], air_c=rising[at] + 5, wet_bulb_c=rising[at], core_c=rising[at])
        for at in (slice(0, cut + 1), slice(cut, 31))
    ]
    logs = [salmonella(part).wet for part in (whole, *parts)]
    assert logs[0] == pytest.approx((logs[1] or 0.0) + (logs[2] or 0.0))


def test_few_survivors_in_the_coldest_layer_decide_the_mean() -> None:
    assert survivors_mean([20.0, 2.0], np.array([0.9, 0.1])) == pytest.approx(3.0)
    assert survivors_mean([400.0, 400.0], np.array([0.5, 0.5])) == 400.0
