"""How much dissolves: solubilities by temperature, and warnings where a product's solvent water holds more.

A solute beyond saturation usually stays dissolved in lean dried meat (the model follows that branch), but it may bloom
white on standing, and water activity then stays higher than computed. Storage decides: more dissolves in the hot house.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from pellicle.food.composition import Quantity
from pellicle.message import Message, message
from pellicle.relation import relation
from pellicle.table import number, rows

TABLE = "food/data/solubility.csv"
SUCROSE = "sucrose"
PERCENT = 100.0


@relation("sugar-technology-table", valid={"temperature_c": (0.0, 90.0), "result": (60.0, 85.0)})
def sucrose_solubility_percent(temperature_c: Quantity) -> Quantity:
    """Return the most sucrose that dissolves in water, g per 100 g solution.

    64.397 + 0.07251 t + 0.0020569 t^2 - 9.035e-6 t^3

    ``temperature_c`` [C] 0 to 90; floats or arrays. The sugar-technology table prints 78.74 at 80 C.

    >>> round(sucrose_solubility_percent(80.0), 2)
    78.74
    """
    t = temperature_c
    return 64.397 + 0.07251 * t + 0.0020569 * t * t - 9.035e-6 * t * t * t


def solubility(name: str, temperature_c: float) -> float | None:
    """Return the most of a solute that dissolves, kg per kg water; None where the table does not know it.

    Linear between the temperatures of the table, the end values beyond them. The table of salt gives 0.359 at 20 C
    (from memory).

    >>> round(solubility("salt", 20.0), 3)
    0.359
    """
    if name == SUCROSE:
        percent = float(sucrose_solubility_percent(temperature_c))
    else:
        points = [
            (number(row, "temperature_c"), number(row, "percent_of_solution"))
            for row in rows(TABLE)
            if row["solute"] == name
        ]
        if not points:
            return None
        percent = float(np.interp(temperature_c, [at for at, _ in points], [value for _, value in points]))
    return percent / (PERCENT - percent)


def saturation_warnings(
    solutes: Mapping[str, Quantity], solvent_kg: float, temperature_c: float
) -> tuple[Message, ...]:
    """Return a warning for each solute [kg] of which the solvent water [kg] holds more than dissolves at storage.

    >>> [str(text)[:30] for text in saturation_warnings({"salt": 0.40}, 1.0, 20.0)]
    ['salt is beyond saturation at 2']
    """
    warnings = []
    for name, mass in solutes.items():
        most = solubility(name, temperature_c)
        if most is not None and float(mass) > most * solvent_kg:
            warnings.append(
                message(
                    "food_aw.saturated",
                    solute=name,
                    temperature=f"{temperature_c:g}",
                    held=f"{float(mass) / solvent_kg:.2f}",
                    most=f"{most:.2f}",
                )
            )
    return tuple(warnings)
