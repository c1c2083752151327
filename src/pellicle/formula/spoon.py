"""The spoon cross-check: what a volume on a line would weigh, against what the line says.

Nobody should weigh cure with a spoon; but a volume written beside a weight shows up a slip of a decimal or of a unit.
"""

from __future__ import annotations

from dataclasses import dataclass

from pellicle import units
from pellicle.formula.parts import Formula, WeighedLine
from pellicle.formula.printed import metric_mass
from pellicle.message import Message, message
from pellicle.product import Product

# A spoon, level or heaped, and the grind of the salt explain about this much. assumed: common practice, no source
HIDES_FROM = 1.3


@dataclass(frozen=True, slots=True)
class SpoonCheck:
    """A line beside its volume: masses [kg], the line's over the volume's, and whether a factor hides between them.

    ``volume_kg`` and ``ratio`` are None where no density is known.
    """

    at: int
    ingredient: str
    line_kg: float
    volume_kg: float | None
    ratio: float | None
    hides: bool
    message: Message


def spoon_mass(volume_m3: float, density_kg_m3: float) -> float:
    """Return what a volume [m3] weighs [kg] at a density [kg/m3].

    Salt types differ by a factor of 2.3: a quarter cup (59.1 mL) weighs from 33.2 to 76.0 g.

    >>> round(1000 * spoon_mass(59.147e-6, 1285), 1)
    76.0
    """
    return volume_m3 * density_kg_m3


def check_spoons(product: Product, formula: Formula) -> tuple[SpoonCheck, ...]:
    """Return the check of every line that names a volume, at the product's own green weight (else the formula's).

    InputError for a volume that cannot be read.
    """
    scale = (product.meat.raw_kg or formula.raw_kg) / formula.raw_kg
    return tuple(_check(line, line.kg * scale) for line in formula.lines if line.line.spoon)


def _check(line: WeighedLine, line_kg: float) -> SpoonCheck:
    spoon, name = line.line.spoon, line.line.ingredient
    volume_m3 = units.volume_m3(spoon, f"formula[{line.at + 1}].spoon")
    density = line.parts[0].ingredient.density_kg_m3 if len(line.parts) == 1 else None
    if density is None:
        unknown = message("formula.spoon_unknown", name=name, spoon=spoon, line_mass=metric_mass(line_kg))
        return SpoonCheck(line.at, name, line_kg, None, None, False, unknown)
    volume_kg = spoon_mass(volume_m3, density)
    ratio = line_kg / volume_kg
    hides = not 1 / HIDES_FROM <= ratio <= HIDES_FROM
    words = message(
        "formula.spoon_hides" if hides else "formula.spoon_agrees",
        name=name,
        spoon=spoon,
        volume_mass=metric_mass(volume_kg),
        line_mass=metric_mass(line_kg),
        times=f"{ratio:.2g}",
    )
    return SpoonCheck(line.at, name, line_kg, volume_kg, ratio, hides, words)
