"""``pellicle run``: the passage through the house: temperatures, weight, water activity, lethality, and how sure."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, in_colour, located, print_json, write_bytes

if TYPE_CHECKING:
    from pellicle.answers.plan_answer import PlanAnswer
    from pellicle.product import Product
    from pellicle.study.draws import Prior


def run(
    product: Annotated[Path, typer.Argument(help="The product file, with piece, house and steps.", show_default=False)],
    raw: Annotated[str | None, typer.Option(help="Green weight, such as '40 lb', in place of the file's.")] = None,
    pieces: Annotated[
        str, typer.Option(help="Pieces to run for the spread over batches and pieces, 400 at least; 0: none.")
    ] = "0",
    profile: Annotated[
        list[str] | None,
        typer.Option(
            help="A time, such as '1 h 20 min', at which to show the state across the piece; may be repeated."
        ),
    ] = None,
    pdf: Annotated[
        Path | None,
        typer.Option(help="Write the sheet of the plan, the charts and the findings here.", show_default=False),
    ] = None,
    paper: Annotated[str, typer.Option(help="letter or a4.")] = "letter",
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
        raw_kg = None if raw is None else units.mass(raw, "--raw")
        held = day(on, "--on") or date.today()
        many = units.count(pieces, "--pieces", 0, MOST_PIECES)
        moments = [units.duration_s(text, "--profile") / MINUTE_S for text in profile or ()]
        # before the run, which may take long: what cannot be put on paper is told at once
        planned = None if pdf is None else _planned(item, raw_kg, held, paper)
        if not is_warm():
            typer.echo("Preparing the calculation, once for this version: about half a minute ...", err=True)
            warm()
        answer = answer_run(
            item,
            raw_kg=raw_kg,
            pieces=many,
            on=held,
            profiles=moments,
        )
    except InputError as error:
        raise located(error, product) from None
    refused = planned is not None and planned.refused is not None
    if planned is not None and not refused and answer.drip is not None:
        # one paper, one weight: the sheet is worked out again with the drip of this passage
        planned = _planned(item, raw_kg, held, paper, answer.drip)
    if pdf is not None and planned is not None and not refused:
        from pellicle.report.run_sheet import run_pdf

        write_bytes(pdf, run_pdf(planned, answer, paper=paper), "--pdf")
    if json:
        print_json(run_document(answer))
    else:
        finish(run_page(answer, colour=in_colour()))
    if refused:
        typer.echo("No sheet was written: a cure limit is exceeded.", err=json)
    elif pdf is not None and not json:
        typer.echo(f"Sheet: {pdf}")
    if refused or any(check.verdict.value == "not met" for check in answer.checks):
        raise typer.Exit(1)


def _planned(item: Product, raw_kg: float | None, on: date, paper: str, drip: Prior | None = None) -> PlanAnswer:
    """Return the plan that the sheet needs; InputError where there is none, or for an unknown paper."""
    from pellicle.answers.plan import plan
    from pellicle.report.sheet import refuse_other_paper

    refuse_other_paper(paper)
    return plan(item, raw_kg=raw_kg, on=on, drip=drip)


# More pieces tell no more: the spread itself is known to two digits.
MOST_PIECES = 20000
MINUTE_S = 60.0
