"""What ``run`` answers: the passage of a product through its house, what it credits, and how sure we are of it.

One piece is followed, most likely and without error; ``--pieces`` adds the spread over batches and pieces. The pull
weight of the plan is restated with the drip of this passage in place of the guess.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from types import MappingProxyType

from pellicle.answers.lethality import (
    governing,
    growth_ends_s,
    mould_of,
    organism_growth,
    organism_numbers,
    process_minutes,
)
from pellicle.answers.lethality_facts import facts_of, support_of
from pellicle.answers.racks import racks_at
from pellicle.answers.run_after import contradicted, rest_before_reading, with_drip
from pellicle.answers.run_answer import Left, RunAnswer, RunEnd, RunStepRow, Spread
from pellicle.answers.run_history import counted_in, history_of, profiles_at, why_uncounted
from pellicle.answers.run_spread import spread_of
from pellicle.answers.schedule_rows import schedule_rows
from pellicle.answers.sources import passage_sources
from pellicle.answers.working import Working, work_out
from pellicle.house.chamber import resolve_house
from pellicle.house.lying import PieceSetup, resolve_piece
from pellicle.house.reach import reach_remarks
from pellicle.house.schedule import resolve_schedule
from pellicle.house.until import Weights
from pellicle.message import Message, message
from pellicle.product import Product
from pellicle.rules.cautions import passage_cautions
from pellicle.rules.lethality_cautions import lethality_cautions
from pellicle.rules.lethality_check import as_predicted, lethal_s, lethality_checks
from pellicle.rules.lethality_growth import growth_checks
from pellicle.rules.verdict import Check, Group, Verdict, in_order, unmet_titles
from pellicle.rules.words import logs
from pellicle.run.face_state import face_state
from pellicle.run.product_setup import refuse_already_there, setup_from
from pellicle.run.simulate import Run, series_from, simulate
from pellicle.safety.growth import growth
from pellicle.safety.lethality import Lethality, lethality, wet_history
from pellicle.safety.process_times import process_times
from pellicle.safety.wetness import wetness
from pellicle.units import both

PERCENT = 100.0
HOUR_S, KILO = 3600.0, 1000.0


def run(
    product: Product,
    raw_kg: float | None = None,
    pieces: int = 0,
    on: date | None = None,
    profiles: Sequence[float] = (),
) -> RunAnswer:
    """Return the passage of a product through its house, for a green weight [kg] or its own, under a day's rules.

    ``pieces`` above 0 adds the spread over an ensemble of so many, ``profiles`` the state across the piece at so many
    minutes. InputError where the product has no piece, house or schedule that can be followed, or a profile is asked
    past the end.
    """
    day = on or date.today()
    work = work_out(product, raw_kg)
    setup = setup_from(product, work.formula, work.marinated, work.applied.mean)
    done = simulate(setup)
    series = series_from(done)
    facts = facts_of(product, work.marinated.composition)
    found = lethality(series, facts)
    times = process_times(series, wetness(series, facts.surface_aw), lethal_s(found["salmonella"]))
    grown = growth(series, facts.surface_aw, product.piece.thickness_m, until_s=growth_ends_s(found))
    checks = _checks([*lethality_checks(series, facts, found, support_of(product, day)), *growth_checks(grown, times)])
    leads = governing(checks)
    chamber, piece = resolve_house(product), resolve_piece(product)
    weights = Weights(work.formula.raw_kg, work.marinated.kg, float(work.marinated.composition.dry))
    schedule = resolve_schedule(product, weights)
    refuse_already_there(schedule, done)
    dripped = with_drip(work, done.losses.drip, raw_kg)
    pull = dripped.pull
    spread = None
    if pieces > 0:
        spread = spread_of(setup, dripped, facts, chamber, piece, schedule[0].film.log_sd, found[leads], pieces)
    to_pull = _lightest(work.pull.kg, pull.kg, spread.pull_kg if spread is not None and spread.pull_enough else None)
    end = _end(done, work, piece)
    checks = in_order([*checks, _end_check(end, work, to_pull)])
    against = contradicted(work, dripped)
    counted = counted_in(series)
    warned = passage_cautions(product, lethality_cautions(facts, found, times))
    return RunAnswer(
        product=product.name,
        on=day.isoformat(),
        sentence=_sentence(end, found[leads], done, to_pull, checks, spread),
        raw_kg=work.formula.raw_kg,
        schedule=schedule_rows(product, work.formula.raw_kg, work.marinated.kg),
        steps=tuple(RunStepRow(step.name, step.minutes, step.ended_by.value) for step in done.steps),
        end=end,
        history=history_of(done, work, wet_history(series, facts, leads)),
        governing=leads,
        lethality=MappingProxyType({name: organism_numbers(one, facts, checks) for name, one in found.items()}),
        counted=counted,
        uncounted=why_uncounted(counted, 60.0 * end.hours),
        process=process_minutes(series, times),
        growth=MappingProxyType({one.organism: organism_growth(one) for one in grown}),
        mould=mould_of(product),
        left=_left(done),
        drip_percent_of_marinated=PERCENT * done.losses.drip,
        salts_lost_percent=PERCENT * done.losses.salts_lost,
        sugars_lost_percent=PERCENT * done.losses.sugars_lost,
        face=face_state(done),
        rest=rest_before_reading(setup, done, piece),
        pull_kg=pull.kg,
        pull_low_kg=pull.low_kg,
        pull_high_kg=pull.high_kg,
        pull_kg_without_run=work.pull.kg,
        pull_lightest_kg=to_pull,
        drip=dripped.priors["drip_share"] if pull.kg < work.pull.kg else None,
        racks=racks_at(to_pull, work, product.meat.raw_kg),
        aw_limit=work.target_aw,
        checks=checks,
        cautions=warned,
        remarks=(*reach_remarks(schedule, chamber), *(() if against is None else (against,))),
        assumptions=(*chamber.assumed, *piece.assumed, work.marinated.how),
        flags=done.flags,
        problem=done.problem,
        sources=passage_sources(work, checks, warned, setup.sources),
        spread=spread,
        profiles=profiles_at(done, piece, profiles),
        balances=_balances(done),
    )


def _checks(found: list[Check]) -> tuple[Check, ...]:
    """The findings of a simulation: it can speak against a process, never for it."""
    return in_order([as_predicted(check) for check in found])


def _lightest(*kg: float | None) -> float:
    return min(each for each in kg if each is not None)


def _end_check(end: RunEnd, work: Working, pull_kg: float) -> Check:
    """The finding on where the schedule ends: over the limit in the mean, or heavier than the pull weight."""
    values = {"pull": both(pull_kg), "kg": both(end.kg), "aw": f"{end.aw_mean:.2f}", "limit": f"{work.target_aw:.2f}"}
    over, heavier = end.aw_mean > work.target_aw, end.kg > pull_kg
    return Check(
        "run.end",
        message("answers.title_end"),
        Verdict.NOT_MET if over else Verdict.CANNOT_TELL,
        message(f"answers.end_{'too_wet' if over else 'heavier' if heavier else 'light'}", **values),
        Group.PRODUCT,
        value=end.kg,
        limit=pull_kg,
        unit="kg",
        margin=pull_kg - end.kg,
        digits=1,
    )


def _sentence(
    end: RunEnd, leads: Lethality, done: Run, pull_kg: float, checks: tuple[Check, ...], spread: Spread | None
) -> Message:
    """The answer in words; what blocks and is not met comes first."""
    if done.problem is not None:
        return done.problem
    said = _passage(end, leads, pull_kg, spread)
    failed = unmet_titles(checks)
    return message("answers.finding_first", titles=failed, sentence=str(said)) if failed else said


def _passage(end: RunEnd, leads: Lethality, pull_kg: float, spread: Spread | None) -> Message:
    even = "even_pieces" if spread is None else "uneven_pieces"
    values = {
        "even": "" if spread is not None and spread.pull_enough else str(message(f"answers.{even}")),
        "pull": both(pull_kg),
        "hours": f"{end.hours:.1f}",
        "percent": f"{end.percent_of_raw:.1f} %",
        "aw": f"{end.aw_mean:.2f}",
        "organism": leads.label,
    }
    if leads.wet is None or leads.wet_lower is None:
        return message("answers.run_sentence_withheld", **values)
    return message("answers.run_sentence", **values, wet=logs(leads.wet), lower=logs(leads.wet_lower))


def _end(done: Run, work: Working, piece: PieceSetup) -> RunEnd:
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
        # the slab that is run is thinner than the piece by what its edges dry
        thickness_m=done.thickness_m * piece.thickness_m / piece.slab_m,
    )


def _water_kg(done: Run, work: Working) -> float:
    losses = done.losses
    return float(work.marinated.composition.water) - (losses.vapour + losses.drip_water) * work.marinated.kg


def _left(done: Run) -> Left:
    losses, energy = done.losses, done.energy
    return Left(
        vapour_percent=PERCENT * losses.vapour,
        drip_water_percent=PERCENT * losses.drip_water,
        drip_salts_percent=PERCENT * losses.drip_salts,
        drip_sugars_percent=PERCENT * losses.drip_sugars,
        heat_received_kj_kg=energy.received / KILO,
        heat_left_kj_kg=energy.left_with_water / KILO,
    )


def _balances(done: Run) -> Mapping[str, float]:
    found = done.balances
    names = ("water", "heat", "salts", "sugars", "house")
    return MappingProxyType({name: float(getattr(found, name)) for name in names})
