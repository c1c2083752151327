"""``pellicle aw``: the water activity of a mixture given as masses of water, protein and solutes."""

from __future__ import annotations

from typing import Annotated

import typer

from pellicle.cli.shared import JsonFlag, finish, print_json


def aw(
    water: Annotated[str, typer.Option(help="Mass of water, such as '1 kg' or '12 oz'.", show_default=False)],
    protein: Annotated[str, typer.Option(help="Mass of muscle protein.")] = "0 kg",
    solute: Annotated[
        list[str] | None,
        typer.Option(help="A solute and its mass, such as 'salt=0.175 kg'; repeatable.", show_default=False),
    ] = None,
    json: JsonFlag = False,
) -> None:
    """Water activity at 25 C from masses of water, protein and solutes, with its range."""
    from types import MappingProxyType

    from pellicle import units
    from pellicle.answers.aw import aw_answer
    from pellicle.errors import InputError
    from pellicle.food.composition import Composition
    from pellicle.food.solutes import solute as known_solute
    from pellicle.report.document import aw_document
    from pellicle.report.terminal_small import aw_page

    masses: dict[str, float] = {}
    for entry in solute or []:
        name, equals, mass = entry.partition("=")
        if not equals or not name.strip() or not mass.strip():
            raise InputError("cli.solute_form", field="--solute", read=entry)
        found = known_solute(name.strip(), "--solute").name
        if found in masses:
            raise InputError("cli.solute_twice", field="--solute", name=found)
        masses[found] = units.mass(mass, f"--solute {name.strip()}", zero=True)
    water_kg = units.mass(water, "--water", zero=True)
    if water_kg == 0:
        raise InputError("cli.no_water", field="--water")
    protein_kg = units.mass(protein, "--protein", zero=True)
    answer = aw_answer(
        Composition(water=water_kg, protein=protein_kg, muscle=protein_kg, solutes=MappingProxyType(masses))
    )
    if json:
        print_json(aw_document(answer))
    else:
        finish(aw_page(answer))
