"""``pellicle new`` and ``pellicle schema``: a commented product file to start from, and the schema it follows."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from pellicle.cli.shared import finish, print_json, write_new


def new(
    name: Annotated[
        str, typer.Argument(help="The product's name, or a file name ending in .toml.", show_default=False)
    ],
) -> None:
    """Write a commented product file to start from; it plans as it stands."""
    from pellicle.files.template import file_name, template

    path = Path(name) if name.endswith(".toml") else Path(file_name(name))
    title = Path(name).stem.replace("-", " ").capitalize() if name.endswith(".toml") else name
    write_new(path, template(title), "NAME")
    finish(f"Wrote {path}. Change what differs, then: pellicle plan {path}")


def schema() -> None:
    """Print the JSON Schema of a product file, for editors that check as one types."""
    from pellicle.files.product_model import schema as product_schema

    print_json(product_schema())
