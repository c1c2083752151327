"""What is said of a passage through the house, in sentences and cells, once for terminal and paper."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pellicle.report.numerals import number, plain, span, word
from pellicle.rules.words import logs
from pellicle.run.simulate import EndedBy
from pellicle.units import both, show_duration, show_mass

if TYPE_CHECKING:
    from pellicle.answers.run_answer import PlaceEnd, Range, Rest, RunAnswer, RunStepRow, Spread
    from pellicle.answers.schedule_rows import ScheduleRow

# The numbers of an organism that are shown, in the order of their columns.
WAYS = ("wet", "wet_lower", "local", "expected", "table")
MM, HOUR_S, MINUTES, PERCENT = 1000.0, 3600.0, 60.0, 100.0
# A rest is named in quarters of an hour, never less than computed.
QUARTERS, DUST = 4, 1e-9


def end_texts(answer: RunAnswer) -> list[str]:
    """Return what the product is at the end, what dripped with it, and what evaporated."""
    end = answer.end
    return [
        word(
            "run_end",
            kg=show_mass(end.kg),
            lb=show_mass(end.kg, "us"),
            raw=number(end.percent_of_raw, 1),
            marinated=number(end.percent_of_marinated, 1),
            aw=number(end.aw_mean, 2),
            surface=number(end.aw_surface, 2),
            core=number(end.core_c, 1),
            moisture=number(end.moisture_percent, 1),
            mpr=number(end.mpr, 2),
            thickness=number(MM * end.thickness_m, 1),
        ),
        word(
            "run_drip",
            drip=number(answer.drip_percent_of_marinated, 1),
            salts=number(answer.salts_lost_percent, 1),
            sugars=number(answer.sugars_lost_percent, 1),
        ),
        word("run_left", vapour=number(answer.left.vapour_percent, 1), heat=number(answer.left.heat_received_kj_kg, 0)),
    ]


def pull_text(answer: RunAnswer) -> str:
    """Return the weight to pull at: the lightest of what the plan, this passage and its spread say."""
    values = {
        "use": both(answer.pull_lightest_kg),
        "kg": show_mass(answer.pull_kg),
        "span": word("span", low=show_mass(answer.pull_low_kg), high=show_mass(answer.pull_high_kg)),
        "before": show_mass(answer.pull_kg_without_run),
    }
    if answer.spread is None or not answer.spread.pull_enough:
        return word("run_pull", **values)
    return word("run_pull_spread", **values, uneven=show_mass(answer.spread.pull_kg))


def lethality_cells(answer: RunAnswer) -> list[tuple[str, ...]]:
    """Return one row of cells for each organism, the one that leads first: name, numbers, target."""
    cells = []
    for name in sorted(answer.lethality, key=lambda name: name != answer.governing):
        one = answer.lethality[name]
        numbers = [getattr(one, way) for way in WAYS]
        shown = [word("unknown") if value is None else logs(value) for value in numbers]
        cells.append((plain(one.label), *shown, "" if one.target is None else logs(one.target)))
    return cells


def ended_text(step: RunStepRow, asked: ScheduleRow | None = None) -> str:
    """Return what ended a step; where that was the longest it may take, that what it waits for had not come."""
    if step.ended_by == EndedBy.GAP:
        return word("run_ended_even")
    if step.ended_by == EndedBy.TIME and asked is not None and asked.at_most is not None:
        return word("run_ended_longest")
    return plain(step.ended_by)


def withheld_text(answer: RunAnswer) -> list[str]:
    """Return why nothing is credited against the organism that leads, where it is withheld."""
    leads = answer.lethality[answer.governing]
    return [plain(str(leads.why_withheld["wet"]))] if leads.wet is None and "wet" in leads.why_withheld else []


def growth_texts(answer: RunAnswer) -> list[str]:
    """Return what grew on the way, where it is known."""
    return [
        word("run_growth", organism=plain(grown.label), log=number(grown.log, 2))
        for grown in answer.growth.values()
        if grown.log is not None
    ]


def after_texts(answer: RunAnswer) -> list[str]:
    """Return what comes after: the rest before a reading, what the face may do, mould."""
    texts = [] if answer.rest is None else [rest_text(answer.rest)]
    texts += [plain(str(remark)) for remark in answer.face.remarks]
    if answer.mould is not None:
        texts.append(word("run_keeping", aw=number(answer.mould.aw, 2), note=plain(str(answer.mould.note))))
    return texts


def rest_text(rest: Rest) -> str:
    """Return in words which rest a reading needs."""
    values = {
        "thickness": number(MM * rest.thickness_m, 1),
        "at": number(rest.at_c, 0),
        "gap": number(rest.gap, 2),
        "most": show_duration(HOUR_S * rest.most_hours),
    }
    if rest.hours is None:
        return word("run_rest_long", **values)
    if rest.hours * MINUTES < 1:
        return word("run_rest_none", **values)
    hours = math.ceil(rest.hours * QUARTERS - DUST) / QUARTERS
    return word("run_rest", hours=show_duration(HOUR_S * hours), **values)


def spread_texts(answer: RunAnswer) -> list[str]:
    """Return what differs between batches and pieces does to the passage; nothing where no pieces were run."""
    found = answer.spread
    if found is None:
        return []
    return [
        word("run_spread_of", pieces=str(found.pieces), batches=str(found.batches), failed=str(found.failed)),
        word("run_spread_hours", span=_span(found.hours, 1), middle=number(found.hours.middle, 1)),
        word("run_spread_weight", span=_span(found.percent_of_raw, 1), middle=number(found.percent_of_raw.middle, 1)),
        word("run_spread_aw", span=_span(found.aw_wettest, 2), share=number(PERCENT * found.p_aw, 0)),
        _uneven(found),
        *_treated(answer, found),
        *(_place(place) for place in found.places),
    ]


def _uneven(found: Spread) -> str:
    kg, lb = show_mass(found.pull_kg), show_mass(found.pull_kg, "us")
    if found.aim_aw is None or not found.pull_enough:
        return word("run_spread_no_pull")
    return word("run_spread_pull", aw=number(found.aim_aw, 2), kg=kg, lb=lb)


def _treated(answer: RunAnswer, found: Spread) -> list[str]:
    if found.lethality_wet is None or found.p_lethality is None:
        return []
    least = found.lethality_wet
    return [
        word(
            "run_spread_lethality",
            organism=plain(answer.lethality[found.organism].label),
            span=word("span", low=logs(least.low), high=logs(least.high)),
            share=number(PERCENT * found.p_lethality, 0),
        ),
        word("run_spread_both", share=number(None if found.p_both is None else PERCENT * found.p_both, 0)),
    ]


def _place(place: PlaceEnd) -> str:
    log = word("unknown") if place.lethality_wet is None else logs(place.lethality_wet)
    raw, aw = number(place.percent_of_raw, 1), number(place.aw_mean, 2)
    return word("run_place", name=plain(place.name), raw=raw, aw=aw, log=log)


def _span(found: Range, digits: int) -> str:
    return span(found.low, found.high, digits)
