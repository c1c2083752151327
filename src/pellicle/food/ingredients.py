"""The catalogue: every ingredient by name, as data with its origin; users add their own and their unit bags."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.cures import can_carry_nitrite, cure_ingredient, is_cure, needs_strength
from pellicle.food.ingredient import Ingredient
from pellicle.food.label import bag_ingredient
from pellicle.food.names import key, near
from pellicle.food.normalise import normalised
from pellicle.food.own import own_ingredient
from pellicle.message import message
from pellicle.product import Bag, OwnIngredient
from pellicle.table import Row, keys, number, rows

__all__ = [
    "Catalogue",
    "Ingredient",
    "can_carry_nitrite",
    "catalogue",
    "cure_ingredient",
    "is_cure",
    "needs_strength",
]

KG_M3_PER_G_ML = 1000.0


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Ingredients by name; ``by_key`` leads from every spelling that ``names.key`` makes equal to the name."""

    ingredients: Mapping[str, Ingredient]
    by_key: Mapping[str, str]

    def find(self, name: str, field: str = "") -> Ingredient:
        """Return the ingredient of that name or alias; InputError with near matches, under ``field``, if there is none.

        >>> catalogue().find("Inside Round").name
        'beef top round'
        """
        found = self.by_key.get(key(name))
        if found is not None:
            return self.ingredients[found]
        if not name.strip():
            raise InputError("food.no_name", field=field)
        spellings = near(name, self.by_key)
        matches = dict.fromkeys(self.by_key[spelling] for spelling in spellings)
        hint = message("food.near", names=", ".join(matches)) if matches else message("food.no_near")
        raise InputError("food.unknown_ingredient", field=field, name=name, hint=str(hint))

    def matching(self, text: str) -> tuple[Ingredient, ...]:
        """Return the ingredients whose name, aliases, group or species hold every word of ``text``; all for no text.

        >>> [found.name for found in catalogue().matching("round bison")]
        ['bison top round']
        """
        words = [word for word in key(text).split(" ") if word]
        return tuple(entry for entry in self.ingredients.values() if all(word in _searched(entry) for word in words))

    def with_own(self, *own: OwnIngredient, field: str = "") -> Catalogue:
        """Return a catalogue with the user's ingredients added, or put in the place of those whose name they bear.

        InputError under ``field`` (or ``ingredient.NAME``) for what ``own_ingredient`` refuses.
        """
        made = []
        for entry in own:
            if not entry.name.strip():
                raise InputError("food.no_name", field=field or "ingredient")
            found = self.by_key.get(key(entry.name))
            made.append(own_ingredient(entry, self.ingredients[found] if found is not None else None, field))
        return self._with(made)

    def with_bags(self, *bags: Bag) -> Catalogue:
        """Return a catalogue with unit bags added, made from their labels; InputError as ``bag_ingredient``."""
        return self._with([bag_ingredient(bag) for bag in bags])

    def _with(self, added: Iterable[Ingredient]) -> Catalogue:
        ingredients, by_key = dict(self.ingredients), dict(self.by_key)
        for entry in added:
            known = by_key.get(key(entry.name))
            if known is not None and known != entry.name and key(known) == key(entry.name):
                by_key = {spelling: entry.name if name == known else name for spelling, name in by_key.items()}
                ingredients.pop(known)
            ingredients[entry.name] = entry
            by_key[key(entry.name)] = entry.name
        return Catalogue(MappingProxyType(ingredients), MappingProxyType(by_key))


@cache
def catalogue() -> Catalogue:
    """Return the catalogue that ships with Pellicle (``data/ingredients.csv``).

    >>> meat = catalogue().find("beef top round")
    >>> round(meat.composition.total, 12), meat.composition.protein
    (1.0, 0.2359)
    """
    ingredients = {row["name"]: _ingredient(row) for row in rows("food/data/ingredients.csv")}
    by_key = {key(alias): name for name, entry in ingredients.items() for alias in entry.aliases}
    by_key.update({key(name): name for name in ingredients})
    return Catalogue(MappingProxyType(ingredients), MappingProxyType(by_key))


def printed(row: Row) -> Composition:
    """Return the figures of a row as they stand in the table, g per 100 g; ``muscle`` is g of muscle protein."""
    pairs = [part.split("=") for part in row["solutes"].split(";") if part.strip()]
    protein = number(row, "protein")
    return Composition(
        water=number(row, "water"),
        protein=protein,
        fat=number(row, "fat"),
        ash=number(row, "ash"),
        carbohydrate=number(row, "carbohydrate"),
        muscle=number(row, "muscle") * protein,
        solutes=MappingProxyType({name.strip(): float(grams) for name, grams in pairs}),
    )


def _ingredient(row: Row) -> Ingredient:
    composition, said = normalised(printed(row))
    density = number(row, "density", empty=0.0)
    declare = _list(row["declare"])
    return Ingredient(
        name=row["name"],
        label=row["label"],
        group=row["group"],
        composition=composition,
        species=row["species"],
        allergens=_list(row["allergens"]),
        density_kg_m3=density * KG_M3_PER_G_ML if density else None,
        water_sd=number(row, "water_sd", empty=0.0),
        declare=declare,
        nitrite_known="nitrite" not in declare,
        nitrate_known="nitrate" not in declare,
        normalised=said,
        aliases=_list(row["aliases"]),
        sources=keys(row),
        locator=row["locator"],
        note=row["note"],
        checked=row["checked"],
    )


def _list(cell: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in cell.split(";") if part.strip())


def _searched(entry: Ingredient) -> str:
    return key(" ".join([entry.name, entry.label, entry.group, entry.species, *entry.aliases]))
