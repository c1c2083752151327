"""Pieces and schedules for the tests of the run: two named schedules and random ones."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from pellicle.files.product_file import read_product
from pellicle.food.composition import Composition
from pellicle.food.ingredients import catalogue
from pellicle.formula.resolve import resolve
from pellicle.formula.uptake import marinate
from pellicle.piece.mixture import mixture
from pellicle.run.product_setup import setup_from
from pellicle.run.setup import Air, RunSetup, RunStep, move


def pork(**changes: object) -> RunSetup:
    """6 mm of marinated pork without a schedule of its own."""
    made = Composition(
        water=81.2, protein=21.6, fat=2.9, ash=1.1, carbohydrate=0.6, muscle=21.6,
        solutes={"salt": 1.9, "sucrose": 4.0, "glucose": 1.5},
    )  # fmt: skip
    given: dict[str, object] = {"thickness_m": 6e-3, "steps": MIX, **changes}
    return RunSetup(mixture(made), **given)  # type: ignore[arg-type]


def held(
    name: str, air_c: float, minutes: float, humidity: float | None = None, wet_bulb_c: float | None = None,
    film: float = 20.0, **changes: object,
) -> RunStep:  # fmt: skip
    """A step whose air is held."""
    air = Air(
        relative=None if humidity is None else (humidity, humidity),
        wet_bulb_c=None if wet_bulb_c is None else (wet_bulb_c, wet_bulb_c),
    )
    return RunStep(name, (air_c, air_c), air, film, minutes * 60.0, **changes)  # type: ignore[arg-type]


MIX = (
    held("warm", 52.0, 25, 0.30),
    held("humid", 66.0, 45, wet_bulb_c=60.5),
    held("hot", 74.0, 60, 0.38),
    held("dry", 70.0, 75, 0.22),
)
DRY = (held("warm", 55.0, 40, 0.20), held("middle", 68.0, 60, 0.22), held("hot", 74.0, 80, 0.20))


def random_setup(seed: int, hostile: bool = False) -> RunSetup:
    """A piece and a schedule at random; hostile ones reach to the ends of what can be stated at all."""
    draw = np.random.default_rng(seed)
    salt, sugar = draw.uniform(0.0, 8.0), draw.uniform(0.0, 46.0 if hostile else 15.0)
    made = Composition(
        water=74.0 + draw.uniform(0.0, 40.0), protein=21.5, fat=draw.uniform(0.5, 8.0), ash=1.1, muscle=21.5,
        solutes={"salt": salt, "sucrose": sugar / 2, "sorbitol": sugar / 2},
    )  # fmt: skip
    below = float(draw.choice([0.0, 0.3, 0.7, 1.0]))
    moves = {
        "water_diffusivity_60_c": float(np.exp(draw.uniform(np.log(5e-11), np.log(3e-9)))),
        "water_dryness_slope": float(draw.uniform(0.02, 0.6)),
        "solute_drag": float(draw.choice([-1.0, -1.0, 0.0, 0.5, 1.0])),
        "cookout_factor": float(draw.uniform(0.0, 1.1)),
    }
    if not hostile:
        moves["water_diffusivity_60_c"] = float(np.exp(draw.uniform(np.log(2.5e-10), np.log(1e-9))))
        moves["water_dryness_slope"] = float(draw.uniform(0.05, 0.4))
    thickness = draw.uniform(1.0, 20.0) if hostile else draw.uniform(2.0, 10.0)
    steps = tuple(_random_step(draw, hostile, at) for at in range(int(draw.integers(1, 5))))
    film = float(draw.choice([0.0, 0.0, 4e-4]))
    loaded = (0.3, 0.9 * salt / 30.0, 0.9 * sugar / 30.0) if film else (0.0, 0.0, 0.0)
    return RunSetup(
        mixture(made), thickness * 1e-3, steps, move=move(moves), start_c=float(draw.uniform(0.0, 20.0)),
        pressure_pa=float(draw.choice([101325.0, 78000.0])), open_share_below=below,
        load_kg=float(np.exp(draw.uniform(0.0, np.log(500.0)))), house_ratio=0.008, film_depth_m=film, loaded=loaded,
        uniform=bool(draw.random() < 0.2), whole=bool(draw.random() < 0.3),
        cells=int(draw.integers(7, 30)) if hostile else None,
    )  # fmt: skip


def _random_step(draw: np.random.Generator, hostile: bool, at: int) -> RunStep:
    air_c = float(draw.uniform(15.0, 98.0) if hostile else draw.uniform(35.0, 80.0))
    start = float(draw.uniform(15.0, 98.0)) if hostile and draw.random() < 0.3 else air_c
    kind = draw.random()
    if kind < 0.35:
        choices = [0.0, 0.02, 1.0, draw.random()] if hostile else [draw.uniform(0.05, 0.9)]
        humidity = float(draw.choice(choices))
        air = Air(relative=(humidity, humidity))
    elif kind < 0.55:
        wet = float(air_c - draw.uniform(0.0 if hostile else 0.05, 0.6) * (air_c - 5.0))
        air = Air(wet_bulb_c=(min(wet, start), wet))
    elif kind < 0.9:
        fresh = float(np.exp(draw.uniform(0.0, np.log(2000.0)))) / 3600.0
        steam = float(draw.choice([0.0, 0.0, draw.uniform(0.0, 30.0)])) / 3600.0
        air = Air(fresh_kg_s=fresh, fresh_ratio=0.008, steam_kg_s=steam, flame=float(draw.choice([0.0, 0.1])))
    else:
        air = Air(sealed=True)
    until: dict[str, float] = {}
    if draw.random() < 0.3 and kind < 0.9:
        what = str(draw.choice(["until_core_c", "until_weight", "until_aw", "until_gap"]))
        until[what] = {
            "until_core_c": float(draw.uniform(10.0, air_c)),
            "until_weight": float(draw.uniform(0.45, 0.95)),
            "until_aw": float(draw.uniform(0.75, 0.97)),
            "until_gap": 0.02,
        }[what]
    film = float(draw.uniform(3.0, 90.0) if hostile else draw.uniform(8.0, 30.0))
    return RunStep(
        f"step {at + 1}", (start, air_c), air, film, float(draw.uniform(5.0, 240.0)) * 60.0,
        ramp_s=float(draw.uniform(60.0, 1800.0)) if start != air_c or draw.random() < 0.2 else 0.0,
        emissivity=float(draw.choice([0.0, 0.9])), **until,
    )  # fmt: skip


def check_case(name: str, uniform: bool = False) -> RunSetup:
    """One of the three published check cases, from its product file: p1, p2 or p3."""
    product = read_product(Path(__file__).resolve().parent / "published" / f"kernel_{name}.toml")
    formula = resolve(product, catalogue().with_own(*product.own_ingredients))
    return setup_from(product, formula, marinate(formula, product.uptake), uniform=uniform)
