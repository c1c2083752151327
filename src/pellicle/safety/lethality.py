"""The four numbers of lethality, for each organism, always shown together, from one series.

``wet`` is credited while the surface is wet, ``local`` follows temperature and water activity at the surface itself,
``expected`` adds what drying does (likely, never for release), ``table`` is the printed row that was held, with the
integral of its line beside it. A missing column withholds a number and is never made up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from pellicle.measured.series import Array, Series
from pellicle.message import Message, message
from pellicle.safety.bound import SOURCES as BOUND_SOURCES
from pellicle.safety.bound import draws, lower_bound
from pellicle.safety.credit import (
    Course,
    Ends,
    LogD,
    amounts,
    credited,
    credited_seconds,
    ends,
    history,
    log_d,
    product_temperature,
)
from pellicle.safety.dry_kill import dry_kill, expected_band
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.inactivation import amplitude
from pellicle.safety.intervals import EVIDENCE
from pellicle.safety.organisms import ORGANISMS, Line, Organism, organisms
from pellicle.safety.table_hold import TableHold, hold, ramp_log
from pellicle.safety.wetness import CREDIT_AW, Wetness, wetness

# Below the coldest printed row (130 F) what is credited is beyond what the lines were compared with.
COOL_C = 54.4

SOURCES = (*BOUND_SOURCES, "orta-ramirez-2005")


@dataclass(frozen=True, slots=True)
class Lethality:
    """Log reductions of one organism; None is withheld, and ``withheld`` says why, by the name of the number.

    ``wet`` with ``wet_lower`` (10th percentile of draws about the published mean), ``wet_cool`` the part of it earned
    below 54.4 C, ``credited_s`` for how long heat counted; ``local`` the survivors' mean over the outer millimetre and
    ``local_face`` at the worst face; ``expected`` with its band; ``table`` the logs of the printed column if a row was
    held (else 0), ``table_ramp`` the integral of its line, ``hold`` the row that came nearest.
    """

    organism: str
    label: str
    wet: float | None
    wet_lower: float | None
    wet_cool: float | None
    credited_s: float | None
    local: float | None
    local_face: float | None
    expected: float | None
    expected_low: float | None
    expected_high: float | None
    table: float | None
    table_ramp: float | None
    hold: TableHold | None
    withheld: Mapping[str, Message]
    sources: tuple[str, ...]
    from_memory: bool


def lethality(series: Series, facts: LethalityFacts, names: tuple[str, ...] = ORGANISMS) -> Mapping[str, Lethality]:
    """Return the log reductions by organism: salmonella, stec, listeria, aureus, or those named.

    ``series`` measured or simulated, ``facts`` what the product is. Half an hour of a wet surface at 60 C, by the
    line for decisions in lean red meat and by the line behind the printed table:

    >>> series = Series(np.array([0.0, 1800.0]), wet_bulb_c=np.full(2, 60.0), core_c=np.full(2, 60.0))
    >>> found = lethality(series, LethalityFacts(species="beef"))["salmonella"]
    >>> round(found.wet, 1), round(found.table_ramp, 1)
    (11.4, 17.5)
    """
    shown = wetness(series, facts.surface_aw)
    held = None if series.core_c is None else hold(series, facts)
    ramp = ramp_log(series, facts)
    every = {name: organisms(facts.poultry)[name] for name in names}
    # the courses differ between organisms by what a history costs, and by nothing else
    rises = {organism.history_most for organism in every.values()}
    courses = {most: _courses(series, shown, most) for most in rises}
    return MappingProxyType(
        {
            name: _numbers(series, facts, organism, courses[organism.history_most], held, ramp)
            for name, organism in every.items()
        }
    )


def wet_draws(series: Series, facts: LethalityFacts, organism: str = "salmonella") -> Array:
    """Return equally likely values of what is credited at the worst face; a single 0 where it is withheld."""
    found = organisms(facts.poultry)[organism]
    faces = _wet_courses(series, wetness(series, facts.surface_aw), found.history_most)
    if not faces:
        return np.zeros(1)
    every = [draws(ends(series, course, CREDIT_AW), series, facts, found) for course in faces]
    return min(every, key=lambda values: float(np.median(values)))


def wet_history(series: Series, facts: LethalityFacts, organism: str = "salmonella") -> Array | None:
    """Return the credited log reductions by every row, (n,), at the worst face; None where withheld."""
    found = organisms(facts.poultry)[organism]
    faces = _wet_courses(series, wetness(series, facts.surface_aw), found.history_most)
    if not faces:
        return None
    log_d_of = _log_d(found.decision, facts, found)
    every = [credited(series, course, log_d_of, CREDIT_AW) for course in faces]
    return min(every, key=lambda rows: float(rows[-1]))


@dataclass(frozen=True, slots=True)
class _Courses:
    """What is integrated, once for all organisms: wet faces, the cool part of each, faces, nodes of the outer mm."""

    wet: tuple[Ends, ...]
    cool: tuple[Ends, ...]
    faces: tuple[Ends, ...]
    nodes: tuple[Ends, ...]


def _courses(series: Series, shown: Wetness | None, most: float) -> _Courses:
    wet = _wet_courses(series, shown, most)
    faces: tuple[Ends, ...] = ()
    nodes: tuple[Ends, ...] = ()
    # history raises what is credited against; what is only shown follows temperature and water activity alone
    ones = np.ones(series.time_s.size)
    if series.face_c is not None and series.face_aw is not None:
        open_faces = [at for at, is_open in enumerate(series.open_faces) if is_open]
        faces = tuple(ends(series, Course(series.face_c[:, at], series.face_aw[:, at], ones)) for at in open_faces)
    if series.outer_c is not None and series.outer_aw is not None:
        columns = list(zip(series.outer_c.T, series.outer_aw.T, strict=True))
        nodes = tuple(ends(series, Course(warm, aw, ones)) for warm, aw in columns)
    return _Courses(
        tuple(ends(series, course, CREDIT_AW) for course in wet),
        tuple(ends(series, _cool(course), CREDIT_AW) for course in wet),
        faces,
        nodes,
    )


def _cool(course: Course) -> Course:
    """The course with nothing credited where it is warmer than the coldest printed row."""
    return replace(course, aw=np.where(course.temperature_c > COOL_C, 0.0, course.aw))


def _wet_courses(series: Series, shown: Wetness | None, most: float) -> list[Course]:
    product = product_temperature(series)
    if shown is None or product is None:
        return []
    rise = history(series, product, most)
    return [
        Course(shown.temperature_c[:, face], shown.aw[:, face], rise, EVIDENCE) for face in range(shown.aw.shape[1])
    ]


def _numbers(
    series: Series,
    facts: LethalityFacts,
    organism: Organism,
    courses: _Courses,
    held: TableHold | None,
    ramp: float | None,
) -> Lethality:
    withheld: dict[str, Message] = {}
    decision, mean = _log_d(organism.decision, facts, organism), _log_d(organism.mean, facts, organism)
    wet = lower = cool = seconds = local = local_face = expected = None
    if courses.wet:
        logs = [_total(parts, decision) for parts in courses.wet]
        worst = logs.index(min(logs))
        wet, cool = logs[worst], _total(courses.cool[worst], decision)
        lower = min(wet, lower_bound(courses.wet[worst], series, facts, organism))
        seconds = credited_seconds(courses.wet[worst])
    else:
        withheld["wet"] = message(f"safety.wet_{'no_core' if series.core_c is None else 'no_humidity'}")
    if courses.faces:
        local_face = min(_total(parts, decision) for parts in courses.faces)
    if courses.nodes and series.outer_weight is not None:
        local = survivors_mean([_total(parts, decision) for parts in courses.nodes], series.outer_weight)
        likely = survivors_mean([_total(parts, mean) for parts in courses.nodes], series.outer_weight)
        expected = likely + dry_kill(series)
    else:
        withheld["local"] = message("safety.local_unknown")
        withheld["expected"] = message("safety.expected_unknown")
    if held is None:
        withheld["table"] = message("safety.table_no_core")
    low, high = expected_band(expected)
    return Lethality(
        organism=organism.name,
        label=organism.label,
        wet=wet,
        wet_lower=lower,
        wet_cool=cool,
        credited_s=seconds,
        local=local,
        local_face=local_face,
        expected=expected,
        expected_low=low,
        expected_high=high,
        table=None if held is None else (held.row.log if held.met else 0.0),
        table_ramp=ramp,
        hold=held,
        withheld=MappingProxyType(withheld),
        sources=tuple(dict.fromkeys((*organism.decision.sources, *organism.mean.sources, *SOURCES))),
        from_memory=organism.decision.from_memory,
    )


def _total(parts: Ends, log_d_of: LogD) -> float:
    return float(np.sum(amounts(parts, log_d_of)))


def survivors_mean(logs: list[float], weights: Array) -> float:
    """Return the log reduction of all germs in layers of the given shares: that of the mean of the survivors.

    >>> round(survivors_mean([8.0, 1.0], np.array([0.5, 0.5])), 2)
    1.3
    """
    alive = float(np.sum(weights * 10.0 ** -np.asarray(logs)) / np.sum(weights))
    return -float(np.log10(alive)) if alive > 0.0 else max(logs)


def _log_d(line: Line, facts: LethalityFacts, organism: Organism) -> LogD:
    floor = organism.poultry and organism.name == "salmonella"
    return log_d(line.d60_s, line.z_below_c, line.z_above_c, amplitude(facts.sugar_share), facts.inside_factor, floor)
