"""Findings on logs and runs: support and estimate apart, cannot tell where evidence lacks, hazards by name."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pellicle.measured.series import Origin, Series
from pellicle.product import Form
from pellicle.rules.lethality_check import Support, lethality_checks
from pellicle.rules.lethality_growth import growth_checks
from pellicle.rules.verdict import Check, Verdict
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.growth import growth
from pellicle.safety.lethality import lethality
from pellicle.safety.process_times import process_times
from pellicle.safety.wetness import wetness, with_humidity

BEEF = LethalityFacts("beef")
OPTION_3 = Support("A guideline", "2021 option 3", form=Form.WHOLE_MUSCLE)
MINUTES = np.arange(0.0, 181.0)


def humid(gap: float = 1.0, hold_c: float = 61.0, minutes: np.ndarray = MINUTES) -> Series:
    """A house that is brought up in an hour with the dry bulb ``gap`` K over the wet bulb, then held."""
    wet = np.minimum(20.0 + minutes, hold_c)
    # the record begins with cold meat
    core = np.minimum(4.0 + 2.0 * minutes, np.maximum(wet - 2.0, 5.0))
    return with_humidity(Series(60 * minutes, air_c=wet + gap, wet_bulb_c=wet, core_c=core))


def findings(
    series: Series, facts: LethalityFacts = BEEF, support: Support = OPTION_3, told: bool = True
) -> dict[str, Check]:
    checks = lethality_checks(series, facts, lethality(series, facts), support, told)
    return {check.id: check for check in checks}


def test_a_humid_cook_meets_its_support_and_our_estimate() -> None:
    found = findings(humid())
    assert found["lethality.row"].verdict is Verdict.MET
    assert found["lethality.humidity"].verdict is Verdict.MET
    assert found["lethality.support"].verdict is Verdict.MET
    assert found["lethality.estimate.salmonella"].verdict is Verdict.MET
    assert "lethality.disagree" not in found


def test_a_dry_cook_that_held_its_row_meets_nothing() -> None:
    """A printed row counts only with its humidity, so it is not met by itself."""
    found = findings(humid(gap=25.0))
    assert found["lethality.row"].verdict is Verdict.CANNOT_TELL
    assert "The humidity that goes with it is: not met" in str(found["lethality.row"].why)
    assert found["lethality.humidity"].verdict is Verdict.NOT_MET
    assert found["lethality.support"].verdict is Verdict.NOT_MET


def test_no_named_option_cannot_be_told_whatever_the_log_shows() -> None:
    found = findings(humid(), support=Support())
    assert found["lethality.humidity"].verdict is Verdict.CANNOT_TELL
    assert found["lethality.support"].verdict is Verdict.CANNOT_TELL
    assert found["lethality.estimate.salmonella"].verdict is Verdict.MET


def test_where_support_and_estimate_disagree_a_process_authority_is_named() -> None:
    """Six kelvin between the bulbs are about 75 %: enough for a wet surface, too little for the named option."""
    found = findings(humid(gap=6.0))
    assert found["lethality.support"].verdict is Verdict.NOT_MET
    assert found["lethality.estimate.salmonella"].verdict is Verdict.MET
    assert "process authority" in str(found["lethality.disagree"].why)
    assert not found["lethality.disagree"].blocking


def test_a_log_without_humidity_cannot_tell_and_is_never_met() -> None:
    dry = replace(humid(), wet_bulb_c=None, humidity=None)
    found = findings(dry)
    verdicts = {name: found[name].verdict for name in ("lethality.humidity", "lethality.estimate.salmonella")}
    assert set(verdicts.values()) == {Verdict.CANNOT_TELL}


def test_a_species_that_is_not_told_gets_no_verdict_on_lethality() -> None:
    found = findings(humid(), LethalityFacts())
    assert found["lethality.row"].verdict is Verdict.CANNOT_TELL
    assert found["lethality.estimate.salmonella"].verdict is Verdict.CANNOT_TELL


def test_a_log_that_does_not_say_its_unit_gets_no_verdict_at_all() -> None:
    found = findings(humid(), told=False)
    assert {check.verdict for check in found.values()} == {Verdict.CANNOT_TELL}


def test_a_prediction_speaks_against_a_process_and_never_for_it() -> None:
    times = 60 * MINUTES
    warm = np.minimum(20.0 + MINUTES, 61.0)
    wet = {"core_c": warm, "face_c": np.stack([warm, warm], 1), "origin": Origin.SIMULATED}
    good = Series(
        times, air_c=warm + 1, wet_bulb_c=warm, humidity=np.full(181, 0.95), face_aw=np.full((181, 2), 0.99), **wet
    )
    found = findings(good)
    assert Verdict.MET not in {check.verdict for check in found.values()}
    bad = replace(good, face_aw=np.full((181, 2), 0.90))
    assert findings(bad)["lethality.estimate.salmonella"].verdict is Verdict.NOT_MET


def test_a_bound_short_of_the_target_cannot_be_told_and_an_estimate_short_of_it_is_not_met() -> None:
    between = findings(humid(hold_c=60.0, minutes=np.arange(0.0, 81.0)))["lethality.estimate.salmonella"]
    short = findings(humid(hold_c=56.0, minutes=np.arange(0.0, 81.0)))["lethality.estimate.salmonella"]
    assert between.verdict is Verdict.CANNOT_TELL
    assert short.verdict is Verdict.NOT_MET


def test_poultry_needs_seven_logs_by_its_own_line() -> None:
    found = findings(humid(), LethalityFacts("turkey"))
    assert found["lethality.estimate.salmonella"].limit == 7.0
    assert "turkey" in str(found["lethality.row"].why)


def test_a_warm_up_over_six_hours_is_not_met() -> None:
    minutes = np.arange(0.0, 601.0)
    series = humid(minutes=minutes, hold_c=45.0)
    assert findings(series)["lethality.come_up"].verdict is Verdict.NOT_MET


def test_drying_after_a_lethal_row_is_no_warming_up() -> None:
    """Two hours of moist heat, then eight at 45 C: only what came before the row counts."""
    minutes = np.arange(0.0, 661.0)
    wet = np.where(minutes < 180, np.minimum(20.0 + minutes, 61.0), 35.0)
    core = np.where(minutes < 180, np.minimum(4.0 + 2.0 * minutes, np.maximum(wet - 2.0, 5.0)), 45.0)
    series = with_humidity(
        Series(60 * minutes, air_c=np.where(minutes < 180, wet + 1, 50.0), wet_bulb_c=wet, core_c=core)
    )
    found = findings(series)["lethality.come_up"]
    assert found.verdict is Verdict.MET
    assert found.value is not None
    assert found.value < 1.0


def test_what_dries_cool_after_the_heat_has_done_grows_from_next_to_nothing() -> None:
    minutes = np.arange(0.0, 661.0)
    core = np.interp(minutes, [0.0, 40.0, 100.0, 130.0, 660.0], [4.0, 63.0, 63.0, 38.0, 38.0])
    series = Series(60 * minutes, core_c=core)

    every, until = (growth(series, 0.97, 0.006, until_s=end)[0].log for end in (None, 6000.0))

    assert every > 4.0
    assert until < 0.2


def test_a_stalled_cool_wet_house_lets_staphylococcus_grow_and_names_the_hazards() -> None:
    """Five hours at a wet bulb of 38 C under air of 60 C: the temperature at which it grows best."""
    times = 60.0 * np.arange(0.0, 301.0)
    series = with_humidity(
        Series(times, air_c=np.full(301, 60.0), wet_bulb_c=np.full(301, 37.0), core_c=np.full(301, 38.0))
    )
    found = {check.id: check for check in growth_checks(growth(series), process_times(series, wetness(series)))}
    assert found["growth.aureus"].verdict is Verdict.NOT_MET
    assert found["hazard.cooled_start"].value == pytest.approx(5.0)
    assert found["hazard.cool_wet_start"].value == pytest.approx(5.0)


def test_growth_that_rests_on_memory_gives_no_verdict() -> None:
    found = {check.id: check for check in growth_checks(growth(humid()), process_times(humid(), None))}
    assert found["growth.aureus"].verdict is Verdict.MET
    assert found["growth.salmonella"].verdict is Verdict.CANNOT_TELL


@pytest.mark.parametrize(("thickness_m", "applies"), [(0.006, False), (0.03, True), (None, True)])
def test_perfringens_is_judged_in_thick_centres_only(thickness_m: float | None, applies: bool) -> None:
    (found,) = [one for one in growth(humid(), thickness_m=thickness_m) if one.organism == "perfringens"]
    assert found.applies is applies
    assert (found.log is not None) is (thickness_m == 0.03)
    assert found.log is not None or found.why is not None
