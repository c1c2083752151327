"""Writes the table of `docs/ingredients.md` anew from the catalogue; the text around it is kept by hand."""

from __future__ import annotations

import sys
from itertools import groupby
from pathlib import Path

from pellicle.food.ingredients import Ingredient, catalogue

PAGE = Path(__file__).resolve().parent.parent / "docs" / "ingredients.md"
MARK = "<!-- the table below is written by scripts/ingredients_page.py -->\n"
HEAD = "| name | water | protein | fat | solutes | where from |\n|---|---|---|---|---|---|\n"


def page(text: str) -> str:
    """Return the page's text with its table brought up to date."""
    kept, mark, _ = text.partition(MARK)
    if not mark:
        raise ValueError(f"{PAGE.name} has lost the line {MARK.strip()}")
    return kept + mark + "\n" + table()


def table() -> str:
    """Return the catalogue by group, one line an ingredient, g per 100 g."""
    found = sorted(catalogue().ingredients.values(), key=lambda entry: entry.group)
    return "\n".join(
        f"## {group.capitalize()}\n\n{HEAD}" + "".join(_line(entry) for entry in entries)
        for group, entries in groupby(found, key=lambda entry: entry.group)
    )


def _line(entry: Ingredient) -> str:
    made = entry.composition
    figures = " | ".join(f"{100 * float(mass):.1f}" for mass in (made.water, made.protein, made.fat))
    solutes = ", ".join(f"{name} {100 * float(mass):.3g}" for name, mass in made.solutes.items())
    origin = entry.locator if entry.checked != "no" else f"{entry.locator}, to be verified"
    return f"| {entry.name} | {figures} | {solutes} | {'definition' if entry.locator == 'definition' else origin} |\n"


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text("utf-8")), "utf-8")
    sys.stdout.write(f"{PAGE.name}: {len(catalogue().ingredients)} ingredients\n")
