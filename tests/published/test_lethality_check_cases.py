"""Lethality of three simulated check cases against what a prototype of the same model gave, converged to 1e-4.

Source: our note on the prototype (invented inputs; law N): log reductions credited while wet, in the outer millimetre,
and by the line of the printed table on the core. The prototype took 1.72 min and 5.56 C for that line; the one kept
here reproduces the table (1.714 min, 10.005 F), which is worth 0.5 to 1 %.
"""

from __future__ import annotations

import pytest

from agreement import agrees
from pellicle.answers.lethality_facts import sugar_share
from pellicle.food.composition import Composition
from pellicle.piece.mixture import mixture
from pellicle.run.setup import Air, RunSetup, RunStep
from pellicle.run.simulate import RunOptions, series_from, simulate
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import lethality

PORK = Composition(
    water=78.6, protein=22.3, fat=2.8, ash=1.1, carbohydrate=0.4, muscle=22.3, solutes={"salt": 1.7, "sucrose": 3.5}
)
VENISON = Composition(
    water=82.0, protein=22.6, fat=1.9, ash=1.1, carbohydrate=0.5, muscle=22.6,
    solutes={"salt": 2.6, "sucrose": 7.0, "sorbitol": 2.0},
)  # fmt: skip
BEEF = Composition(water=75.2, protein=21.0, fat=6.4, ash=1.0, carbohydrate=0.3, muscle=21.0, solutes={"salt": 2.4})
DAYS = 3000.0


def step(air_c: float, minutes: float, film: float, emissivity: float = 0.0, **rest: float) -> RunStep:
    humidity, wet_bulb = rest.pop("humidity", None), rest.pop("wet_bulb_c", None)
    air = Air(
        relative=None if humidity is None else (humidity, humidity),
        wet_bulb_c=None if wet_bulb is None else (wet_bulb, wet_bulb),
    )
    return RunStep(f"{air_c:.0f} C", (air_c, air_c), air, film, 60.0 * minutes, emissivity=emissivity, **rest)


CASES = {
    "P1": (
        PORK,
        {
            "thickness_m": 4.0e-3,
            "steps": (
                step(45, 25, 15, humidity=0.40),
                step(63, 40, 15, wet_bulb_c=57.0),
                step(72, DAYS, 15, humidity=0.25, until_aw=0.86),
            ),
        },
        True,
    ),
    "P2": (
        VENISON,
        {"thickness_m": 7.5e-3, "start_c": 6.0, "steps": (step(68, DAYS, 12, humidity=0.12, until_weight=0.50),)},
        False,
    ),
    "P3": (
        BEEF,
        {
            "thickness_m": 3.2e-3,
            "open_share_below": 0.0,
            "steps": (
                step(62, 50, 17, emissivity=0.9, humidity=0.45),
                step(78, DAYS, 17, emissivity=0.9, humidity=0.18, until_aw=0.80),
            ),
        },
        False,
    ),
}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("case", "wet", "local", "table"),
    [("P1", 1.724, 1.801, 8.356), ("P2", 7.2e-5, 0.0102, 0.0350), ("P3", 0.0774, 0.4311, 10.39)],
)
def test_lethality_of_a_check_case(case: str, wet: float, local: float, table: float) -> None:
    made, setup, inside = CASES[case]
    run = simulate(RunSetup(mixture(made), cells=40, **setup), RunOptions(tolerance=1e-5))
    found = lethality(series_from(run), LethalityFacts("beef", inside, sugar_share(made)))["salmonella"]

    assert found.wet is not None
    assert found.local is not None
    assert found.table_ramp is not None
    assert agrees(found.wet, wet, within=0.02 * wet)
    assert agrees(found.local, local, within=0.02 * local)
    assert agrees(found.table_ramp, table, within=0.02 * table)
