"""``pellicle serve``: the web application of a plant, for the browser of this machine."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

DataOption = Annotated[
    Path | None,
    typer.Option(
        "--data", help="The folder of the plant's data; this system's usual place if not given.", show_default=False
    ),
]
USUAL_PORT = 8137


def serve(
    data: DataOption = None,
    port: Annotated[
        int, typer.Option(min=0, max=65535, help="The port to serve on; 0 takes any that is free.")
    ] = USUAL_PORT,
    lan: Annotated[bool, typer.Option("--lan", help="Let phones of the plant in. Not built yet: it refuses.")] = False,
) -> None:
    """Open the plant in the browser: people, records and their audit, on this machine."""
    from pellicle.message import Message
    from pellicle.plant.folder import of
    from pellicle.plant.start.begin import begin

    def tell(text: Message) -> None:
        print(text, file=sys.stderr, flush=True)

    def show(text: Message) -> None:
        print(text, flush=True)

    begin(of(data), port, lan=lan, tell=tell, show=show)
