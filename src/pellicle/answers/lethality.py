"""What ``lethality`` answers: what a probe log shows, what of it may be credited, and why not the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

import numpy as np

from pellicle.air.humid import STANDARD_PRESSURE_PA
from pellicle.answers.lethality_answer import (
    Columns,
    LethalityAnswer,
    LethalityHistory,
    LogFlag,
    Mould,
    OrganismGrowth,
    OrganismLethality,
    ProcessMinutes,
    RowHeld,
)
from pellicle.answers.lethality_facts import facts_of, support_of
from pellicle.answers.working import work_out
from pellicle.measured.probe_log import ProbeLog, series_of
from pellicle.measured.quality import checked, on_a_word, sock_doubted
from pellicle.measured.series import Array, Series
from pellicle.message import Message, message
from pellicle.product import Product
from pellicle.rules.lethality_cautions import lethality_cautions
from pellicle.rules.lethality_check import Support, lethal_s, lethality_checks
from pellicle.rules.lethality_growth import growth_checks
from pellicle.rules.lethality_targets import target_for
from pellicle.rules.verdict import Check, in_order, unmet_titles
from pellicle.rules.words import logs
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.growth import Growth, growth
from pellicle.safety.lethality import Lethality, lethality, wet_history
from pellicle.safety.process_times import (
    ProcessTimes,
    process_times,
    seconds_at_humidity,
    seconds_at_wet_bulb,
)
from pellicle.safety.shelf import mould_free
from pellicle.safety.wetness import contradicted, wetness, with_humidity
from pellicle.source import cited

MINUTE, HOUR = 60.0, 3600.0
HUMIDITIES = (0.30, 0.50, 0.70, 0.90)
WET_BULBS_C = (51.7, 54.4, 57.2, 60.0, 62.8)
# A chart shows no more points than this.
MOST_POINTS = 400
DONE_LOG = 5.0  # of Staphylococcus: the growth a toxin takes, and two to spare (own choice)


def lethality_answer(
    log: ProbeLog,
    product: Product | None = None,
    core: Sequence[str] = (),
    dry_bulb: str = "",
    wet_bulb: str = "",
    on: date | None = None,
    species: str = "",
    pressure_pa: float = STANDARD_PRESSURE_PA,
    sock_checked: bool = False,
    probe_error_c: float = 0.0,
    steam_s: float | None = None,
    sealed_s: float | None = None,
) -> LethalityAnswer:
    """Return what a log shows of a product, or of meat of a species where no product is given.

    ``core``, ``dry_bulb`` and ``wet_bulb`` name columns where their names do not say what they are. ``on`` is the day
    of the cook, ``steam_s`` and ``sealed_s`` typed times of steam or of a closed oven. InputError for columns that are
    not there.
    """
    day = on or date.today()
    raw, chosen = series_of(log, core, dry_bulb, wet_bulb)
    made = with_humidity(raw, pressure_pa)
    series, flags = checked(made, sock_checked)
    doubted = sock_doubted(flags) or contradicted(made)
    facts, support = _about(product, species, day, probe_error_c, steam_s, sealed_s)
    found = _told(lethality(series, facts), facts)
    shown = wetness(series, facts.surface_aw)
    times = process_times(series, shown, lethal_s(next(iter(found.values()))))
    thickness = None if product is None else product.piece.thickness_m
    grown = growth(series, facts.surface_aw, thickness, until_s=growth_ends_s(found))
    checks = in_order(
        [
            *lethality_checks(series, facts, found, support, log.unit_told, doubted, on_a_word(flags)),
            *growth_checks(grown, times),
        ]
    )
    leads = governing(checks)
    cautions = lethality_cautions(facts, found, times)
    keys = [key for check in checks for key in check.sources] + [key for one in cautions for key in one.sources]
    return LethalityAnswer(
        log=log.name,
        began=log.began,
        product="" if product is None else product.name,
        species=facts.species,
        on=day.isoformat(),
        minutes=series.duration_s / MINUTE,
        readings=int(series.time_s.size),
        columns=Columns(chosen.core, chosen.dry_bulb, chosen.wet_bulb, chosen.humidity),
        sentence=_sentence(found[leads], checks, doubted),
        governing=leads,
        lethality=MappingProxyType({name: organism_numbers(one, facts, checks) for name, one in found.items()}),
        row=_row(found[leads]),
        process=process_minutes(series, times),
        growth=MappingProxyType({one.organism: organism_growth(one) for one in grown}),
        mould=mould_of(product),
        history=_history(series, facts, leads),
        checks=checks,
        cautions=cautions,
        log_flags=tuple(LogFlag(one.id, one.at_s / MINUTE, one.seconds / MINUTE, one.text) for one in flags),
        remarks=(*log.remarks, *([message("answers.humidity_contradicted")] if contradicted(made) else [])),
        sources=cited(keys),
    )


def growth_ends_s(found: Mapping[str, Lethality]) -> float | None:
    """Return when a printed row was reached in a passage that also credits Staphylococcus with five log, s; else None.

    What is left after that grows from next to nothing; before it, or without it, all growth counts.
    """
    aureus = found["aureus"].wet
    return lethal_s(found["salmonella"]) if aureus is not None and aureus >= DONE_LOG else None


def governing(checks: Sequence[Check]) -> str:
    """Return the organism whose estimate stands worst among those that have to reach a target; else salmonella."""
    start = "lethality.estimate."
    blocking = [check for check in checks if check.id.startswith(start) and check.blocking]
    known = [check for check in blocking if check.margin is not None]
    return min(known, key=lambda check: check.margin or 0.0).id.removeprefix(start) if known else "salmonella"


def _told(found: Mapping[str, Lethality], facts: LethalityFacts) -> Mapping[str, Lethality]:
    """Withhold what heat is credited with where nobody said of which meat: less known never credits more."""
    if facts.species:
        return found
    why = message("rules_lethality.no_species")
    numbers = ("wet", "wet_lower", "local", "local_face", "expected", "expected_low", "expected_high", "table")
    none: dict[str, Any] = dict.fromkeys((*numbers, "table_ramp", "wet_cool", "credited_s"))
    said = MappingProxyType(dict.fromkeys((*numbers, "table_ramp"), why))
    return MappingProxyType({name: replace(one, **none, withheld=said) for name, one in found.items()})


def process_minutes(series: Series, times: ProcessTimes) -> ProcessMinutes:
    """Return the times of a process in minutes, and for how long it held common humidities and wet bulbs."""
    at_humidity = {f"{100 * bound:.0f}": _minutes(seconds_at_humidity(series, bound)) for bound in HUMIDITIES}
    at_wet_bulb = {f"{bound:.1f}": _minutes(seconds_at_wet_bulb(series, bound)) for bound in WET_BULBS_C}
    return ProcessMinutes(
        MappingProxyType(at_humidity),
        MappingProxyType(at_wet_bulb),
        _minutes(times.come_up_s),
        _minutes(times.growth_s),
        times.reached_54_c,
        _minutes(times.cooled_s),
        _minutes(times.cool_wet_s),
    )


def _minutes(seconds: float | None) -> float | None:
    return None if seconds is None else seconds / MINUTE


def _about(
    product: Product | None,
    species: str,
    day: date,
    probe_error_c: float,
    steam_s: float | None,
    sealed_s: float | None,
) -> tuple[LethalityFacts, Support]:
    if product is None:
        return (
            LethalityFacts(species=species, inside=True, probe_error_c=probe_error_c),
            Support(steam_s=steam_s, sealed_s=sealed_s, on=day),
        )
    # a log needs no weight: any green weight gives the same mixture
    raw_kg = 1.0 if product.meat.raw_kg is None else None
    facts = facts_of(product, work_out(product, raw_kg).marinated.composition, probe_error_c)
    if species:
        facts = replace(facts, species=species)
    return facts, support_of(product, day, steam_s, sealed_s)


def _sentence(leads: Lethality, checks: Sequence[Check], doubted: bool) -> Message:
    """The answer in words: first what is not met, or that the log itself is not to be believed."""
    said = _credited(leads, checks)
    failed = unmet_titles(checks)
    if failed:
        said = message("answers.finding_first", titles=failed, sentence=str(said))
    return message("answers.sock_first", sentence=str(said)) if doubted else said


def _credited(leads: Lethality, checks: Sequence[Check]) -> Message:
    by_id = {check.id: check for check in checks}
    support = by_id["lethality.support"].verdict.value
    if leads.wet is None or leads.wet_lower is None:
        return message("answers.lethality_withheld", organism=leads.label, why=str(leads.withheld["wet"]))
    return message(
        "answers.lethality_sentence",
        organism=leads.label,
        wet=logs(leads.wet),
        lower=logs(leads.wet_lower),
        minutes=f"{(leads.credited_s or 0.0) / MINUTE:.0f}",
        support=support,
    )


def organism_numbers(one: Lethality, facts: LethalityFacts, checks: Sequence[Check]) -> OrganismLethality:
    """Return the numbers of one organism with its target and the verdict among the checks."""
    target = target_for(one.organism, facts.species)
    by_id = {check.id: check for check in checks}
    check = by_id.get(f"lethality.estimate.{one.organism}")
    return OrganismLethality(
        one.label,
        one.wet,
        one.wet_lower,
        _minutes(one.credited_s),
        one.local,
        one.local_face,
        one.expected,
        one.expected_low,
        one.expected_high,
        one.table,
        one.table_ramp,
        None if target is None else target.target,
        "cannot tell" if check is None else check.verdict.value,
        one.withheld,
    )


def _row(one: Lethality) -> RowHeld | None:
    held = one.hold
    if held is None:
        return None
    row = held.row
    needed, found = row.held_s / MINUTE, held.held_s / MINUTE
    return RowHeld(row.temperature_c, row.fahrenheit, needed, found, row.log, held.met)


def organism_growth(one: Growth) -> OrganismGrowth:
    """Return the growth of one organism for an answer."""
    return OrganismGrowth(one.label, one.log, one.hours, one.applies, one.why)


def mould_of(product: Product | None) -> Mould | None:
    """Return how long until mould shows at a product's limit in its pack, None without a product."""
    if product is None:
        return None
    found = mould_free(product.target.limit, product.pack, product.storage_c)
    return Mould(product.target.limit, found.low_days, found.high_days, found.note)


def _history(series: Series, facts: LethalityFacts, organism: str) -> LethalityHistory:
    rows = series.time_s.size
    at = np.unique(np.linspace(0, rows - 1, min(rows, MOST_POINTS)).astype(int))
    credited = wet_history(series, facts, organism)
    return LethalityHistory(
        tuple(float(value) for value in (series.time_s[at] - series.time_s[0]) / MINUTE),
        _thinned(series.air_c, at),
        _thinned(series.wet_bulb_c, at),
        _thinned(series.core_c, at),
        _thinned(credited, at),
    )


def _thinned(column: Array | None, at: np.ndarray[tuple[int], np.dtype[np.int_]]) -> tuple[float | None, ...]:
    if column is None:
        return ()
    return tuple(float(value) if np.isfinite(value) else None for value in column[at])
