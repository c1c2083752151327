"""``pellicle ingredients``, ``rules`` and ``sources``: what Pellicle knows, and where from."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, print_json


def ingredients(
    filter: Annotated[str, typer.Argument(help="Part of a name, a group or an allergen.")] = "",
    json: JsonFlag = False,
) -> None:
    """The ingredients Pellicle knows: composition, allergens, density, source."""
    from pellicle.answers.ingredients import ingredients_answer
    from pellicle.report.document import ingredients_document
    from pellicle.report.terminal_small import ingredients_page

    answer = ingredients_answer(filter)
    if json:
        print_json(ingredients_document(answer))
    else:
        finish(ingredients_page(answer))


def rules(
    on: Annotated[
        str | None, typer.Option(help="The date whose rules are shown; today if not given.", show_default=False)
    ] = None,
    jurisdiction: Annotated[str | None, typer.Option(help="us, eu, ca, codex, ...", show_default=False)] = None,
    json: JsonFlag = False,
) -> None:
    """The limits in force on a date, with clause and source."""
    from pellicle.answers.rules import rules_answer
    from pellicle.report.document import rules_document
    from pellicle.report.terminal_small import rules_page

    answer = rules_answer(day(on, "--on") or date.today(), jurisdiction)
    if json:
        print_json(rules_document(answer))
    else:
        finish(rules_page(answer))


def sources(json: JsonFlag = False) -> None:
    """Every source, and which figures still rest on memory and are to be verified."""
    from pellicle.report.document import sources_document
    from pellicle.report.terminal_small import sources_page
    from pellicle.source import sources as registered

    found = tuple(registered().values())
    if json:
        print_json(sources_document(found))
    else:
        finish(sources_page(found))
