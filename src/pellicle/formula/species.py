"""The species that a product names against the meat that is in it: rules, tables and targets follow the name."""

from __future__ import annotations

from collections.abc import Iterable

from pellicle.errors import InputError
from pellicle.food.ingredient import MEAT, Ingredient
from pellicle.product import GAME, POULTRY, Form

# Names that stand for one another: the same rules hold for both.
ALIKE = (frozenset({"beef", "veal"}), frozenset({"lamb", "mutton"}))
COLLECTIVE = {"poultry": POULTRY, "game": GAME}


def refuse_other_species(species: str, meat: Ingredient, added: Iterable[Ingredient]) -> None:
    """Refuse a product whose meat is of another species than it names, or that adds poultry to another meat.

    A meat whose species nobody stated passes. InputError under ``product.species``.
    """
    if meat.species and not same_species(species, meat.species):
        raise InputError(
            "formula.other_species", field="product.species", read=species, meat=meat.name, is_=meat.species
        )
    for part in added:
        if part.group == MEAT and part.species in POULTRY and species not in POULTRY:
            raise InputError("formula.poultry_added", field="product.species", read=species, meat=part.name)


def refuse_other_form(form: Form, meat: Ingredient) -> None:
    """Refuse ground meat in a product said to be of whole muscle: limits and cautions follow the form."""
    if "ground" in meat.name.split() and form not in (Form.GROUND, Form.FORMED):
        raise InputError("formula.other_form", field="product.form", read=form.value, meat=meat.name)


def same_species(one: str, other: str) -> bool:
    """Return whether two species stand under the same rules by name.

    >>> same_species("beef", "turkey"), same_species("poultry", "duck"), same_species("game", "venison")
    (False, True, True)
    """
    if one == other or any({one, other} <= alike for alike in ALIKE):
        return True
    return any(
        (one == name and other in members) or (other == name and one in members) for name, members in COLLECTIVE.items()
    )
