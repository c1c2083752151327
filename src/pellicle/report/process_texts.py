"""How long a process held what rules ask for, in sentences: humidities, wet bulbs, warming up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pellicle.report.numerals import number, word

if TYPE_CHECKING:
    from pellicle.answers.lethality_answer import ProcessMinutes


def process_texts(process: ProcessMinutes) -> list[str]:
    """Return the minutes of a process in sentences; none on a column that is missing."""
    texts = []
    for name, found in (("humidity", process.at_humidity), ("wet_bulb", process.at_wet_bulb)):
        if all(value is not None for value in found.values()):
            parts = [word(f"lethality_{name}_one", at=at, minutes=number(value, 0)) for at, value in found.items()]
            texts.append(word(f"lethality_{name}_minutes", parts=", ".join(parts)))
    if process.come_up is not None:
        id = "lethality_come_up" if process.reached_54_c else "lethality_no_come_up"
        texts.append(word(id, minutes=number(process.come_up, 0), growth=number(process.growth, 0)))
    return texts
