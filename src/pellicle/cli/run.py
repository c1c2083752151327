"""``pellicle run``: the passage through the house: temperatures, weight, water activity, lethality, and how sure."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, in_colour, located, print_json


def run(
    product: Annotated[Path, typer.Argument(help="The product file, with piece, house and steps.", show_default=False)],
    raw: Annotated[str | None, typer.Option(help="Green weight, such as '40 lb', in place of the file's.")] = None,
    pieces: Annotated[str, typer.Option(help="Pieces to run for the spread over batches and pieces; 0: none.")] = "0",
    profile: Annotated[
        list[str] | None,
        typer.Option(
            help="A time, such as '1 h 20 min', at which to show the state across the piece; may be repeated."
        ),
    ] = None,
    on: Annotated[str | None, typer.Option(help="The date whose rules hold; today if not given.")] = None,
    json: JsonFlag = False,
) -> None:
    """The passage through the house, step by step: heat, water, lethality credited while wet, and findings."""
    from pellicle import units
    from pellicle.answers.run import run as answer_run
    from pellicle.errors import InputError
    from pellicle.files.product_file import read_product
    from pellicle.report.document import run_document
    from pellicle.report.run_page import run_page
    from pellicle.run.cache import is_warm
    from pellicle.run.warm import warm

    try:
        item = read_product(product)
        if not is_warm():
            typer.echo("Preparing the calculation, once for this version: about half a minute ...", err=True)
            warm()
        answer = answer_run(
            item,
            raw_kg=None if raw is None else units.mass(raw, "--raw"),
            pieces=units.count(pieces, "--pieces", 0, MOST_PIECES),
            on=day(on, "--on") or date.today(),
            profiles=[units.duration_s(text, "--profile") / MINUTE_S for text in profile or ()],
        )
    except InputError as error:
        raise located(error, product) from None
    if json:
        print_json(run_document(answer))
    else:
        finish(run_page(answer, colour=in_colour()))
    if any(check.verdict.value == "not met" for check in answer.checks):
        raise typer.Exit(1)


# More pieces tell no more: the spread itself is known to two digits.
MOST_PIECES = 20000
MINUTE_S = 60.0
