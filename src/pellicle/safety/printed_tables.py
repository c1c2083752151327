"""Printed time-temperature tables, and the straight line behind the one for meat.

The table for meat is one line, rounded up; those for poultry are not, and are interpolated in log time between rows.
Which table holds for what is a matter of ``rules``; here they are numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from pellicle.food.composition import Quantity
from pellicle.relation import relation
from pellicle.source import sources
from pellicle.table import keys, number, rows

TABLE = "safety/data/lethality_tables.csv"
MEAT, CHICKEN, TURKEY, POULTRY = "meat", "chicken", "turkey", "poultry"
POULTRY_LOG = 7.0

# The line that gives every row of the 6.5-log column without a miss (review of the table): seconds at 140 F for one
# log, and the rise in F that makes it ten times as fast.
TABLE_D140_S = 60.0 * 1.714
TABLE_Z_F = 10.005
# Up to here the printed table counts in whole minutes, above in whole seconds, always rounded up.
LAST_MINUTES_F = 145.0
REFERENCE_F = 140.0
FREEZING_F, DEGREE_F_C = 32.0, 5.0 / 9.0


@dataclass(frozen=True, slots=True)
class Row:
    """One printed row: hold the coldest piece at ``temperature_c`` for ``held_s`` and the table counts ``log``."""

    table: str
    log: float
    fahrenheit: float
    held_s: float
    sources: tuple[str, ...]

    @property
    def temperature_c(self) -> float:
        """The temperature in degC, unrounded."""
        return (self.fahrenheit - FREEZING_F) * DEGREE_F_C

    @property
    def from_memory(self) -> bool:
        """True where the row was not compared with any text."""
        return any(sources()[key].to_verify for key in self.sources)


@cache
def printed(table: str, log: float) -> tuple[Row, ...]:
    """Return the rows of a table's column, coldest first; ``poultry`` is the longer of chicken and turkey.

    Where only one of the two prints a number, the other prints less than 10 s, and the number is the longer.

    >>> [row.held_s / 60 for row in printed("meat", 6.5)[:2]]
    [112.0, 89.0]
    >>> [round(row.held_s / 60, 1) for row in printed("poultry", 7.0) if row.fahrenheit in (140, 145, 155)]
    [35.0, 13.8, 1.3]
    """
    if table == POULTRY:
        chicken, turkey = ({row.fahrenheit: row for row in printed(species, log)} for species in (CHICKEN, TURKEY))
        temperatures = sorted({*chicken, *turkey})
        both = [[found[f] for found in (chicken, turkey) if f in found] for f in temperatures]
        return tuple(max(pair, key=lambda row: row.held_s) for pair in both)
    chosen = [row for row in rows(TABLE) if row["table"] == table and number(row, "log") == log]
    made = [
        Row(
            table,
            log,
            number(row, "temperature_f"),
            number(row, "held") * (60.0 if row["unit"] == "min" else 1.0),
            keys(row),
        )
        for row in chosen
    ]
    return tuple(sorted(made, key=lambda row: row.fahrenheit))


@relation("us-appendix-a-1999", valid={"fahrenheit": (130.0, 157.0), "log": (5.0, 7.0)})
def line_time_s(fahrenheit: Quantity, log: float) -> Quantity:
    """Return the time of the line behind the table for meat, s, before any rounding.

    ``fahrenheit`` [F], ``log`` [1] reductions. At 150 F the table prints 67 s for 6.5 log.

    >>> round(line_time_s(150.0, 6.5), 1)
    66.9
    """
    return log * TABLE_D140_S * 10.0 ** ((REFERENCE_F - fahrenheit) / TABLE_Z_F)


def line_as_printed(fahrenheit: float, log: float) -> tuple[float, str]:
    """Return the line's time as the table for meat rounds it: up, in minutes to 145 F and in seconds above.

    >>> line_as_printed(130.0, 6.5), line_as_printed(157.0, 6.5)
    ((112.0, 'min'), (14.0, 's'))
    """
    seconds = float(line_time_s(fahrenheit, log))
    if fahrenheit <= LAST_MINUTES_F:
        return float(np.ceil(seconds / 60.0)), "min"
    return float(np.ceil(seconds)), "s"


def meat_table_log_d_s(temperature_c: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return log10 of the table line's seconds for one log in meat at temperatures in degC (n,)."""
    found: NDArray[np.float64] = np.log10(TABLE_D140_S) - (temperature_c - _celsius(REFERENCE_F)) / (
        TABLE_Z_F * DEGREE_F_C
    )
    return found


def poultry_table_log_d_s(temperature_c: NDArray[np.float64], table: str = POULTRY) -> NDArray[np.float64]:
    """Return log10 of the printed poultry times per log, seconds, straight between rows in log time.

    ``temperature_c`` (n,) degC, ``table`` chicken, turkey or the longer of both. Below the first row there is no time:
    infinite. Above the last the last one stands: under 10 s is no number, and a table is not run on past its end.

    >>> round(float(10.0 ** poultry_table_log_d_s(np.array([60.0]))[0]) * 7 / 60, 1)
    35.0
    """
    temperatures, logs = _poultry_line(table)
    found: NDArray[np.float64] = np.interp(temperature_c, temperatures, logs)
    # a hair below the first row is the first row: Fahrenheit and Celsius do not divide evenly
    return np.where(temperature_c < temperatures[0] - 1e-9, np.inf, found)


def poultry_floor_log_d_s(temperature_c: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return what the time for one log must not fall below in poultry, log10 s; nothing below the first row."""
    found = poultry_table_log_d_s(temperature_c)
    return np.where(np.isinf(found), -np.inf, found)


@cache
def _poultry_line(table: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    found = printed(table, POULTRY_LOG)
    return (
        np.array([row.temperature_c for row in found]),
        np.log10([row.held_s / POULTRY_LOG for row in found]),
    )


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - FREEZING_F) * DEGREE_F_C
