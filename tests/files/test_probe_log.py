"""The tolerant reader of probe logs: invented loggers, one habit or fault each."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from pellicle.errors import InputError
from pellicle.files.probe_log import log_from_text, read_log
from pellicle.measured.probe_log import series_of


def read(text: str, unit: str = "") -> list[list[float]]:
    log = log_from_text(text, "log.csv", unit)
    return [[round(float(value), 1) for value in channel.values] for channel in log.channels]


def test_lines_before_the_header_are_skipped_and_fahrenheit_is_read_from_it() -> None:
    text = "Logger,AX-1\nSerial,00917\nInterval,60 s\n\nDate,Time,Dry Bulb (°F),Core (°F)\n"
    text += "3/14/2026,9:05:00 AM,140.0,50.0\n3/14/2026,9:06:00 AM,149.0,59.0\n"
    log = log_from_text(text, "log.csv")
    assert log.time_s.tolist() == [0.0, 60.0]
    assert read(text) == [[60.0, 65.0], [10.0, 15.0]]
    assert log.began == "3/14/2026 9:05:00 AM"


def test_a_semicolon_log_with_decimal_commas() -> None:
    assert read("Zeit time;wet bulb C;core C\n14.03.2026 09:05;57,2;40,5\n14.03.2026 09:06;57,4;41,0\n") == [
        [57.2, 57.4],
        [40.5, 41.0],
    ]


def test_a_tab_log_with_a_line_of_units_under_the_names() -> None:
    assert read("elapsed\twet\tcore\nmin\tF\tF\n0\t140\t50\n5\t140\t59\n") == [[60.0, 60.0], [10.0, 15.0]]


def test_quoted_cells_may_hold_a_decimal_comma() -> None:
    assert read('time,core C\n"9:05","40,5"\n"9:06","41,0"\n') == [[40.5, 41.0]]


def test_a_unit_in_the_lines_above_holds_for_every_column() -> None:
    assert read("Temperature unit: F\ntime,core\n9:05,50\n9:06,59\n") == [[10.0, 15.0]]


def test_a_clock_without_a_date_passes_midnight() -> None:
    log = log_from_text("time,core C\n23:58,40\n23:59,41\n0:00,42\n0:01,43\n", "log.csv")
    assert log.time_s.tolist() == [0.0, 60.0, 120.0, 180.0]


def test_noon_and_midnight_in_am_and_pm() -> None:
    log = log_from_text("time,core C\n12:00 AM,4\n11:59 AM,40\n12:01 PM,41\n1:00 pm,42\n", "log.csv")
    assert [value / 60 for value in log.time_s.tolist()] == [0.0, 719.0, 721.0, 780.0]


def test_unpadded_times_are_read() -> None:
    log = log_from_text("time,core C\n2026-3-4 9:5,40\n2026-3-4 9:6:30,41\n", "log.csv")
    assert log.time_s.tolist() == [0.0, 90.0]


def test_a_date_that_can_be_read_two_ways_is_read_forwards() -> None:
    """9 to 10 March, not 3 September to 3 October: the log would be a month long."""
    text = "time,core C\n09/03/2026 23:59,40\n10/03/2026 00:01,41\n"
    assert log_from_text(text, "log.csv").time_s.tolist() == [0.0, 120.0]


@pytest.mark.parametrize("code", ["9999", "-999.9", "---", "OL", "ERR", "", "open"])
def test_codes_for_over_range_are_no_reading(code: str) -> None:
    log = log_from_text(f"time,core C\n9:05,40\n9:06,{code}\n9:07,41\n", "log.csv")
    assert np.isnan(log.channels[0].values[1])
    assert np.isfinite(log.channels[0].values[[0, 2]]).all()


def test_a_header_repeated_in_the_middle_is_left_out_and_said() -> None:
    log = log_from_text("time,core C\n9:05,40\ntime,core C\n9:06,41\n", "log.csv")
    assert log.time_s.size == 2
    assert any("stands again" in str(remark) for remark in log.remarks)


def test_a_last_line_cut_short_is_dropped_and_said() -> None:
    log = log_from_text("time,wet C,core C\n9:05,57,40\n9:06,57,41\n9:07,5", "log.csv")
    assert log.time_s.size == 2
    assert any("cut short" in str(remark) for remark in log.remarks)


def test_typed_checkpoints_without_a_unit_are_minutes_and_celsius_and_say_so() -> None:
    log = log_from_text("time,dry bulb,wet bulb,core\n0,70,60,20\n10,70,60,55\n", "typed.csv")
    assert log.time_s.tolist() == [0.0, 600.0]
    assert not log.unit_told
    assert {"files.log_unit_assumed", "files.log_minutes_assumed"} <= {remark.id for remark in log.remarks}


def test_readings_that_no_celsius_house_has_ask_for_the_unit() -> None:
    text = "time (min),dry bulb,core\n0,170,60\n10,170,131\n"
    with pytest.raises(InputError, match="--unit F"):
        log_from_text(text, "typed.csv")
    assert log_from_text(text, "typed.csv", "F").unit_told


def test_humidity_in_percent_becomes_a_share() -> None:
    assert read("time,RH %,core C\n9:05,91,40\n9:06,45,41\n")[0] == [0.9, 0.5]


def test_the_coldest_of_several_cores_counts() -> None:
    log = log_from_text("time,core 1 C,core 2 C,wet bulb C\n9:05,40,41,57\n9:06,44,43,57\n", "log.csv")
    series, chosen = series_of(log)
    assert series.core_c is not None
    assert series.core_c.tolist() == [40.0, 43.0]
    assert chosen.core == ("core 1 C", "core 2 C")


def test_columns_are_asked_for_by_name_or_number() -> None:
    log = log_from_text("time,ch1 C,ch2 C\n9:05,70,40\n9:06,71,41\n", "log.csv")
    series, _ = series_of(log, core=["CH2 c"], dry_bulb="1")
    assert series.core_c is not None
    assert series.air_c is not None
    assert (series.core_c[0], series.air_c[0]) == (40.0, 70.0)


def test_a_column_asked_for_twice_is_refused() -> None:
    log = log_from_text("time,ch1 C,ch2 C\n9:05,70,40\n9:06,71,41\n", "log.csv")
    with pytest.raises(InputError, match="--dry-bulb asks for the column ch2 C, which --core has already"):
        series_of(log, core=["ch2 C"], dry_bulb="2")


def test_a_log_of_a_day_by_the_second_is_read_whole() -> None:
    rows = "".join(f"{h}:{m:02}:{s:02},57.2,55.0\n" for h in range(10) for m in range(60) for s in range(0, 60, 2))
    log = log_from_text("time,wet bulb C,core C\n" + rows, "log.csv")
    assert log.time_s.size == 18000
    assert log.time_s[-1] == 10 * 3600 - 2


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("wet bulb C,core C\n57,40\n57,41\n", "no column of times"),
        ("time,core C\n9:05,40\n9:04,41\n", "backwards"),
        ("time,core C\n1:59,40\n1:00,41\n", "goes back by an hour"),
        ("time,core C\n9:05,9999\n9:06,OL\n", "no reading at all"),
        ("", "empty"),
        ("   \n\n", "empty"),
        ("just some words\nand more\n", "No line"),
        ("time,core C\n9:05,40\ntime,wet C\n9:06,57\n", "columns change"),
        ("time (min),core C\n0,60\n", "of one moment"),
        ("time (min),core C\n5,60\n5,61\n", "of one moment"),
        ("time (min),core C\nnan,60\n2,61\n", "A time cannot be read here: nan"),
        ("time,colour\n9:05,red\n9:06,brown\n", "No line"),
        ("time (min),core C\n0,40\n1e9,41\n", "A time cannot be read here: 1e9"),
        ("time (min),core C\n0,40\n999999,41\n", "too long to be a log of one batch"),
        ("time,core C\n25:61,40\n26:00,41\n", "A time cannot be read here: 25:61"),
        ("time,core C\n0,40\n1,41\n9:05,42\n", "A time cannot be read here: 9:05"),
        (
            "time (min),dry C,core C\n0,70,0,40,5\n5,70,0,41,5\n",
            "This row has 5 cells, and the line of names above it 3",
        ),
        ("time (min),core\n0,40 C\n10,140 F\n", "reads 140 F here, and has readings in C before it"),
    ],
)
def test_a_bad_log_is_one_sentence(text: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        log_from_text(text, "log.csv")


def test_a_unit_that_the_log_contradicts_is_refused() -> None:
    """It was ignored in silence, and the readings stayed in the log's own unit."""
    with pytest.raises(InputError, match="core C is in C by what the log itself says"):
        log_from_text("time (min),core C\n0,40\n10,61\n", "log.csv", "F")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("time (min),core C\n0,40\n5,140\n9,150\n", "no core gets above 120 °C. If the log is in F"),
        ("time (min),wet bulb C,core C\n0,142,40\n5,142,99\n9,143,112\n", "no wet bulb gets above 110 °C"),
    ],
)
def test_fahrenheit_under_a_name_that_says_c_is_noticed(text: str, says: str) -> None:
    """A core of 150 F taken for 150 C was credited beyond all measure."""
    with pytest.raises(InputError, match=says):
        series_of(log_from_text(text, "log.csv"))


def test_a_probe_pulled_out_into_hot_air_is_no_other_unit() -> None:
    rows = "".join(f"{minute},{45 + minute / 2}\n" for minute in range(40))
    series, _ = series_of(log_from_text(f"time (min),core C\n{rows}40,130\n41,132\n", "log.csv"))
    assert series.core_c is not None
    assert series.core_c[-1] == 132.0


def test_of_two_columns_with_one_name_none_is_picked_in_silence() -> None:
    log = log_from_text("time,core C,core C\n9:05,40,38\n9:06,41,39\n", "log.csv")
    with pytest.raises(InputError, match="more than once"):
        series_of(log, core=["core C"])


@pytest.mark.parametrize("text", ["time,core C,\n9:05,40\n9:06,41\n", "time,core C\n9:05,40,\n9:06,41,\n"])
def test_a_separator_at_the_end_of_lines_does_no_harm(text: str) -> None:
    assert read(text) == [[40.0, 41.0]]


def test_channels_may_be_named_by_numbers() -> None:
    assert [channel.name for channel in log_from_text("time,1,2\n9:05,40,50\n9:06,41,51\n", "log.csv").channels] == [
        "1",
        "2",
    ]


def test_infinite_is_no_reading() -> None:
    assert np.isnan(log_from_text("time (min),core C\n0,inf\n5,41\n", "log.csv").channels[0].values[0])


@pytest.mark.parametrize("content", [b"PK\x03\x04rest", b"\x00\x01\x02\x03" * 50, bytes(range(1, 32)) * 20])
def test_a_binary_file_is_refused_with_what_to_do(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "log.xlsx"
    path.write_bytes(content)
    with pytest.raises(InputError, match="Save the log as CSV"):
        read_log(path)


def test_other_encodings_are_read(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    for encoding in ("utf-8-sig", "utf-16", "latin-1"):
        path.write_bytes("time,core °C\n9:05,40\n9:06,41\n".encode(encoding))
        assert read_log(path).channels[0].values.tolist() == [40.0, 41.0]
