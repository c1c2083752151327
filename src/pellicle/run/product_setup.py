"""From a product to a run: its formula as marinated, its piece, house and schedule, and its model's parameters."""

from __future__ import annotations

import dataclasses

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.formula.parts import Formula
from pellicle.formula.uptake import Marinated
from pellicle.house.chamber import ChamberSetup, resolve_house
from pellicle.house.lying import PieceSetup, resolve_piece
from pellicle.house.schedule import Control, StepSetup, resolve_schedule
from pellicle.house.until import WAYS, EndKind, Weights
from pellicle.piece.mixture import mixture
from pellicle.product import Product
from pellicle.run.setup import Air, RunSetup, RunStep, move
from pellicle.run.simulate import EndedBy, Run
from pellicle.units import show_temperature


def setup_from(
    product: Product,
    formula: Formula,
    marinated: Marinated,
    log_correction: float = 0.0,
    uniform: bool = False,
) -> RunSetup:
    """Return the run of a product as it comes out of its formula and uptake; InputError where something is missing.

    ``log_correction`` shifts the water activity model as the product's readings have taught; ``uniform`` keeps solutes
    where they are. The house's air starts as the air outside. A house without a load holds this product alone.
    """
    chamber, piece = resolve_house(product), resolve_piece(product)
    weights = Weights(formula.raw_kg, marinated.kg, float(marinated.composition.dry))
    made = mixture(marinated.composition, product.model)
    return RunSetup(
        mixture=made,
        thickness_m=piece.slab_m,
        steps=tuple(run_step(step, chamber) for step in resolve_schedule(product, weights)),
        move=move(product.model),
        start_c=piece.start_c,
        pressure_pa=chamber.pressure_pa,
        open_share_below=piece.open_share_below,
        load_kg=marinated.kg if chamber.load_kg is None else chamber.load_kg,
        house_ratio=chamber.ambient_humidity_ratio,
        log_correction=log_correction,
        film_depth_m=_depth(piece),
        loaded=_loaded(formula, marinated),
        uniform=uniform,
        raw_share=formula.raw_kg / marinated.kg,
        raw_kg=formula.raw_kg,
        sources=chamber.sources,
    )


def refuse_already_there(schedule: tuple[StepSetup, ...], run: Run) -> None:
    """Refuse a first step that waits for what the piece is when it goes in; a later one may find its end there."""
    first, trace = schedule[0], run.trace
    if run.steps[0].ended_by is EndedBy.ALREADY:
        raise InputError(
            "house.already_there",
            field=f"{first.field}.{WAYS[first.end.kind][0]}",
            name=first.name,
            end=str(first.end.said),
            core=show_temperature(float(trace.core_c[0]), digits=1),
            aw=f"{float(trace.aw_mean[0]):.3f}",
        )


def run_step(step: StepSetup, chamber: ChamberSetup) -> RunStep:
    """Return one resolved step of a schedule as the kernel wants it."""
    held = (step.held_from, step.held)
    end = step.end
    waits = {
        EndKind.CORE: "until_core_c",
        EndKind.WEIGHT: "until_weight",
        EndKind.AW: "until_aw",
        EndKind.GAP: "until_gap",
    }
    made = RunStep(
        name=step.name,
        dry_bulb_c=(step.dry_bulb_from_c, step.dry_bulb_c),
        air=Air(
            relative=held if step.control is Control.HUMIDITY and not step.sealed else None,
            wet_bulb_c=held if step.control is Control.WET_BULB and not step.sealed else None,
            sealed=step.sealed,
            fresh_kg_s=step.fresh_kg_s,
            fresh_ratio=chamber.ambient_humidity_ratio,
            steam_kg_s=step.steam_kg_s + step.moisture_kg_s,
            flame=chamber.moisture_per_evaporated,
            condense_per_s=chamber.condensation_per_s,
            volume_m3=chamber.volume_m3,
        ),
        film_w_m2k=step.film.w_m2k,
        lasts_s=min(end.value, end.at_most_s) if end.kind is EndKind.TIME else end.at_most_s,
        ramp_s=step.ramp_s,
        emissivity=step.emissivity,
    )
    if end.kind is EndKind.TIME:
        return made
    return dataclasses.replace(made, **{waits[end.kind]: end.value})  # type: ignore[arg-type]


def _depth(piece: PieceSetup) -> float:
    """The film's depth as share of the piece as cut is kept when edges make the slab thinner."""
    return piece.loaded_depth_m * piece.slab_m / piece.thickness_m


def _loaded(formula: Formula, marinated: Marinated) -> tuple[float, float, float]:
    """Return what the marinade put on, per kg of the piece's matrix: water, salts and other solutes, sugars."""
    before: Composition = formula.meat.composition * formula.raw_kg
    whole = mixture(marinated.composition)
    matrix = marinated.kg / whole.green
    plain = mixture(before) if float(before.water) > 0.0 and float(before.protein) > 0.0 else whole
    share = formula.raw_kg / (plain.green * matrix)
    return (
        max(whole.water - plain.water * share, 0.0),
        max(whole.salts - plain.salts * share, 0.0),
        max(whole.sugars - plain.sugars * share, 0.0),
    )
