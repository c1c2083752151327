"""A run stated in plain numbers: the piece, what it is made of, the model's parameters and the steps, all in SI.

``product_setup`` makes one out of a product; tests and studies make or change one directly.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pellicle import parameter
from pellicle.air.humid import DRY_AIR_GAS_CONSTANT
from pellicle.errors import InputError
from pellicle.piece.cookout import cookout_share
from pellicle.piece.grid import Grid, half_grid, whole_grid
from pellicle.piece.mixture import BULK, Mixture
from pellicle.piece.surface import WATER_CP
from pellicle.run import layout as at
from pellicle.units.kinds import ICE_POINT_K

Array = NDArray[np.float64]

# cells in each half and logarithm of widest over finest: enough for the default accuracy (docs/kernel.md)
CELLS, LOG_RATIO = 8, 1.0
DRAG_CELLS, DRAG_LOG_RATIO = 12, 3.0  # solutes that ride with the water pile up in a thin rind


@dataclass(frozen=True, slots=True)
class Move:
    """The model's parameters as numbers; one field per row of ``parameters.csv``, in its unit."""

    water_diffusivity_60_c: float
    water_activation_j_mol: float
    water_dryness_slope: float
    juice_diffusivity: float
    cookout_factor: float
    drip_speed_m_s: float
    memory_per_s: float
    salt_diffusivity_4_c: float
    sugar_diffusivity_4_c: float
    solute_activation_j_mol: float
    solute_drag: float
    lewis_power: float


def move(overrides: Mapping[str, float] = parameter.NO_OVERRIDES) -> Move:
    """Return the parameters of ``parameters.csv``, with a product's own values in their place where given.

    >>> move({"cookout_factor": 0.5}).cookout_factor
    0.5
    """
    return Move(*(parameter.value(entry.name, overrides) for entry in fields(Move)))


@dataclass(frozen=True, slots=True)
class Air:
    """How a step's humidity is made: one of relative humidity, wet bulb, the house's own balance, or sealed off.

    ``relative`` (1) and ``wet_bulb_c`` (C) are (from, to) over the ramp. For the balance: ``fresh_kg_s`` of dry air at
    ``fresh_ratio`` (kg/kg), ``steam_kg_s``, ``flame`` kg of water per kg evaporated, ``condense_per_s``,
    ``volume_m3``.
    """

    relative: tuple[float, float] | None = None
    wet_bulb_c: tuple[float, float] | None = None
    sealed: bool = False
    fresh_kg_s: float = 0.0
    fresh_ratio: float = 0.0
    steam_kg_s: float = 0.0
    flame: float = 0.0
    condense_per_s: float = 0.05
    volume_m3: float = 10.0


@dataclass(frozen=True, slots=True)
class RunStep:
    """One step: dry bulb from and to (C) over ``ramp_s``, humidity, film coefficient, and what ends it.

    It ends at the first of ``lasts_s`` and what it waits for: core temperature, share of the marinated weight, water
    activity of the mean composition, widest difference of water activity between nodes.
    """

    name: str
    dry_bulb_c: tuple[float, float]
    air: Air
    film_w_m2k: float
    lasts_s: float
    ramp_s: float = 0.0
    emissivity: float = 0.0
    until_core_c: float | None = None
    until_weight: float | None = None
    until_aw: float | None = None
    until_gap: float | None = None


@dataclass(frozen=True, slots=True)
class RunSetup:
    """Everything a run needs.

    ``thickness_m`` as it goes in, marinated. ``open_share_below`` 0 to 1. ``film_depth_m``: depth of each open face
    that holds all of ``loaded`` (water, salts, sugars per kg matrix of the whole piece) when the run starts; 0:
    equalised. ``uniform``: solutes neither move nor leave. ``cells`` in each half; None picks. ``whole``: span the
    whole piece although it is symmetric. ``load_kg`` of marinated pieces share the house's air.
    """

    mixture: Mixture
    thickness_m: float
    steps: tuple[RunStep, ...]
    move: Move = field(default_factory=move)
    start_c: float = 5.0
    pressure_pa: float = 101325.0
    open_share_below: float = 1.0
    load_kg: float = 0.0
    house_ratio: float = 0.0
    log_correction: float = 0.0
    film_depth_m: float = 0.0
    loaded: tuple[float, float, float] = (0.0, 0.0, 0.0)
    uniform: bool = False
    whole: bool = False
    cells: int | None = None
    log_ratio: float | None = None
    raw_share: float = 1.0
    raw_kg: float | None = None
    sources: tuple[str, ...] = ()
    notes: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, eq=False)
class Arrays:
    """A setup as the kernel reads it (``layout``): number of fields, initial state, grid, parameters, steps."""

    fields: tuple[float, ...]
    nodes: Array
    extra: Array
    grid: Array
    piece: Array
    steps: Array
    mesh: Grid


def arrays(setup: RunSetup) -> Arrays:
    """Return the arrays of a setup; InputError where a number cannot be."""
    _check(setup)
    mesh = _mesh(setup)
    made = setup.mixture
    matrix = setup.thickness_m / _volume(made, made.water, made.salts, made.sugars)
    slab = matrix if mesh.whole else matrix / 2
    many = at.UNIFORM if setup.uniform else at.MOVING
    count = mesh.at.size
    grid = np.zeros((at.GRID_ROWS, count))
    grid[at.MASS] = mesh.share * slab
    grid[at.GAP, :-1] = np.diff(mesh.at) * slab
    film = _film_share(setup, mesh)
    water = made.water + setup.loaded[0] * (film - 1.0)
    salts = made.salts + setup.loaded[1] * (film - 1.0)
    sugars = made.sugars + setup.loaded[2] * (film - 1.0)
    grid[at.REFERENCE] = np.maximum(water, made.water)
    piece = _piece(setup, mesh, slab)
    nodes = np.zeros((count, len(many) + 1))
    if setup.uniform:
        salts, sugars = np.full(count, made.salts), np.full(count, made.sugars)
    else:
        nodes[:, at.S1], nodes[:, at.S2] = salts, sugars
    nodes[:, at.X] = water
    capacity = piece[at.CP_MATRIX] + WATER_CP * water + piece[at.CP_SALT] * salts + piece[at.CP_SUGAR] * sugars
    nodes[:, at.H] = capacity * setup.start_c
    nodes[:, len(many)] = cookout_share(setup.start_c)
    extra = np.zeros(at.EXTRAS)
    extra[at.HOUSE] = setup.house_ratio
    steps = np.array([_step(step, setup.pressure_pa) for step in setup.steps])
    return Arrays(many, nodes, extra, grid, piece, steps, mesh)


def _mesh(setup: RunSetup) -> Grid:
    rides = setup.move.solute_drag > 0.0 and not setup.uniform
    cells = setup.cells or (DRAG_CELLS if rides else CELLS)
    ratio = setup.log_ratio if setup.log_ratio is not None else (DRAG_LOG_RATIO if rides else LOG_RATIO)
    if setup.open_share_below == 1.0 and not setup.whole:
        return half_grid(cells, ratio)
    return whole_grid(cells, ratio, one_sided=setup.open_share_below == 0.0)


def _volume(made: Mixture, water: float, salts: float, sugars: float) -> float:
    density = BULK["water"][0]
    return made.matrix.volume + water / density + salts * made.salt.volume + sugars * made.sugar.volume


def _film_share(setup: RunSetup, mesh: Grid) -> Array:
    """Return how much of what was loaded stands in each node, against an even spread; its mean is 1."""
    if setup.film_depth_m <= 0.0:
        return np.ones(mesh.at.size)
    depth = setup.film_depth_m / setup.thickness_m * (1.0 if mesh.whole else 2.0)
    edges = np.concatenate([[0.0], np.cumsum(mesh.share)])
    film = np.clip(edges - (1.0 - depth), 0.0, None)
    if mesh.whole and setup.open_share_below > 0.0:
        film = film + np.clip(edges, None, depth)
    inside = np.diff(film) / mesh.share
    found: Array = inside / float(np.sum(inside * mesh.share))
    return found


def _piece(setup: RunSetup, mesh: Grid, slab: float) -> Array:
    made, moved = setup.mixture, setup.move
    density, _, conductivity = BULK["water"]
    piece = np.zeros(at.PARAMETERS)
    values = {
        at.CP_MATRIX: made.matrix.heat_capacity, at.CP_SALT: made.salt.heat_capacity,
        at.CP_SUGAR: made.sugar.heat_capacity,
        at.VOLUME_MATRIX: made.matrix.volume, at.VOLUME_SALT: made.salt.volume, at.VOLUME_SUGAR: made.sugar.volume,
        at.CONDUCTS_MATRIX: made.matrix.conducts, at.CONDUCTS_SALT: made.salt.conducts,
        at.CONDUCTS_SUGAR: made.sugar.conducts, at.CONDUCTS_WATER: conductivity / density,
        at.FIXED_SALT: made.salts, at.FIXED_SUGAR: made.sugars,
        at.D_WATER: moved.water_diffusivity_60_c, at.EA_WATER: moved.water_activation_j_mol,
        at.SLOPE_WATER: moved.water_dryness_slope,
        at.D_JUICE: moved.juice_diffusivity, at.PRESSED_PER_LOSS: moved.cookout_factor * made.green,
        at.DRIP_SPEED: moved.drip_speed_m_s, at.MEMORY_SPEED: moved.memory_per_s,
        at.D_SALT: moved.salt_diffusivity_4_c, at.D_SUGAR: moved.sugar_diffusivity_4_c,
        at.EA_SOLUTE: moved.solute_activation_j_mol, at.DRAG: moved.solute_drag,
        at.CAPACITY: made.capacity, at.SALT_MOL: made.salt_mol, at.SUGAR_MOL: made.sugar_mol, at.ROOT_K: made.root_k,
        at.OSMOL: made.osmol, at.OSMOL_SALT: made.salt_osmol, at.INTERACTION: made.interaction,
        at.B0: made.b0, at.B1: made.b1, at.C: made.c, at.LOG_CORRECTION: setup.log_correction,
        at.LEWIS: moved.lewis_power, at.PRESSURE: setup.pressure_pa,
        at.LOAD_PER_AREA: setup.load_kg / (slab * made.green), at.GREEN: slab * made.green, at.MATRIX: slab,
        at.LOWER_OPEN: setup.open_share_below if mesh.whole else 0.0, at.MIDDLE: mesh.middle,
    }  # fmt: skip
    for place, value in values.items():
        piece[place] = value
    return piece


def _step(step: RunStep, pressure_pa: float) -> Array:
    row = np.full(at.STEP_COLUMNS, np.nan)
    air = step.air
    kind, humid = at.DAMPER, (0.0, 0.0)
    if air.sealed:
        kind = at.SEALED
    elif air.relative is not None:
        kind, humid = at.RELATIVE, air.relative
    elif air.wet_bulb_c is not None:
        kind, humid = at.WET_BULB, air.wet_bulb_c
    kelvin = step.dry_bulb_c[1] + ICE_POINT_K
    row[: at.UNTIL_CORE] = [
        step.lasts_s, step.ramp_s, *step.dry_bulb_c, kind, *humid, step.film_w_m2k, step.emissivity,
        air.fresh_kg_s, air.fresh_ratio, air.steam_kg_s, air.flame, air.condense_per_s,
        pressure_pa * air.volume_m3 / (DRY_AIR_GAS_CONSTANT * kelvin),
    ]  # fmt: skip
    for place, value in (
        (at.UNTIL_CORE, step.until_core_c),
        (at.UNTIL_WEIGHT, step.until_weight),
        (at.UNTIL_AW, step.until_aw),
        (at.UNTIL_GAP, step.until_gap),
    ):
        if value is not None:
            row[place] = value
    return row


def _check(setup: RunSetup) -> None:
    if not setup.steps:
        raise InputError("run.no_steps", field="step")
    if not (math.isfinite(setup.thickness_m) and THINNEST_M <= setup.thickness_m <= THICKEST_M):
        raise InputError(
            "run.thickness",
            field="piece.thickness",
            value=f"{setup.thickness_m * 1e3:g}",
            low=f"{THINNEST_M * 1e3:g}",
            high=f"{THICKEST_M * 1e3:g}",
        )


# Thinner is a film, thicker no slice: the model has one dimension.
THINNEST_M, THICKEST_M = 2e-4, 5e-2
