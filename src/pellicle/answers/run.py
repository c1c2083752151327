"""What ``run`` answers: the passage of a product through its house, what it credits, and how sure we are of it.

One piece is followed, most likely and without error; ``--pieces`` adds the spread over batches and pieces. The pull
weight of the plan is restated with the drip of this passage in place of the guess.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import partial
from types import MappingProxyType

import numpy as np

from pellicle import parameter
from pellicle.answers.lethality import governing, organism_growth, organism_numbers
from pellicle.answers.lethality_facts import facts_of, support_of
from pellicle.answers.pull import pull_weight
from pellicle.answers.run_answer import Range, RunAnswer, RunEnd, RunHistory, RunStepRow, Spread
from pellicle.answers.sources import passage_sources
from pellicle.answers.working import Working, work_out
from pellicle.food.water_activity import default_parameters
from pellicle.house.chamber import resolve_house
from pellicle.house.lying import PieceSetup, resolve_piece
from pellicle.house.reach import reach_remarks
from pellicle.house.schedule import resolve_schedule
from pellicle.house.until import Weights
from pellicle.measured.series import Array
from pellicle.message import Message, message
from pellicle.product import Product
from pellicle.rules.lethality_cautions import lethality_cautions
from pellicle.rules.lethality_check import as_predicted, lethal_s, lethality_checks
from pellicle.rules.lethality_growth import growth_checks
from pellicle.rules.lethality_targets import target_for
from pellicle.rules.verdict import Check, in_order
from pellicle.run.product_setup import setup_from
from pellicle.run.simulate import Run, series_from, simulate
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.growth import growth
from pellicle.safety.lethality import lethality, wet_history
from pellicle.safety.process_times import process_times
from pellicle.safety.wetness import wetness
from pellicle.study.draws import Prior
from pellicle.study.ensemble import Ensemble, PieceSpread, ensemble
from pellicle.study.mixture import uncertain_mixture
from pellicle.units import both

PERCENT = 100.0
MINUTE_S, HOUR_S = 60.0, 3600.0
HISTORY_POINTS = 241
LEVEL = 0.90
# The drip of a passage is known within a factor of two (review of transport in meat); as a standard deviation, half of
# it.
DRIP_RELATIVE_SD = 0.5
LEADING = "salmonella"


def run(product: Product, raw_kg: float | None = None, pieces: int = 0, on: date | None = None) -> RunAnswer:
    """Return the passage of a product through its house, for a green weight [kg] or its own, under a day's rules.

    ``pieces`` above 0 adds the spread over an ensemble of so many. InputError where the product has no piece, house or
    schedule that can be followed.
    """
    day = on or date.today()
    work = work_out(product, raw_kg)
    setup = setup_from(product, work.formula, work.marinated, work.applied.mean)
    done = simulate(setup)
    series = series_from(done)
    facts = facts_of(product, work.marinated.composition)
    found = lethality(series, facts)
    times = process_times(series, wetness(series, facts.surface_aw), lethal_s(found["salmonella"]))
    grown = growth(series, facts.surface_aw, product.piece.thickness_m)
    checks = _checks([*lethality_checks(series, facts, found, support_of(product, day)), *growth_checks(grown, times)])
    leads = governing(checks)
    chamber, piece = resolve_house(product), resolve_piece(product)
    weights = Weights(work.formula.raw_kg, work.marinated.kg, float(work.marinated.composition.dry))
    schedule = resolve_schedule(product, weights)
    spread = None
    if pieces > 0:
        differs = _piece_spread(product, piece, schedule[0].film.log_sd, chamber.position_sd)
        spread = _spread(ensemble(setup, differs, pieces, partial(_credit, facts)), work, facts)
    end = _end(done, work)
    restated = _restated_pull(work, done.losses.drip)
    warned = lethality_cautions(facts, found, times)
    return RunAnswer(
        product=product.name,
        on=day.isoformat(),
        sentence=_sentence(
            end, found[leads].label, found[leads].wet, found[leads].wet_lower, done, min(restated, work.pull.kg)
        ),
        steps=tuple(RunStepRow(step.name, step.minutes, step.ended_by.value) for step in done.steps),
        end=end,
        history=_history(done, work, wet_history(series, facts, leads)),
        governing=leads,
        lethality=MappingProxyType({name: organism_numbers(one, facts, checks) for name, one in found.items()}),
        growth=MappingProxyType({one.organism: organism_growth(one) for one in grown}),
        drip_percent_of_marinated=PERCENT * done.losses.drip,
        salts_lost_percent=PERCENT * done.losses.salts_lost,
        sugars_lost_percent=PERCENT * done.losses.sugars_lost,
        pull_kg=restated,
        pull_kg_without_run=work.pull.kg,
        aw_limit=work.target_aw,
        checks=checks,
        cautions=warned,
        remarks=reach_remarks(schedule, chamber),
        assumptions=(*chamber.assumed, *piece.assumed, work.marinated.how),
        flags=done.flags,
        problem=done.problem,
        sources=passage_sources(work, checks, warned, setup.sources),
        spread=spread,
        balances=_balances(done),
    )


def _checks(found: list[Check]) -> tuple[Check, ...]:
    """The findings of a simulation: it can speak against a process, never for it."""
    return in_order([as_predicted(check) for check in found])


def _sentence(end: RunEnd, organism: str, wet: float | None, lower: float | None, done: Run, pull_kg: float) -> Message:
    if done.problem is not None:
        return done.problem
    values = {
        "pull": both(pull_kg),
        "hours": f"{end.hours:.1f}",
        "percent": f"{end.percent_of_raw:.1f} %",
        "aw": f"{end.aw_mean:.2f}",
        "organism": organism,
    }
    if wet is None or lower is None:
        return message("answers.run_sentence_withheld", **values)
    return message("answers.run_sentence", **values, wet=f"{wet:.1f}", lower=f"{lower:.1f}")


def _end(done: Run, work: Working) -> RunEnd:
    trace = done.trace
    kg = done.weight_share * work.marinated.kg
    water = _water_kg(done, work)
    protein = float(work.marinated.composition.protein)
    return RunEnd(
        hours=float(trace.time_s[-1]) / HOUR_S,
        kg=kg,
        percent_of_raw=work.formula.percent_of_raw(kg),
        percent_of_marinated=PERCENT * done.weight_share,
        aw_mean=done.aw_mean,
        aw_surface=float(trace.face_aw[-1].min()),
        core_c=float(trace.core_c[-1]),
        moisture_percent=PERCENT * water / kg,
        mpr=water / protein if protein > 0 else None,
        thickness_m=done.thickness_m,
    )


def _water_kg(done: Run, work: Working) -> float:
    losses = done.losses
    return float(work.marinated.composition.water) - (losses.vapour + losses.drip_water) * work.marinated.kg


def _history(done: Run, work: Working, credited: Array | None) -> RunHistory:
    trace = done.trace
    times = np.linspace(0.0, float(trace.time_s[-1]), HISTORY_POINTS)
    share = PERCENT * work.marinated.kg / work.formula.raw_kg

    def column(name: str) -> tuple[float, ...]:
        return tuple(float(value) for value in trace.at(name, times))

    faces_c, faces_aw = trace.at("face_c", times), trace.at("face_aw", times)
    counted = None if credited is None else np.interp(times, trace.time_s, credited)
    return RunHistory(
        minutes=tuple(float(value) for value in times / MINUTE_S),
        dry_bulb_c=column("air_c"),
        wet_bulb_c=column("wet_bulb_c"),
        rh_percent=tuple(PERCENT * value for value in column("humidity")),
        core_c=column("core_c"),
        surface_c=tuple(float(value) for value in faces_c[:, 1]),
        weight_percent_of_raw=tuple(share * value for value in column("weight_share")),
        aw_mean=column("aw_mean"),
        aw_surface=tuple(float(value) for value in faces_aw.min(axis=1)),
        lethality_wet=(None,) * HISTORY_POINTS if counted is None else tuple(float(value) for value in counted),
    )


def _restated_pull(work: Working, drip: float) -> float:
    """The pull weight with the drip of the passage, known within a factor of two, in place of the plan's guess."""
    priors: Mapping[str, Prior] = {
        **work.priors,
        "drip_share": Prior(drip, DRIP_RELATIVE_SD * drip, "normal", 0.0, work.priors["drip_share"].high),
    }
    mixture_of = partial(uncertain_mixture, work.formula, default_parameters(work.product.model))
    target = work.product.target
    return pull_weight(priors, mixture_of, work.target_aw, target.confidence, work.piece_sd).kg


def _piece_spread(product: Product, piece: PieceSetup, film_log_sd: float, position_sd: float) -> PieceSpread:
    return PieceSpread(
        thickness=piece.spread_m / piece.thickness_m,
        position_log=position_sd,
        film_log=film_log_sd,
        diffusivity_log=parameter.value("water_diffusivity_log_sd", product.model),
        cookout=parameter.parameters()["cookout_factor"].spread,
    )


def _credit(facts: LethalityFacts, done: Run) -> float:
    found = lethality(series_from(done), facts, (LEADING,))[LEADING].wet
    return float("nan") if found is None else found


def _spread(found: Ensemble, work: Working, facts: LethalityFacts) -> Spread:
    share = PERCENT * work.marinated.kg / work.formula.raw_kg
    wettest = np.quantile(found.aw_mean, PIECES_COVERED, axis=1)
    least = np.quantile(found.lethality, 1 - PIECES_COVERED, axis=1)
    target = target_for(LEADING, facts.species)
    known = not np.any(np.isnan(found.lethality))
    return Spread(
        batches=found.hours.size,
        pieces=found.aw_mean.size,
        failed=found.failed,
        hours=_range(found.hours),
        percent_of_raw=_range(share * np.mean(found.weight_share, axis=1)),
        aw_mean=_range(np.mean(found.aw_mean, axis=1)),
        aw_wettest=_range(wettest),
        lethality_wet=_range(least) if known else None,
        p_aw=float(np.mean(wettest <= work.target_aw)),
        p_lethality=None if target is None or not known else float(np.mean(least >= target.target)),
    )


# The least treated and the wettest 5 % of pieces decide.
PIECES_COVERED = 0.95


def _range(values: Array) -> Range:
    low, middle, high = np.quantile(values, [(1 - LEVEL) / 2, 1 / 2, (1 + LEVEL) / 2])
    return Range(float(middle), float(low), float(high))


def _balances(done: Run) -> Mapping[str, float]:
    found = done.balances
    names = ("water", "heat", "salts", "sugars", "house")
    return MappingProxyType({name: float(getattr(found, name)) for name in names})
