"""Tables carry where each row comes from, and a cell that is not what it should be names itself."""

from __future__ import annotations

import pytest

from pellicle.errors import DataError
from pellicle.table import keys, number, read_rows, rows

TEXT = """# a remark
name,value,source,locator,note,checked

brine,0.25,own-arithmetic; common-practice,page 3,,no
# another
bad,a lot,own-arithmetic,,,2026-11-02
"""


def test_rows_are_mappings_and_remarks_are_left_out() -> None:
    brine, bad = read_rows(TEXT, "invented.csv")
    assert (brine["name"], brine["locator"], bad["checked"]) == ("brine", "page 3", "2026-11-02")


def test_a_row_may_rest_on_several_sources() -> None:
    assert keys(read_rows(TEXT, "invented.csv")[0]) == ("own-arithmetic", "common-practice")


def test_a_table_without_provenance_is_refused() -> None:
    with pytest.raises(DataError, match=r"invented\.csv has no column checked"):
        read_rows("name,source,locator,note\nbrine,own-arithmetic,,", "invented.csv")


def test_a_cell_is_a_number() -> None:
    assert number(read_rows(TEXT, "invented.csv")[0], "value") == 0.25


def test_a_cell_that_is_no_number_names_its_row_and_column() -> None:
    with pytest.raises(DataError, match="row bad has 'a lot' under value"):
        number(read_rows(TEXT, "invented.csv")[1], "value")


@pytest.mark.parametrize("text", ["nan", "inf", "-inf"])
def test_a_cell_that_is_not_finite_is_no_number(text: str) -> None:
    with pytest.raises(DataError):
        number({"name": "brine", "value": text}, "value")


def test_an_empty_cell_is_an_error_unless_it_may_be_empty() -> None:
    row = {"name": "brine", "value": ""}
    assert number(row, "value", empty=0.0) == 0.0
    with pytest.raises(DataError):
        number(row, "value")


def test_a_table_of_the_package_is_read_once() -> None:
    assert rows("parameters.csv") is rows("parameters.csv")
