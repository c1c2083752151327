"""``pellicle lethality``: what a probe log, or typed checkpoints, show and what of it may be credited."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, in_colour, print_json


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
        float, typer.Option(help="Error of the core probe in K; taken off before a printed row is held.")
    ] = 0.0,
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
    from pellicle.product import SPECIES
    from pellicle.report.document import lethality_document
    from pellicle.report.lethality_page import lethality_page

    known = choice(unit, "--unit", {"C": "C", "F": "F", "celsius": "C", "fahrenheit": "F"}) if unit else ""
    if probe_error < 0:
        raise InputError("cli.probe_error", field="--probe-error", read=f"{probe_error:g}")
    item = None
    if product is not None:
        try:
            item = read_product(product)
        except InputError as error:
            if not error.file and not error.field.startswith("--"):
                error.file = product.name
            raise
    height = None if altitude is None else units.length_m(altitude, "--altitude")
    if height is None and item is not None:
        height = item.house.altitude_m
    answer = lethality_answer(
        read_log(log, known),
        item,
        core or (),
        dry_bulb,
        wet_bulb,
        on=day(on, "--on"),
        species=choice(species, "--species", {name: name for name in sorted(SPECIES)}) if species else "",
        pressure_pa=STANDARD_PRESSURE_PA if height is None else float(pressure_at_altitude_pa(height)),
        sock_checked=sock_checked,
        probe_error_c=probe_error,
        steam_s=None if steam is None else units.duration_s(steam, "--steam"),
        sealed_s=None if sealed is None else units.duration_s(sealed, "--sealed"),
    )
    if json:
        print_json(lethality_document(answer))
    else:
        finish(lethality_page(answer, colour=in_colour()))
    if any(check.verdict.value == "not met" for check in answer.checks):
        raise typer.Exit(1)
