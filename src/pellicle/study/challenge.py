"""Published challenge studies run through the model: what is credited and what is expected against what was measured.

What a study does not state is drawn: thickness, film coefficient, how fast water moves, how moist the room was, how far
a tray is off. No row is tuned. A study is run where its schedule was seen whole and nothing but drying happens in it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

import numpy as np

from pellicle import parameter
from pellicle.food.composition import Composition
from pellicle.food.water_activity import inputs
from pellicle.measured.series import Array
from pellicle.piece.mixture import mixture
from pellicle.run.setup import Air, RunSetup, RunStep, move
from pellicle.run.simulate import series_from, simulate
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import lethality, wet_draws
from pellicle.table import Row, keys, number, rows

TABLE = "safety/data/challenge_studies.csv"
DRAWS = 24
SEED = 20260314
# What a study leaves out: relative (log-normal) spreads, and the offset of a tray, K (assumed; review, section 7.3).
THICKNESS_SPREAD, FILM_SPREAD, DIFFUSIVITY_SPREAD, ROOM_SPREAD = 0.12, 0.30, 0.35, 0.30
TRAY_SD_C = 1.5
ROOM_RATIO = 0.009  # kg/kg, a room of 20 C and 60 % (review, section 3.3)
START_C = 5.0
# Lean beef, g per 100 g, and the same with the fat that a ground product is said to have (usda-sr28, rounded).
LEAN = {"water": 73.0, "protein": 22.0, "fat": 4.0, "ash": 1.1}
IONS = 2.0
LOW_QUANTILE = 0.05


@dataclass(frozen=True, slots=True)
class Study:
    """One row: what was measured, log10 (low and high ends; ``at least`` and ``below`` have one), and how it was run.

    ``stages`` is empty where it cannot be run; ``why_not`` says why.
    """

    id: str
    process: str
    meat: str
    organism: str
    bound: str
    low_log: float | None
    high_log: float | None
    stages: tuple[str, ...]
    row: Row
    why_not: str
    sources: tuple[str, ...]

    @property
    def measured(self) -> str:
        """What was measured, as text.

        >>> [study.measured for study in studies() if study.id in ("V1a", "V9c", "V15a")]
        ['at least 6.4', '3.0 to 4.6', 'below 5.0']
        """
        if self.bound == "at least":
            return f"at least {self.low_log:.1f}"
        if self.bound == "below":
            return f"below {self.high_log:.1f}"
        if self.low_log is None or self.high_log is None:
            return "no number seen"
        return f"{self.low_log:.1f}" if self.low_log == self.high_log else f"{self.low_log:.1f} to {self.high_log:.1f}"

    @property
    def middle(self) -> float | None:
        """The middle of an uncensored range; None where only a bound was measured."""
        if self.bound != "range" or self.low_log is None or self.high_log is None:
            return None
        return 0.5 * (self.low_log + self.high_log)


@dataclass(frozen=True, slots=True)
class Compared:
    """One study run: the 5 % quantile and the median of what is credited, what is expected (median and spread)."""

    study: Study
    wet_low: float
    wet: float
    local: float
    expected: float
    expected_sd: float
    table: float

    @property
    def exceeds(self) -> bool:
        """True where even the low end of what is credited is more than was measured: too bold, and not censored."""
        return self.study.bound != "at least" and self.wet_low > (self.study.high_log or 0.0)


@cache
def studies() -> tuple[Study, ...]:
    """Return every study, run or not."""
    return tuple(
        Study(
            row["id"],
            row["process"],
            row["meat"],
            row["organism"],
            row["bound"],
            number(row, "low_log") if row["low_log"] else None,
            number(row, "high_log") if row["high_log"] else None,
            tuple(row["air"].split(" then ")) if row["air"] else (),
            row,
            "" if row["air"] else row["note"],
            keys(row),
        )
        for row in rows(TABLE)
    )


def compare(study: Study, draws: int = DRAWS) -> Compared:
    """Return one study run under so many draws of what it leaves out; always the same ones.

    InputError for a study that cannot be run.
    """
    made = _composition(study)
    facts = LethalityFacts("beef", sugar_share=_sugar_share(made))
    random = np.random.default_rng([SEED, sum(map(ord, study.id))])
    wet: list[Array] = []
    numbers = []
    for _ in range(draws):
        series = series_from(simulate(_setup(study, made, random)))
        found = lethality(series, facts, (study.organism,))[study.organism]
        wet.append(wet_draws(series, facts, study.organism))
        numbers.append((found.local or 0.0, found.expected or 0.0, found.table_ramp or 0.0))
    pooled = np.concatenate(wet)
    local, expected, table = (np.array(column) for column in zip(*numbers, strict=True))
    return Compared(
        study,
        float(np.quantile(pooled, LOW_QUANTILE)),
        float(np.median(pooled)),
        float(np.median(local)),
        float(np.median(expected)),
        float(np.std(expected)),
        float(np.median(table)),
    )


def bias(compared: tuple[Compared, ...]) -> tuple[float, float, int]:
    """Return how far what is expected is off over the uncensored rows: mean, standard deviation, how many."""
    off = [one.expected - one.study.middle for one in compared if one.study.middle is not None]
    return float(np.mean(off)), float(np.std(off, ddof=1)), len(off)


def _composition(study: Study) -> Composition:
    row = study.row
    water = LEAN["water"] + number(row, "water_added")
    solutes = {"salt": number(row, "salt"), "sucrose": number(row, "sugar")}
    return Composition(
        water=water,
        protein=LEAN["protein"],
        fat=LEAN["fat"],
        ash=LEAN["ash"],
        muscle=LEAN["protein"],
        solutes={name: mass for name, mass in solutes.items() if mass > 0.0},
    )


def _sugar_share(made: Composition) -> float:
    found = inputs(made)
    particles = float(found.sugar_mol + IONS * found.salt_mol + found.other_osmol)
    return float(found.sugar_mol) / particles if particles else 0.0


def _setup(study: Study, made: Composition, random: np.random.Generator) -> RunSetup:
    thick, film, moves, room = np.exp(
        np.array([THICKNESS_SPREAD, FILM_SPREAD, DIFFUSIVITY_SPREAD, ROOM_SPREAD]) * random.standard_normal(4)
    ).tolist()
    off_c = TRAY_SD_C * float(random.standard_normal())
    name = "water_diffusivity_60_c"
    return RunSetup(
        mixture(made),
        number(study.row, "thickness_mm") / 1000.0 * thick,
        tuple(_step(stage, number(study.row, "film_w_m2k") * film, ROOM_RATIO * room, off_c) for stage in study.stages),
        move=move({name: parameter.value(name) * moves}),
        start_c=START_C,
    )


def _step(stage: str, film_w_m2k: float, room_ratio: float, off_c: float) -> RunStep:
    """One stage such as ``60 76.7 wet 51.7``, ``44 55.6 rh 9`` or ``600 62.5 outside``; a tray is off by so much."""
    match = re.fullmatch(r"(\S+) (\S+) (?:(wet|rh) (\S+)|outside)", stage)
    assert match is not None, stage
    minutes, dry_c = float(match.group(1)), float(match.group(2)) + off_c
    if match.group(3) == "wet":
        air = Air(wet_bulb_c=(min(float(match.group(4)), dry_c),) * 2)
    elif match.group(3) == "rh":
        air = Air(relative=(float(match.group(4)) / 100.0,) * 2)
    else:
        air = Air(relative=(_heated(room_ratio, dry_c),) * 2)
    return RunStep(stage, (dry_c, dry_c), air, film_w_m2k, 60.0 * minutes)


def _heated(ratio: float, dry_bulb_c: float) -> float:
    """The relative humidity of room air heated up."""
    from pellicle.air.humid import STANDARD_PRESSURE_PA, saturation_pressure_pa, vapour_pressure_pa

    return float(vapour_pressure_pa(ratio, STANDARD_PRESSURE_PA) / saturation_pressure_pa(dry_bulb_c))
