"""Humidity options of published guidance: worked examples and a truth table.

Source: FSIS cooking guideline 2021, table 1 (options 1 to 4), and the jerky guideline of 2012 and 2014 (A to C).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from agreement import agrees
from pellicle.errors import InputError
from pellicle.measured.series import Series
from pellicle.product import Form
from pellicle.rules.humidity_gate import HumidityEvidence, judge, most_humidity, option, possible
from pellicle.rules.lethality_holds import judge_hold, validated
from pellicle.rules.verdict import Verdict
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.table_hold import ramp_log
from pellicle.safety.wetness import with_humidity

MET, NOT_MET, CANNOT_TELL = Verdict.MET, Verdict.NOT_MET, Verdict.CANNOT_TELL
F140, F143, F145 = ((f - 32) / 1.8 for f in (140, 143, 145))


def verdict(named: str, endpoint_c: float | None, cook_min: float | None, held_min: float | None) -> Verdict:
    chosen = option(named)
    held = None if held_min is None else held_min * 60
    kinds = {"humidity": "humid_s", "steam": "steam_s", "sealed": "sealed_s"}
    cook = None if cook_min is None else cook_min * 60
    return judge(chosen, HumidityEvidence(cook, endpoint_c, **{kinds[chosen.evidence]: held})).verdict


@pytest.mark.parametrize(
    ("named", "endpoint_c", "cook_min", "held_min", "expected"),
    [
        # worked examples
        ("2021 option 3", F140, 300, 60, NOT_MET),  # 5 h cook: a quarter is 75 min
        ("2021 option 3", F140, 300, 75, MET),
        ("2021 option 3", F145, 50, 30, NOT_MET),  # under an hour only option 4 fits
        ("2021 option 1", F143, 180, 108, NOT_MET),  # steam for 60 %, but the row is at 143 F
        # longer of share and hour
        ("2021 option 3", F140, 100, 59, NOT_MET),
        ("2021 option 3", F140, 100, 60, MET),
        ("2021 option 1", F145, 100, 50, NOT_MET),  # half of 100 min is under the hour
        ("2021 option 1", F145, 100, 60, MET),
        ("2021 option 1", F145, 180, 89, NOT_MET),
        ("2021 option 1", F145, 180, 90, MET),
        ("2021 option 2", F145, 180, 90, MET),
        ("2021 option 2", F140, 180, 180, NOT_MET),
        # all the time
        ("2021 option 4", F140, 40, 40, MET),
        ("2021 option 4", F140, 40, 39, NOT_MET),
        ("2021 option 4", F145, 300, 299, NOT_MET),
        # 2012 and 2014
        ("2014 A steam", F145, 60, 30, MET),
        ("2014 A sealed", F145, 60, 30, NOT_MET),  # more than half
        ("2014 A sealed", F145, 60, 31, MET),
        ("2012 option B", F145, 300, 75, MET),
        ("2014 option B", F140, 300, 75, NOT_MET),
        ("2014 option C", F140, 300, 75, MET),
        ("2014 option C", F140, 120, 59, NOT_MET),  # never less than an hour
        ("2007", F140, 120, 119, NOT_MET),
        # missing evidence
        ("2021 option 3", F140, 300, None, CANNOT_TELL),
        ("2021 option 1", F145, 300, None, CANNOT_TELL),
        ("2021 option 3", None, None, 300, CANNOT_TELL),
    ],
)
def test_truth_table(
    named: str, endpoint_c: float | None, cook_min: float | None, held_min: float | None, expected: Verdict
) -> None:
    assert verdict(named, endpoint_c, cook_min, held_min) is expected


def test_an_option_out_of_force_on_the_day_of_the_cook_cannot_be_told() -> None:
    evidence = HumidityEvidence(18000, F145, humid_s=18000)
    assert judge(option("2014 option C"), evidence, date(2016, 5, 1)).verdict is MET
    assert judge(option("2014 option C"), evidence, date(2026, 5, 1)).verdict is CANNOT_TELL


def test_an_option_that_is_none_is_refused_with_those_we_know() -> None:
    with pytest.raises(InputError, match="2021 option 3"):
        option("2021 option 9")


def test_no_air_of_225_f_holds_90_per_cent() -> None:
    """Worked example: at sea level pure steam of 225 F is at most 77.6 %, so options 3 and 4 are impossible."""
    hot = (225 - 32) / 1.8
    assert agrees(100 * most_humidity(hot), "77.6")
    assert [possible(option(f"2021 option {at}"), hot) for at in (1, 2, 3, 4)] == [True, True, False, False]


def test_the_ceiling_for_90_per_cent_is_217_3_f_at_sea_level() -> None:
    chosen = option("2021 option 3")
    assert possible(chosen, (217.2 - 32) / 1.8)
    assert not possible(chosen, (217.4 - 32) / 1.8)


def test_the_ceiling_for_90_per_cent_is_208_0_f_at_84_3_kpa() -> None:
    chosen = option("2021 option 3")
    assert possible(chosen, (207.9 - 32) / 1.8, 84300.0)
    assert not possible(chosen, (208.1 - 32) / 1.8, 84300.0)


def hold(wet_bulb_c: float, minutes: int, dry_after: bool = True) -> Series:
    times = 60.0 * np.arange(0.0, minutes + 61.0)
    held = times <= 60 * minutes
    air = np.where(held | (not dry_after), wet_bulb_c + 5, 76.7)
    wet = np.where(held, wet_bulb_c, 40.0)
    return Series(times, air_c=air, wet_bulb_c=wet, core_c=np.minimum(wet, wet_bulb_c))


@pytest.mark.parametrize(("wet_bulb_c", "minutes"), [(51.7, 60), (54.4, 60), (57.2, 30), (60.0, 10)])
def test_a_validated_hold_that_was_named_and_held(wet_bulb_c: float, minutes: int) -> None:
    named = f"{wet_bulb_c} C for {minutes} min"
    assert judge_hold(named, hold(wet_bulb_c, minutes), "beef", Form.WHOLE_MUSCLE, as_studied=True).verdict is MET
    assert judge_hold(named, hold(wet_bulb_c, minutes), "beef", Form.WHOLE_MUSCLE).verdict is CANNOT_TELL
    assert judge_hold(named, hold(wet_bulb_c, minutes - 1), "beef", Form.WHOLE_MUSCLE).verdict is NOT_MET
    assert judge_hold(named, hold(wet_bulb_c, minutes, False), "beef", Form.WHOLE_MUSCLE, True).verdict is CANNOT_TELL
    assert judge_hold(named, hold(wet_bulb_c, minutes), "turkey", Form.WHOLE_MUSCLE, True).verdict is CANNOT_TELL
    assert judge_hold(named, hold(wet_bulb_c, minutes), "beef", Form.GROUND, True).verdict is CANNOT_TELL


def test_a_hold_comes_before_the_dry_stage_and_not_after_it() -> None:
    """A minute at 77 C at the start, or an hour of dry heat before the hold, is another process than the one tried."""
    moist = hold(57.2, 30, dry_after=False)
    early = replace(moist, air_c=np.where(moist.time_s < 60, 77.0, moist.air_c))
    assert judge_hold("57.2 C for 30 min", early, "beef", Form.WHOLE_MUSCLE, True).verdict is CANNOT_TELL

    held = hold(57.2, 30)
    dry = 60.0 * np.arange(60.0)
    first = Series(
        np.concatenate([dry, held.time_s + 3600.0]),
        air_c=np.concatenate([np.full(60, 80.0), held.air_c]),
        wet_bulb_c=np.concatenate([np.full(60, 35.0), held.wet_bulb_c]),
        core_c=np.concatenate([np.linspace(5.0, 55.0, 60), held.core_c]),
    )
    found = judge_hold("57.2 C for 30 min", with_humidity(first), "beef", Form.WHOLE_MUSCLE, True)
    assert found.verdict is CANNOT_TELL
    assert "come first" in str(found.why)


def test_a_hold_that_no_study_reached_is_not_judged() -> None:
    assert validated(50.0, 7200.0) is None
    assert judge_hold("50 C for 120 min", hold(50.0, 120), "beef", Form.WHOLE_MUSCLE).verdict is CANNOT_TELL


@pytest.mark.parametrize(
    ("wet_bulb_f", "minutes", "log"), [(125, 60, "1.1"), (130, 60, "3.5"), (135, 30, "5.5"), (140, 10, "5.8")]
)
def test_a_hold_alone_falls_short_of_what_the_whole_process_reached(wet_bulb_f: float, minutes: int, log: str) -> None:
    """Review of the holds (printed as 51.7, 54.4, 57.2 and 60 C): by the line of the beef table the first two need the
    moist rise after them as well."""
    times = 60.0 * np.arange(0.0, minutes + 1.0)
    found = ramp_log(Series(times, core_c=np.full(times.size, (wet_bulb_f - 32) / 1.8)), LethalityFacts("beef"))
    assert found is not None
    assert agrees(found, log)
