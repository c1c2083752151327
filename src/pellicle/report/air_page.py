"""The state of air as a terminal page: one sentence, the figures in both systems, what wet meat does in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pellicle.message import message
from pellicle.report.columns import Align, Column, table, wrapped
from pellicle.report.ink import painter
from pellicle.report.numerals import number
from pellicle.report.terminal_checks import sources_line
from pellicle.units import both_temperatures, unbroken

if TYPE_CHECKING:
    from pellicle.answers.air import AirAnswer

KILOPASCAL_PA = 1000.0
GRAM = 1000.0  # g per kg
TEXT_INDENT = 2


def air_page(answer: AirAnswer, width: int = 100, colour: bool = False) -> str:
    """Return what the readings say of the air, and the temperature wet meat holds in it."""
    paint = painter(colour)
    sentence = message(
        "air.sentence",
        dry=both_temperatures(answer.dry_bulb_c, 1),
        wet=both_temperatures(answer.wet_bulb_c, 1),
        humidity=number(answer.rh_percent, 1),
    )
    columns = [Column("", Align.LEFT, 34), Column("", Align.LEFT)]
    rows = [
        (str(message("air.dry_bulb")), both_temperatures(answer.dry_bulb_c, 2)),
        (str(message("air.wet_bulb")), both_temperatures(answer.wet_bulb_c, 2)),
        (str(message("air.humidity")), f"{number(answer.rh_percent, 1)} %"),
        (str(message("air.dew_point")), _dew_point(answer)),
        (
            str(message("air.humidity_ratio")),
            str(message("air.grams", value=number(GRAM * answer.humidity_ratio, 1))),
        ),
        (str(message("air.vapour_pressure")), f"{number(answer.vapour_pressure_pa / KILOPASCAL_PA, 2)} kPa"),
        (str(message("air.pressure")), f"{number(answer.pressure_pa / KILOPASCAL_PA, 2)} kPa"),
        (str(message("air.boiling_point")), both_temperatures(answer.boiling_point_c, 2)),
    ]
    lines = [paint("bold", line) for line in wrapped(unbroken(str(sentence)), width)]
    lines += ["", *(line for row in table(columns, rows, width) for line in row), ""]
    lines += wrapped(unbroken(str(answer.hint)), width, TEXT_INDENT)
    return "\n".join([*lines, "", *sources_line(answer.sources, width, paint)])


def _dew_point(answer: AirAnswer) -> str:
    return str(message("air.no_vapour")) if answer.dew_point_c is None else both_temperatures(answer.dew_point_c, 2)
