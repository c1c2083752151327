"""``pellicle lethality``: what a probe log, or typed checkpoints, show and what of it may be credited."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, in_colour, located, print_json


def lethality(
    log: Annotated[Path, typer.Argument(help="The log (CSV), or typed checkpoints.", show_default=False)],
    core: Annotated[
        list[str] | None,
        typer.Option(help="The column of a core probe, by name or number; repeatable.", show_default=False),
    ] = None,
    dry_bulb: Annotated[str, typer.Option(help="The column of the dry bulb.", show_default=False)] = "",
    wet_bulb: Annotated[str, typer.Option(help="The column of the wet bulb.", show_default=False)] = "",
    unit: Annotated[str, typer.Option(help="C or F, where the log does not say.", show_default=False)] = "",
    product: Annotated[
        Path | None, typer.Option(help="The product file: species, uptake, supporting document.", show_default=False)
    ] = None,
    species: Annotated[str, typer.Option(help="The species, without a product file.", show_default=False)] = "",
    altitude: Annotated[
        str | None, typer.Option(help="Such as '1500 m', for the humidity.", show_default=False)
    ] = None,
    steam: Annotated[str | None, typer.Option(help="Time with steam on, such as '90 min'.", show_default=False)] = None,
    sealed: Annotated[
        str | None, typer.Option(help="Time with doors and dampers closed, such as '90 min'.", show_default=False)
    ] = None,
    probe_error: Annotated[
        str, typer.Option(help="Error of the core probe in K; taken off before a printed row is held.")
    ] = "0",
    sock_checked: Annotated[
        bool, typer.Option("--sock-checked", help="The sock was seen wet while it read as warm as the air.")
    ] = False,
    on: Annotated[str | None, typer.Option(help="The day of the cook; today if not given.")] = None,
    json: JsonFlag = False,
) -> None:
    """What a log of core, dry bulb and wet bulb shows: lethality credited while wet, printed rows, growth, findings."""
    from pellicle import units
    from pellicle.air.humid import STANDARD_PRESSURE_PA, pressure_at_altitude_pa
    from pellicle.answers.lethality import lethality_answer
    from pellicle.errors import InputError
    from pellicle.files.probe_log import read_log
    from pellicle.files.product_file import read_product
    from pellicle.files.refusals import choice
    from pellicle.house.chamber import house_pressure_pa
    from pellicle.product import SPECIES
    from pellicle.report.document import lethality_document
    from pellicle.report.lethality_page import lethality_page

    known = choice(unit, "--unit", {"C": "C", "F": "F", "celsius": "C", "fahrenheit": "F"}) if unit else ""
    item = None
    if product is not None:
        try:
            item = read_product(product)
        except InputError as error:
            raise located(error, product) from None
    pressure = STANDARD_PRESSURE_PA if item is None else house_pressure_pa(item.house)
    if altitude is not None:
        pressure = float(pressure_at_altitude_pa(units.altitude_m(altitude, "--altitude")))
    read = read_log(log, known)
    answer = lethality_answer(
        read,
        item,
        core or (),
        dry_bulb,
        wet_bulb,
        on=day(on, "--on"),
        species=choice(species, "--species", {name: name for name in sorted(SPECIES)}) if species else "",
        pressure_pa=pressure,
        sock_checked=sock_checked,
        probe_error_c=units.number(probe_error, "--probe-error", 0.0, MOST_PROBE_ERROR_K),
        steam_s=_within(steam, "--steam", read.time_s[-1]),
        sealed_s=_within(sealed, "--sealed", read.time_s[-1]),
    )
    if json:
        print_json(lethality_document(answer))
    else:
        finish(lethality_page(answer, colour=in_colour()))
    if any(check.verdict.value == "not met" for check in answer.checks):
        raise typer.Exit(1)


# A probe that is off by more is broken.
MOST_PROBE_ERROR_K = 10.0


def _within(text: str | None, field: str, log_s: float) -> float | None:
    """Return a typed time in s; InputError if it is longer than the log, which it would credit beyond its end."""
    from pellicle import units
    from pellicle.errors import InputError

    if text is None:
        return None
    found = units.duration_s(text, field)
    if found > log_s:
        read, long = units.show_duration(found), units.show_duration(log_s)
        raise InputError("cli.longer_than_log", field=field, read=read, long=long)
    return found
