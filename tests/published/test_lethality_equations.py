"""The inactivation model against published times, the review's own tables, growth on ramps and keeping.

Sources stand beside each value; "review" is our review of published studies, which prints what it computed.
"""

from __future__ import annotations

import numpy as np
import pytest

from agreement import agrees
from pellicle.measured.series import Series
from pellicle.safety.growth import growth_log, recook_log
from pellicle.safety.inactivation import amplitude, aw_shift, log_d_s, ramp_mean
from pellicle.safety.organisms import organisms
from pellicle.safety.printed_tables import poultry_table_log_d_s
from pellicle.safety.shelf import mould_free_days

# Review, table 2.2: minutes for one log with D60 1.72 and A 2.7, by water activity and temperature.
TEMPERATURES = (50, 54.4, 57.2, 60, 62.8, 65.6, 68.3, 71.1, 76.7, 80)
TABLE = """
0.99 108 17.5 5.48 1.72 0.539 0.169 0.0553 0.0173 0.00171 0.000435
0.95 157 32.6 12.0 4.42 1.63 0.598 0.228 0.0839 0.0114 0.0035
0.90 248 64.9 27.6 11.8 5.02 2.14 0.94 0.401 0.0728 0.0266
0.85 373 116 55.1 26.2 12.4 5.92 2.89 1.37 0.31 0.129
0.80 528 187 96.9 50.1 25.9 13.4 7.1 3.67 0.98 0.45
0.70 892 383 224 131 76.5 44.7 26.6 15.6 5.31 2.82
"""
CELLS = [
    (float(row.split()[0]), temperature, cell)
    for row in TABLE.strip().splitlines()
    for temperature, cell in zip(TEMPERATURES, row.split()[1:], strict=True)
]


@pytest.mark.parametrize(("aw", "temperature_c", "minutes"), CELLS)
def test_time_for_one_log(aw: float, temperature_c: float, minutes: str) -> None:
    found = 10 ** float(log_d_s(temperature_c, aw, 60 * 1.72, 5.56, 5.56, 2.7)) / 60
    # the review prints three digits, computed with z of 5.56 C: at 50 and 80 C its rounding of z is worth 0.5 %
    assert agrees(found, minutes, within=0.006 * float(minutes))


@pytest.mark.parametrize(
    ("aw", "meat", "sugar"),
    [(0.95, "0.41", "0.70"), (0.90, "0.84", "1.42"), (0.85, "1.18", "2.01"), (0.80, "1.46", "2.50")],
)
def test_shift_by_water_activity(aw: float, meat: str, sugar: str) -> None:
    assert agrees(float(aw_shift(aw, amplitude(0.0))), meat)
    assert agrees(float(aw_shift(aw, amplitude(1.0))), sugar)


@pytest.mark.parametrize(("aw", "factor"), [(0.95, 3.1), (0.85, 22.5), (0.70, 35.6)])
def test_shift_stays_within_its_stated_doubt_of_dried_beef(aw: float, factor: float) -> None:
    """Beef surfaces dried to 0.95, 0.85, 0.70 took 3.1, 22.5, 35.6 times as long for the first log (a 2009 study)."""
    assert abs(float(aw_shift(aw, 2.7)) - np.log10(factor)) <= 0.35


@pytest.mark.parametrize(("temperature_c", "minutes"), [(55, "22.9"), (60, "2.63"), (65, "0.302"), (71.1, "0.0215")])
def test_salmonella_envelope(temperature_c: float, minutes: str) -> None:
    """log10 D = 11.7 - 0.188 T (Doyle and Mazzotta 2000, abstract); the line for decisions rounds z to 5.32 C."""
    line = organisms(False)["salmonella"].decision
    found = 10 ** float(log_d_s(temperature_c, 1.0, line.d60_s, line.z_below_c, line.z_above_c, 2.7)) / 60
    assert agrees(found, minutes, within=0.01 * float(minutes))
    assert agrees(10 ** (11.7 - 0.188 * temperature_c), minutes)


@pytest.mark.parametrize(("temperature_c", "low", "high"), [(51.6, 427, 434), (57.2, 26.6, 29.4), (62.7, 4.2, 4.9)])
def test_seven_logs_in_ground_beef(temperature_c: float, low: float, high: float) -> None:
    """Goodfellow and Brown 1978, from printed D values; the mean line (D60 1.72, z 5.56) meets them within a third."""
    found = 7 * 10 ** float(log_d_s(temperature_c, 1.0, 1.72, 5.56, 5.56, 2.7))
    assert low / 1.35 <= found <= high * 1.35


@pytest.mark.parametrize(
    ("temperature_c", "minutes"),
    [(54.4, "56.2"), (57.8, "13.0"), (60, "5.02"), (62.8, "1.97"), (65.6, "0.78"), (68.3, "0.315"), (71.1, "0.124")],
)
def test_poultry_line(temperature_c: float, minutes: str) -> None:
    """Review, poultry decision line: D60 5.02, z 5.34 C below 60 C and 6.9 C above."""
    line = organisms(True)["salmonella"].decision
    found = 10 ** float(log_d_s(temperature_c, 1.0, line.d60_s, line.z_below_c, line.z_above_c, 2.7)) / 60
    assert agrees(found, minutes, within=0.01 * float(minutes))


def test_the_poultry_line_is_never_quicker_than_the_printed_table_by_more_than_its_rounding() -> None:
    """Review: ratio 1.13 at 136 F, 1.00 to 1.02 at 140 to 147 F, 1.12 at 150 F, 1.68 at 155 F, 1.92 at 160 F."""
    line = organisms(True)["salmonella"].decision
    for fahrenheit, ratio in ((136, 1.13), (150, 1.12), (155, 1.68), (160, 1.92)):
        celsius = np.array([(fahrenheit - 32) / 1.8])
        found = log_d_s(celsius, 1.0, line.d60_s, line.z_below_c, line.z_above_c, 2.7)
        assert 10 ** float(found[0] - poultry_table_log_d_s(celsius)[0]) == pytest.approx(ratio, abs=0.02)


def test_a_trapezoid_overstates_a_ramp_over_one_z_by_41_per_cent() -> None:
    """E3 of the review: 9 / ln 10 = 3.909 against 5.5."""
    exact = float(ramp_mean(1.0, 10.0))
    assert agrees(exact, "3.909")
    assert agrees(0.5 * (1.0 + 10.0) / exact - 1.0, "0.41")


@pytest.mark.parametrize(("temperature_c", "minutes"), [(60, "43.1"), (65, "9.3"), (70, "2.0"), (75, "0.43")])
def test_listeria_benchmark(temperature_c: float, minutes: str) -> None:
    """2 min at 70 C is six logs, with z of 7.5 C (a published benchmark; its z from memory)."""
    d60 = (2.0 / 6.0) * 10 ** (10 / 7.5)
    assert agrees(6 * 10 ** float(log_d_s(temperature_c, 1.0, d60, 7.5, 7.5, 2.7)), minutes)


GROWTH = """
0.99 0.67 2.01 2.06 6.18 0.60 1.79
0.97 0.53 1.59 0.92 2.75 0.21 0.64
0.95 0.41 1.22 0.23 0.69 0.02 0.07
0.92 0.25 0.76 0 0 0 0
0.90 0.17 0.51 0 0 0 0
0.86 0.05 0.16 0 0 0 0
"""


@pytest.mark.parametrize("row", GROWTH.strip().splitlines())
def test_growth_on_a_ramp_from_10_to_54_c(row: str) -> None:
    """Review, table 5.2: log10 growth without lag over 2 h and 6 h of S. aureus, C. perfringens and Salmonella."""
    aw, *printed = row.split()
    found = []
    for organism in ("aureus", "perfringens", "salmonella"):
        for hours in (2, 6):
            times = np.arange(0.0, hours * 3600 + 1.0, 60.0)
            series = Series(times)
            found.append(
                growth_log(organism, series, np.linspace(10, 54.4, times.size), np.full(times.size, float(aw)))
            )
    for got, text in zip(found, printed, strict=True):
        assert got == 0.0 if text == "0" else agrees(got, text)


def test_a_second_cook_after_growth_adds_the_largest_one() -> None:
    """Worked example of the 2021 guideline, p. 71: +2.5 and +3.0 log on a 6.5-log product need at least 9.5."""
    assert recook_log(6.5, (2.5, 3.0)) == 9.5


@pytest.mark.parametrize(
    ("aw", "cool", "warm"),
    [(0.90, "4.2", "3.7"), (0.87, "7.3", "5.8"), (0.85, "10.6", "7.9"), (0.80, "27", "16.6"), (0.75, "68", "35")],
)
def test_days_until_mould_shows(aw: float, cool: str, warm: str) -> None:
    """Review, table 5.3, from the line for cake at 21 C and 27 C."""
    assert agrees(float(mould_free_days(aw, 21.0)), cool, within=0.01 * float(cool) + 0.05)
    assert agrees(float(mould_free_days(aw, 27.0)), warm, within=0.01 * float(warm) + 0.05)
