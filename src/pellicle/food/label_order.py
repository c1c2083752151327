"""An ingredient list, from the most to the least: what in it is sugar, salt, syrup solids or a source of nitrite."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from pellicle.table import rows

ALLERGEN = "allergen"


@dataclass(frozen=True, slots=True)
class Order:
    """What a list names, by kind, in its order. ``salt`` and ``sugar_places`` are positions from 0 among ``length``."""

    length: int
    salt: int | None
    sugar_places: tuple[int, ...]
    sugars: tuple[str, ...]
    syrups: tuple[str, ...]
    polyols: tuple[str, ...]
    sodium: tuple[str, ...]
    nitrite: bool
    nitrate: bool
    natural: bool
    allergens: tuple[str, ...]


def read_order(order: tuple[str, ...]) -> Order:
    """Return what an ingredient list names; words it does not know are passed over.

    In each entry the longest words win: ``corn syrup solids`` is a syrup, ``brown sugar`` a sugar.

    >>> read = read_order(("sugar", "salt", "dextrose", "spices", "sodium nitrite"))
    >>> read.sugars, read.salt, read.nitrite
    (('sucrose', 'glucose'), 1, True)
    """
    found = [(at, kind, stands_for) for at, entry in enumerate(order) for kind, stands_for in _kinds(entry)]

    def of(kind: str) -> tuple[str, ...]:
        return tuple(stands_for for _, its, stands_for in found if its == kind)

    def places(kind: str) -> tuple[int, ...]:
        return tuple(dict.fromkeys(at for at, its, _ in found if its == kind))

    return Order(
        length=len(order),
        salt=next(iter(places("salt")), None),
        sugar_places=places("sugar"),
        sugars=of("sugar"),
        syrups=of("syrup"),
        polyols=of("polyol"),
        sodium=tuple(dict.fromkeys(of("sodium"))),
        nitrite=bool(of("nitrite")),
        nitrate=bool(of("nitrate")),
        natural=bool(of("natural nitrite")),
        allergens=tuple(dict.fromkeys(of(ALLERGEN))),
    )


def expected_share(place: int | None, length: int) -> float:
    """Return the share to be expected of the entry at ``place`` (from 0) of a list of ``length`` in falling order.

    A stick broken at random into n pieces: the k-th longest has on average ``(1/k + 1/(k+1) + ... + 1/n) / n`` of it.
    0 for ``place`` None. Source: own arithmetic; two pieces give 3/4 and 1/4.

    >>> expected_share(0, 2), expected_share(1, 2)
    (0.75, 0.25)
    """
    if place is None or length == 0:
        return 0.0
    return sum(1 / at for at in range(place + 1, length + 1)) / length


def _kinds(entry: str) -> list[tuple[str, str]]:
    """Return kind and meaning of the known words of an entry; each word counts once but for allergens."""
    whole = f" {re.sub(r'[^a-z0-9]+', ' ', entry.casefold())} "
    left, found = whole, []
    for words, kind, stands_for in _words():
        if f" {words} " in (whole if kind == ALLERGEN else left):
            found.append((kind, stands_for))
            if kind != ALLERGEN:
                left = left.replace(f" {words} ", "  ")
    return found


@cache
def _words() -> tuple[tuple[str, str, str], ...]:
    read = [(row["words"], row["kind"], row["stands_for"]) for row in rows("food/data/label_words.csv")]
    return tuple(sorted(read, key=lambda row: -len(row[0])))
