"""``pellicle plan``: formula scaled, cure arithmetic, the curve, the weight to pull at, checks."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, in_colour, located, print_json, write_bytes


def plan(
    product: Annotated[Path, typer.Argument(help="The product file (TOML).", show_default=False)],
    raw: Annotated[
        str | None, typer.Option(help="Green weight to make, such as '40 lb', in place of the file's.")
    ] = None,
    total: Annotated[
        str | None, typer.Option(help="Weight of everything that goes in, in place of the green weight.")
    ] = None,
    like: Annotated[
        Path | None, typer.Option(help="Another product file: match its taste per bite.", show_default=False)
    ] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the process sheet here.", show_default=False)] = None,
    paper: Annotated[str, typer.Option(help="letter or a4.")] = "letter",
    on: Annotated[
        str | None, typer.Option(help="The date whose rules hold, such as 2026-03-14; today if not given.")
    ] = None,
    json: JsonFlag = False,
) -> None:
    """What to weigh out, whether the cure is inside its limit, and at which weight to pull."""
    from pellicle import units
    from pellicle.answers.plan import plan as answer_plan
    from pellicle.errors import InputError
    from pellicle.files.product_file import read_product
    from pellicle.report.document import plan_document
    from pellicle.report.terminal import plan_page

    if raw is not None and total is not None:
        raise InputError("cli.raw_or_total", field="--total")
    try:
        item = read_product(product)
        other = None if like is None else read_product(like)
        answer = answer_plan(
            item,
            raw_kg=None if raw is None else units.mass(raw, "--raw"),
            total_kg=None if total is None else units.mass(total, "--total"),
            on=day(on, "--on") or date.today(),
            like=other,
        )
    except InputError as error:
        raise located(error, product) from None
    if pdf is not None and answer.refused is None:
        from pellicle.report.sheet import plan_pdf

        write_bytes(pdf, plan_pdf(answer, paper=paper), "--pdf")
    if json:
        print_json(plan_document(answer))
    else:
        finish(plan_page(answer, colour=in_colour()))
        if pdf is not None:
            typer.echo(f"Sheet: {pdf}" if answer.refused is None else "No sheet was written: a cure limit is exceeded.")
    if any(check.verdict.value == "not met" for check in answer.checks):
        raise typer.Exit(1)
