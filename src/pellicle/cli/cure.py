"""``pellicle cure``: ingoing nitrite by the official arithmetic of the method, against the limit of a place and
date."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, day, finish, print_json


def cure(
    method: Annotated[
        str,
        typer.Option(
            help="rubbed, tumbled, injected, immersion-pickup, immersion-whole or ground.", show_default=False
        ),
    ],
    meat: Annotated[str, typer.Option(help="Green weight of the meat, such as '100 lb'.", show_default=False)],
    cure: Annotated[str, typer.Option(help="Mass of the cure, such as '4 oz'.", show_default=False)],
    nitrite: Annotated[
        str | None, typer.Option(help="The nitrite on the cure's label, such as '6.25 %'.", show_default=False)
    ] = None,
    nitrate: Annotated[str | None, typer.Option(help="The nitrate on the label, if any.", show_default=False)] = None,
    pickle: Annotated[
        str | None, typer.Option(help="Mass of the whole pickle, cure included.", show_default=False)
    ] = None,
    pickup: Annotated[
        str | None,
        typer.Option(help="Pickle taken up, as share of the green weight, such as '8 %'.", show_default=False),
    ] = None,
    jurisdiction: Annotated[str, typer.Option(help="us, eu, ca, codex; others give 'cannot tell'.")] = "us",
    product_class: Annotated[
        str, typer.Option("--class", help="shelf-stable, refrigerated or bacon.")
    ] = "shelf-stable",
    potassium: Annotated[bool, typer.Option("--potassium", help="The label says potassium nitrite.")] = False,
    on: Annotated[
        str | None, typer.Option(help="The date whose rules hold; today if not given.", show_default=False)
    ] = None,
    json: JsonFlag = False,
) -> None:
    """Is this much cure inside the legal limit? ppm, the sum it comes from, and the largest lawful amount."""
    from pellicle import units
    from pellicle.answers.cure import cure_answer
    from pellicle.errors import InputError
    from pellicle.files.refusals import choice
    from pellicle.food.cures import refuse_weak
    from pellicle.product import CureMethod, Form, Storage
    from pellicle.report.document import cure_document
    from pellicle.report.terminal_small import cure_page

    if nitrite is None and nitrate is None:
        raise InputError("cli.cure_strength", field="--nitrite")
    chosen: CureMethod = choice(method, "--method", {item.value: item for item in CureMethod})
    refuse_weak(
        0.0 if nitrite is None else units.nitrite_strength(nitrite, "--nitrite"),
        0.0 if nitrate is None else units.nitrite_strength(nitrate, "--nitrate"),
        "cure",
        "--nitrite",
    )
    answer = cure_answer(
        method=chosen,
        meat_kg=units.mass(meat, "--meat"),
        cure_kg=units.mass(cure, "--cure"),
        nitrite_share=0.0 if nitrite is None else units.nitrite_strength(nitrite, "--nitrite"),
        nitrate_share=None if nitrate is None else units.nitrite_strength(nitrate, "--nitrate"),
        pickle_kg=None if pickle is None else units.mass(pickle, "--pickle"),
        pickup_share=None if pickup is None else units.share(pickup, "--pickup"),
        jurisdiction=jurisdiction.strip().lower(),
        on=day(on, "--on") or date.today(),
        form=Form.GROUND if chosen is CureMethod.GROUND else Form.WHOLE_MUSCLE,
        storage=choice(product_class, "--class", {item.value: item for item in Storage}),
        potassium=potassium,
    )
    if json:
        print_json(cure_document(answer))
    else:
        finish(cure_page(answer))
    if answer.verdict == "not met":
        raise typer.Exit(1)
