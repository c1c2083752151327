"""Seven ways in which heat does not count, each in an invented product of ``examples/``, and what its file says mends
it: the file as it stands must show the hazard, and the file with the mending in it must not."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

from pellicle.answers.run import run
from pellicle.answers.run_answer import RunAnswer
from pellicle.files.product_file import product_from_text

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = date(2026, 11, 25)


@cache
def passage(name: str, *changes: tuple[str, str]) -> RunAnswer:
    """The passage of an example, after each text of its file was exchanged for another."""
    text = (EXAMPLES / f"{name}.toml").read_text("utf-8")
    for before, after in changes:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return run(product_from_text(text, f"{name}.toml", EXAMPLES), on=DAY)


def falls_short(answer: RunAnswer) -> bool:
    """Whether the estimate for Salmonella is the finding: not met, with a bound below the target."""
    found = answer.lethality["salmonella"]
    return found.verdict == "not met" and found.wet_lower < found.target


def suffices(answer: RunAnswer) -> bool:
    """Whether nothing is not met, and nine in ten draws pass the target against Salmonella."""
    found = answer.lethality["salmonella"]
    return not any(check.verdict == "not met" for check in answer.checks) and found.wet_lower > found.target


def hottest_in(answer: RunAnswer, step: int) -> float:
    """The highest core temperature [C] of a step, by its number."""
    begin = sum(one.minutes for one in answer.steps[:step])
    minutes = answer.history.minutes
    inside = [at for at, now in enumerate(minutes) if begin <= now <= begin + answer.steps[step].minutes]
    return max(answer.history.core_c[at] for at in inside)


def test_a_dry_start_is_mended_by_heating_the_strips_wet_and_covered_first() -> None:
    heat = 'name = "heat"\ndry_bulb = "203 F"\nrest = true\nuntil_core = "160 F"\n\n[[step]]\n'
    dry, mended = (
        passage("ridge-venison-strips"),
        passage("ridge-venison-strips", ('name = "dry"', heat + 'name = "dry"')),
    )

    assert falls_short(dry)
    assert dry.lethality["salmonella"].wet < 0.01
    assert max(dry.history.core_c) < 41 < min(dry.history.dry_bulb_c)
    assert "hazard.cooled_start" in {check.id for check in dry.checks}
    assert suffices(mended)


def test_a_core_that_stalls_in_a_damper_house_is_mended_by_shutting_the_damper() -> None:
    shut = ('dry_bulb = "68 C"\ndamper = "60 %"', 'dry_bulb = "68 C"\ndamper = "5 %"')
    stalled, mended = passage("low-salt-bison-strips"), passage("low-salt-bison-strips", shut)

    assert falls_short(stalled)
    assert hottest_in(stalled, 1) < 54
    assert suffices(mended)
    assert hottest_in(mended, 1) > 60


def test_shutting_the_damper_is_not_enough_in_a_house_half_full() -> None:
    shut = ('dry_bulb = "68 C"\ndamper = "60 %"', 'dry_bulb = "68 C"\ndamper = "5 %"')

    assert not suffices(passage("low-salt-bison-strips", shut, ('load = "240 kg"', 'load = "120 kg"')))


def test_a_core_target_above_the_wet_surface_is_mended_by_humidity_and_not_by_a_lower_target() -> None:
    waiting = passage("heather-lamb-strips")
    mended = passage("heather-lamb-strips", ('humidity = "35 %"', 'humidity = "72 %"'))
    lower = passage("heather-lamb-strips", ('until_core = "71 C"', 'until_core = "57 C"'))

    assert [remark.id for remark in waiting.remarks] == ["house.core_needs_humidity"]
    assert falls_short(waiting)
    assert waiting.steps[0].ended_by == "time"
    assert mended.remarks == ()
    assert mended.steps[0].ended_by == "core temperature"
    assert suffices(mended)
    assert lower.lethality["salmonella"].wet < 1


def test_a_thick_piece_cooked_by_the_clock_is_mended_by_waiting_for_its_core() -> None:
    hold = '[[step]]\nname = "hold"\ndry_bulb = "72 C"\nwet_bulb = "66 C"\nfor = "15 min"'
    waits = ('wet_bulb = "66 C"\nfor = "15 min"', f'wet_bulb = "66 C"\nuntil_core = "65 C"\n\n{hold}')
    thick, mended = passage("thick-flank-strips"), passage("thick-flank-strips", waits)
    thin = passage("thick-flank-strips", ('thickness = "25 mm"\nspread = "1.5 mm"', 'thickness = "6 mm"'))

    assert falls_short(thick)
    assert suffices(thin)
    assert suffices(mended)
    assert mended.lethality["salmonella"].wet > 5 * thick.lethality["salmonella"].wet


def test_poultry_cooked_as_beef_is_mended_by_a_wet_bulb_above_its_core_target() -> None:
    hot = 'dry_bulb = "180 F"\nwet_bulb = "168 F"\n'
    cook = f'{hot}until_core = "165 F"\n\n[[step]]\nname = "hold"\n{hot}for = "15 min"'
    name = "tangerine-turkey-strips"
    mended = passage(name, ('dry_bulb = "155 F"\nwet_bulb = "144 F"\nfor = "45 min"', cook))
    beef = passage(name, ('species = "turkey"', 'species = "beef"'), ('"turkey breast"', '"beef top round"'))

    assert falls_short(passage(name))
    assert suffices(beef)
    assert suffices(mended)
    assert max(mended.history.core_c) > (165 - 32) / 1.8


def test_a_sugar_film_just_tumbled_is_mended_by_evening_out_or_by_a_wet_start() -> None:
    name = "orchard-soft-strips"
    film, overnight = passage(name), passage(name, ('loaded_depth = "0.5 mm"\n', ""))
    wet = passage(name, ('dry_bulb = "150 F"\ndamper = "60 %"', 'dry_bulb = "150 F"\nwet_bulb = "135 F"'))

    assert falls_short(film)
    assert film.counted == ()
    assert suffices(overnight)
    assert suffices(wet)


def test_settings_from_the_sea_at_altitude_are_mended_by_holding_the_wet_bulb() -> None:
    name = "glazed-loin-strips"
    high, sea = passage(name), passage(name, ('altitude = "2200 m"', 'altitude = "0 m"'))
    mended = passage(name, ('fresh_air = "65 kg/h"\nsteam = "12 kg/h"', 'wet_bulb = "64 C"'))

    assert falls_short(high)
    assert max(sea.history.wet_bulb_c) - max(high.history.wet_bulb_c) > 2.5
    assert suffices(sea)
    assert suffices(mended)
