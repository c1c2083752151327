"""What is wrong with a log, and what is then taken out of it."""

from __future__ import annotations

import numpy as np

from pellicle.measured.quality import checked
from pellicle.measured.series import Series

TIMES = 60.0 * np.arange(0.0, 121.0)


def flat(value: float) -> np.ndarray:
    return np.full(TIMES.size, value)


def wandering(value: float) -> np.ndarray:
    return value + 0.2 * np.sin(np.arange(TIMES.size))


def ids(series: Series, sock_checked: bool = False) -> list[str]:
    return [flag.id for flag in checked(series, sock_checked)[1]]


def test_a_sock_that_reads_as_warm_as_the_air_is_not_counted() -> None:
    wet = np.where(TIMES < 3600, wandering(55.0), wandering(70.0))
    series = Series(TIMES, air_c=wandering(70.0), wet_bulb_c=wet)
    found, flags = checked(series)
    assert [flag.id for flag in flags] == ["dry_sock"]
    assert found.wet_bulb_c is not None
    # readings scatter, so the ten minutes around the change may fall on either side
    assert np.isnan(found.wet_bulb_c[TIMES >= 3900]).all()
    assert np.isfinite(found.wet_bulb_c[TIMES < 3300]).all()
    assert found.broken_in("wet_bulb_c")[TIMES >= 3900].all()


def test_a_sock_seen_wet_in_steam_is_counted_and_said() -> None:
    series = Series(TIMES, air_c=wandering(70.0), wet_bulb_c=wandering(70.0))
    found, flags = checked(series, sock_checked=True)
    assert [flag.id for flag in flags] == ["sock_steam"]
    assert found.wet_bulb_c is not None
    assert np.isfinite(found.wet_bulb_c).all()


def test_a_wet_bulb_above_the_dry_bulb_cannot_be() -> None:
    found, flags = checked(Series(TIMES, air_c=wandering(55.0), wet_bulb_c=wandering(70.0)))
    assert {flag.id for flag in flags} >= {"over_dry", "sock_over"}
    assert found.wet_bulb_c is not None
    assert np.isnan(found.wet_bulb_c).all()


def test_fahrenheit_under_a_name_that_says_celsius_is_not_counted() -> None:
    found, flags = checked(Series(TIMES, air_c=wandering(158.0), wet_bulb_c=wandering(144.0)))
    assert {flag.id for flag in flags} == {"over_boiling"}
    assert "in F under a name that says C" in str(flags[0].text)
    assert found.wet_bulb_c is not None
    assert np.isnan(found.wet_bulb_c).all()


def test_a_core_that_stands_still_while_the_air_moves_has_stopped() -> None:
    air = np.linspace(50.0, 75.0, TIMES.size)
    found, flags = checked(Series(TIMES, air_c=air, core_c=flat(58.3)))
    assert [flag.id for flag in flags] == ["flat"]
    assert found.core_c is not None
    assert np.isnan(found.core_c).all()


def test_air_held_still_by_the_house_is_no_fault() -> None:
    rising = np.linspace(5.0, 58.0, TIMES.size)
    series = Series(TIMES, air_c=flat(70.0), wet_bulb_c=flat(60.0), core_c=rising)
    assert ids(series) == []
    found, _ = checked(series)
    assert not found.broken_in("air_c", "wet_bulb_c", "core_c").any()
    assert found.core_c is series.core_c


def test_a_probe_pulled_out_is_not_counted_until_it_is_back() -> None:
    core = np.linspace(20.0, 50.0, TIMES.size)
    core[60:80] = 72.0
    found, flags = checked(Series(TIMES, air_c=wandering(72.0), core_c=core))
    assert [flag.id for flag in flags] == ["pulled"]
    assert found.core_c is not None
    assert np.isnan(found.core_c[60:80]).all()
    assert np.isfinite(found.core_c[:60]).all()
    assert np.isfinite(found.core_c[80:]).all()


def test_a_clock_that_jumps_by_an_hour_is_told_from_missing_minutes() -> None:
    jumped = np.where(TIMES >= 3600, TIMES + 3600, TIMES)
    assert ids(Series(jumped, core_c=wandering(40.0))) == ["clock_jump"]
    late = np.where(TIMES >= 3600, TIMES + 1500, TIMES)
    assert ids(Series(late, core_c=wandering(40.0))) == ["gap"]


def test_missing_minutes_are_counted() -> None:
    kept = np.ones(TIMES.size, bool)
    kept[[10, 11, 30, 31, 32, 50, 51, 90, 91, 92]] = False
    series = Series(TIMES[kept], core_c=wandering(40.0)[kept])
    flags = {flag.id: flag for flag in checked(series)[1]}
    assert flags["missing"].seconds == 600.0
