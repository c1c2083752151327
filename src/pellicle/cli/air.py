"""``pellicle air``: wet bulb, humidity and dew point from any one of them with the dry bulb, at any altitude."""

from __future__ import annotations

import math
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, finish, in_colour, print_json


def air(
    dry_bulb: Annotated[str, typer.Option(help="Temperature of the air, such as '71 C'.", show_default=False)],
    wet_bulb: Annotated[str | None, typer.Option(help="Wet bulb, such as '60 C'.", show_default=False)] = None,
    humidity: Annotated[str | None, typer.Option(help="Relative humidity, such as '35 %'.", show_default=False)] = None,
    dew_point: Annotated[str | None, typer.Option(help="Dew point, such as '52 C'.", show_default=False)] = None,
    altitude: Annotated[
        str | None, typer.Option(help="Such as '1500 m' or '5000 ft'; sea level if not given.", show_default=False)
    ] = None,
    pressure: Annotated[
        str | None, typer.Option(help="Of the air, such as '846 hPa', instead of an altitude.", show_default=False)
    ] = None,
    json: JsonFlag = False,
) -> None:
    """Wet bulb, relative humidity and dew point of air, and the temperature wet meat holds in it."""
    from pellicle import units
    from pellicle.answers.air import air_answer
    from pellicle.errors import InputError
    from pellicle.report.air_document import air_document
    from pellicle.report.air_page import air_page

    given = {"--wet-bulb": wet_bulb, "--humidity": humidity, "--dew-point": dew_point}
    named = [name for name, value in given.items() if value is not None]
    if len(named) != 1:
        raise InputError("air.one_of_three", field=named[1] if named else "--wet-bulb")
    answer = air_answer(
        units.temperature_c(dry_bulb, "--dry-bulb"),
        None if wet_bulb is None else units.temperature_c(wet_bulb, "--wet-bulb"),
        None if humidity is None else units.percent(humidity, "--humidity", most=math.inf),
        None if dew_point is None else units.temperature_c(dew_point, "--dew-point"),
        None if altitude is None else units.altitude_m(altitude, "--altitude"),
        None if pressure is None else units.pressure_pa(pressure, "--pressure"),
        field=named[0],
        dry_field="--dry-bulb",
    )
    if json:
        print_json(air_document(answer))
    else:
        finish(air_page(answer, colour=in_colour()))
