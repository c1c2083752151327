"""Ingredients of one's own: a TOML file beside the product file that adds to the catalogue or overrides a row of it."""

from __future__ import annotations

from pathlib import Path
from types import MappingProxyType

from pydantic import ValidationError

from pellicle import units
from pellicle.errors import InputError
from pellicle.files import text as toml
from pellicle.files.product_model import IngredientFile
from pellicle.files.refusals import refuse
from pellicle.product import OwnIngredient


def read_ingredients(path: Path) -> tuple[OwnIngredient, ...]:
    """Return the ingredients of a file; InputError, naming file and line, for anything that cannot be used."""
    text = toml.read_text(path)
    try:
        return _ingredients(text, path.name)
    except InputError as error:
        error.file = path.name
        if error.line is None:
            error.line = toml.line_of(toml.lines_by_path(text), error.field)
        raise


def _ingredients(text: str, name: str) -> tuple[OwnIngredient, ...]:
    try:
        file = IngredientFile.model_validate(toml.read_toml(text, name))
    except ValidationError as error:
        raise refuse(error, IngredientFile, toml.lines_by_path(text)) from None
    return tuple(
        OwnIngredient(
            name,
            MappingProxyType(dict(table.per_100g)),
            table.label,
            table.group,
            tuple(table.allergens),
            None if table.density is None else units.density_kg_m3(table.density, f"ingredient.{name}.density"),
            table.source,
        )
        for name, table in file.ingredient.items()
    )
