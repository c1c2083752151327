"""Writes the tables of `docs/water_activity.md` anew: published products, computed against measured, with a summary."""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from pellicle.food.composition import Composition
from pellicle.food.water_activity import WaterActivity, estimate
from pellicle.table import Row, number, read_rows

TOP = Path(__file__).resolve().parent.parent
PAGE = TOP / "docs" / "water_activity.md"
ROWS = TOP / "tests" / "published" / "aw_product_rows.csv"
MARK = "<!-- the tables below are written by scripts/water_activity_page.py -->\n"
# The protein water factor that was set before any of these products was looked at, and the one that ships.
BLIND = {"protein_water_factor": 1.0}
SHIPPED: dict[str, float] = {}
SOLUTES = {"salt_g": "salt", "sucrose_g": "sucrose", "phosphate_g": "sodium tripolyphosphate"}


@dataclass(frozen=True, slots=True)
class Compared:
    """A published product: its row, what the model says of it blind and as shipped, and what was measured."""

    row: Row
    measured: float
    blind: WaterActivity
    shipped: WaterActivity


def compared() -> list[Compared]:
    """Return every published product with its computed water activities."""
    found = []
    for row in read_rows(ROWS.read_text("utf-8"), ROWS.name):
        composition = Composition(
            water=number(row, "water_g"),
            protein=number(row, "protein_g"),
            muscle=number(row, "muscle_g"),
            solutes={name: number(row, column) for column, name in SOLUTES.items()},
        )
        measured = number(row, "measured_aw")
        found.append(
            Compared(row, measured, estimate(composition, overrides=BLIND), estimate(composition, overrides=SHIPPED))
        )
    return found


def errors(results: Sequence[Compared], setting: str, field: str) -> list[float]:
    """Return computed minus measured; ``setting`` is blind or shipped, ``field`` is model_aw or aw."""
    return [getattr(getattr(one, setting), field) - one.measured for one in results]


def covered(results: Sequence[Compared], setting: str) -> int:
    """Return how many measured values lie in their 90 % interval."""
    answers = [(getattr(one, setting), one.measured) for one in results]
    return sum(answer.low <= measured <= answer.high for answer, measured in answers)


def summary_line(name: str, results: Sequence[Compared], setting: str, field: str) -> str:
    """Return a row of the summary: bias, mean absolute, root mean square and largest error, and coverage."""
    found = errors(results, setting, field)
    bias, mean = sum(found) / len(found), sum(map(abs, found)) / len(found)
    root = math.sqrt(sum(error * error for error in found) / len(found))
    cover = f"{covered(results, setting)} of {len(results)}"
    return f"| {name} | {len(found)} | {bias:+.4f} | {mean:.4f} | {root:.4f} | {max(map(abs, found)):.3f} | {cover} |\n"


def tables() -> str:
    """Return both tables as the page shows them."""
    results = compared()
    salted = [one for one in results if one.row["kind"] == "salted"]
    sweet = [one for one in results if one.row["kind"] == "sweet"]
    text = "\n### Summary\n\n| class and setting | n | bias | mean abs. | r.m.s. | largest | inside the 90 % range |\n"
    text += "|---|---|---|---|---|---|---|\n"
    for setting, factor in (("blind", "1.0"), ("shipped", "0.90")):
        text += summary_line(f"salted, {setting} (factor {factor})", salted, setting, "model_aw")
        text += summary_line(f"sweet, {setting}, bare model", sweet, setting, "model_aw")
        text += summary_line(f"sweet, {setting}, expected aw", sweet, setting, "aw")
        text += summary_line(f"all, {setting}, expected aw", results, setting, "aw")
    text += "\n### Row by row\n\n| row | product | measured | blind | shipped | expected | 90 % range | review |\n"
    text += "|---|---|---|---|---|---|---|---|\n"
    for one in results:
        answer = one.shipped
        text += (
            f"| {one.row['row']} | {one.row['product']} | {one.row['measured_aw']} | {one.blind.model_aw:.3f} | "
            f"{answer.model_aw:.3f} | {answer.aw:.3f} | {answer.low:.3f} to {answer.high:.3f} | "
            f"{one.row['review_aw']} |\n"
        )
    text += "\n### Where each row comes from and what was assumed\n\n"
    for one in results:
        note = f" Note: {one.row['note']}." if one.row["note"] else ""
        text += f"* Row {one.row['row']}: {one.row['source']}, {one.row['locator']}. {one.row['assumed']}.{note}\n"
    return text


def page(text: str) -> str:
    """Return the page's text with its tables brought up to date."""
    kept, mark, _ = text.partition(MARK)
    if not mark:
        raise ValueError(f"{PAGE.name} has lost the line {MARK.strip()}")
    return kept + mark + tables()


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text("utf-8")), "utf-8")
    sys.stdout.write(f"{PAGE.name}: {len(compared())} products\n")
