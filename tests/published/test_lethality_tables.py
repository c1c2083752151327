"""Printed time-temperature tables against the line behind them, integrated ramps, and the poultry columns.

Sources: FSIS Appendix A for cooked beef, 1999 (28 rows, both columns, as seen); FSIS 7-log poultry tables, 12 % fat, as
transcribed on other pages; a review of the table for the line and for the three ramps.
"""

from __future__ import annotations

import numpy as np
import pytest

from agreement import agrees
from pellicle.measured.series import Series
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import lethality
from pellicle.safety.printed_tables import line_as_printed, line_time_s, printed
from pellicle.safety.table_hold import ramp_log

# F: 6.5-log, 7-log; minutes to 145 F, seconds from 146 F
TABLE = """
130 112 121 | 131 89 97 | 132 71 77 | 133 56 62 | 134 45 47 | 135 36 37 | 136 28 32 | 137 23 24 | 138 18 19 | 139 15 15
140 12 12 | 141 9 10 | 142 8 8 | 143 6 6 | 144 5 5 | 145 4 4 | 146 169 182 | 147 134 144 | 148 107 115 | 149 85 91
150 67 72 | 151 54 58 | 152 43 46 | 153 34 37 | 154 27 29 | 155 22 23 | 156 17 19 | 157 14 15
"""
ROWS = [tuple(int(cell) for cell in row.split()) for row in TABLE.replace("\n", "|").split("|") if row.strip()]


def celsius(fahrenheit: float | np.ndarray) -> float | np.ndarray:
    return (fahrenheit - 32) / 1.8


def core(minutes: np.ndarray, fahrenheit: np.ndarray) -> Series:
    return Series(60 * minutes, core_c=np.asarray(celsius(fahrenheit)))


def test_there_are_28_rows() -> None:
    assert len(ROWS) == 28


@pytest.mark.parametrize(("fahrenheit", "six_and_a_half", "seven"), ROWS)
def test_the_line_rounded_up_gives_the_printed_row(fahrenheit: int, six_and_a_half: int, seven: int) -> None:
    """The 6.5-log column without a miss; the 7-log column of the same line within one unit of the last place."""
    assert line_as_printed(fahrenheit, 6.5)[0] == six_and_a_half
    assert abs(line_as_printed(fahrenheit, 7.0)[0] - seven) <= 1


@pytest.mark.parametrize(("fahrenheit", "six_and_a_half", "seven"), ROWS)
def test_the_table_holds_the_printed_rows(fahrenheit: int, six_and_a_half: int, seven: int) -> None:
    unit = 60 if fahrenheit <= 145 else 1
    for log, held in ((6.5, six_and_a_half), (7.0, seven)):
        (row,) = [row for row in printed("meat", log) if row.fahrenheit == fahrenheit]
        assert row.held_s == held * unit


def test_158_f_at_once_is_a_convention_that_the_line_does_not_share() -> None:
    """The line needs 10.6 s for 6.5 log at 158 F (review)."""
    assert printed("meat", 6.5)[-1].held_s == 0.0
    assert agrees(float(line_time_s(158.0, 6.5)), "10.6")


def test_a_ramp_from_100_to_145_f_in_an_hour() -> None:
    """Analytic: 10.683 log with z of 10 F; the line that reproduces the table has 10.005 F."""
    minutes = np.linspace(0.0, 60.0, 361)
    found = ramp_log(core(minutes, 100 + 45 * minutes / 60), LethalityFacts("beef"))
    assert found is not None
    assert agrees(found, "10.683", within=0.002)


@pytest.mark.parametrize(("fahrenheit", "minutes", "log"), [(145, 4, "7.38"), (130, 112, "6.53")])
def test_a_hold_integrated(fahrenheit: int, minutes: int, log: str) -> None:
    """Computed with z of 10 F; ten degrees from 140 F the line of the table (10.005 F) differs by 0.1 %."""
    times = np.arange(0.0, minutes + 1.0)
    found = ramp_log(core(times, np.full(times.size, float(fahrenheit))), LethalityFacts("beef"))
    assert found is not None
    assert agrees(found, log, within=0.02)


def test_the_exact_ramp_does_not_depend_on_how_often_it_was_logged() -> None:
    facts = LethalityFacts("beef")
    coarse, fine = (np.linspace(0.0, 4.0, count) for count in (2, 401))
    found = [ramp_log(core(minutes, 130 + 20 * minutes / 4), facts) for minutes in (coarse, fine)]
    assert found[0] == pytest.approx(found[1], rel=1e-9)


@pytest.mark.parametrize(("fahrenheit", "minutes"), [(140, "35.0"), (145, "13.8"), (155, "1.3")])
def test_mixed_poultry_takes_the_longer_of_chicken_and_turkey(fahrenheit: int, minutes: str) -> None:
    """Worked example: 12 % fat, chicken and turkey mixed."""
    (row,) = [row for row in printed("poultry", 7.0) if row.fahrenheit == fahrenheit]
    assert agrees(row.held_s / 60, minutes)


def test_the_slower_species_changes_from_chicken_to_turkey_at_142_f() -> None:
    slower = {row.fahrenheit: row.table for row in printed("poultry", 7.0)}
    assert {slower[f] for f in range(136, 142)} == {"chicken"}
    assert {slower[f] for f in range(142, 165)} == {"turkey"}


def test_a_chicken_core_from_136_to_150_f_in_28_minutes() -> None:
    """Worked example: 14.26 log straight between rows in log time; the line of the beef table would claim 48.6."""
    minutes = np.linspace(0.0, 28.0, 29)
    series = core(minutes, 136 + 14 * minutes / 28)
    assert agrees(ramp_log(series, LethalityFacts("chicken")) or 0.0, "14.26")
    assert agrees(ramp_log(series, LethalityFacts("beef")) or 0.0, "48.6")


def test_nothing_is_credited_to_poultry_below_its_first_row() -> None:
    minutes = np.arange(0.0, 241.0)
    found = lethality(core(minutes, np.full(241, 135.9)), LethalityFacts("duck"))["salmonella"]
    assert found.table_ramp == 0.0
    assert found.table == 0.0


def test_a_row_for_beef_is_never_held_against_poultry() -> None:
    """12 min at 140 F is a row for meat; chicken needs 35 min there."""
    minutes = np.arange(0.0, 13.0)
    series = core(minutes, np.full(13, 140.0))
    assert lethality(series, LethalityFacts("beef"))["salmonella"].table == 6.5
    chicken = lethality(series, LethalityFacts("chicken"))["salmonella"]
    assert chicken.table == 0.0
    assert chicken.hold is not None
    assert chicken.hold.row.table == "chicken"


def test_145_f_is_62_8_c_and_62_7_c_is_less() -> None:
    times = 60 * np.arange(0.0, 5.0)
    warm, cool = (
        lethality(Series(times, core_c=np.full(5, value)), LethalityFacts("beef"))["salmonella"].hold
        for value in (62.8, 62.7)
    )
    assert warm is not None
    assert cool is not None
    assert (warm.met, warm.row.fahrenheit) == (True, 145)
    assert not cool.met
