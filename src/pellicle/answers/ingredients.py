"""What ``ingredients`` answers: the catalogue's rows that match a filter."""

from __future__ import annotations

from pellicle.errors import InputError
from pellicle.food.ingredients import Ingredient, catalogue


def ingredients_answer(filter: str) -> tuple[Ingredient, ...]:
    """Return the ingredients whose name, alias, group or allergen contains ``filter``; InputError if there are none."""
    found = catalogue().matching(filter)
    if not found:
        catalogue().find(filter, "FILTER")  # says which names come near
        raise InputError("answers.no_ingredient", field="FILTER", read=filter)
    return found
