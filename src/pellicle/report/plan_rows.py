"""The rows of a plan as text, once for terminal and paper: what to weigh, weights on the way down, racks, checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pellicle.report.numerals import at_most, batch_digits, number, plain, significant_decimals, span, weighed, word
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import MOST_LOGS, apart, bound_beside, logs, times
from pellicle.units.kinds import GRAM_KG, MINUTE_S, OUNCE_KG, POUND_KG

if TYPE_CHECKING:
    from pellicle.answers.plan_answer import CurvePoint, PlanAnswer, PlanLine, Pull, RackPull

MOST_WEIGHTS = 9
MOST_GRAM_DECIMALS = 2
MOST_LIMIT_DECIMALS = 4
# Weights shown without being marked lie between these multiples of the pull weight: where the load is watched.
WATCHED = (0.88, 1.30)
# Relative; what binary fractions lack of a decimal one does not make a printed number too much.
BINARY_DUST = 1e-9
# A point of the curve this near the pull weight, relative to it, is the pull's own.
NEAR = 1e-3


@dataclass(frozen=True, slots=True)
class WeighRow:
    """One line to weigh: shares of raw and of the finished weight, and the mass in the unit that a scale would show."""

    name: str
    percent: str
    finished: str
    metric: str
    us: str
    carries: str
    emphasis: bool = False


@dataclass(frozen=True, slots=True)
class WeightRow:
    """One weight on the way down, with what the product is at that weight."""

    mark: str
    kg: str
    lb: str
    of_green: str
    of_rack: str
    aw: str
    mpr: str
    salt: str
    sugar: str
    is_pull: bool


@dataclass(frozen=True, slots=True)
class RackRow:
    """One rack: tare, what it weighed loaded, the scale reading to pull at."""

    name: str
    tare: str
    loaded: str
    pull: str
    pull_us: str
    percent: str
    marked: bool


@dataclass(frozen=True, slots=True)
class CheckRow:
    """One check: verdict, what it asks, the value, the limit, the reason, and where the limit stands."""

    verdict: str
    title: str
    value: str
    limit: str
    why: str
    clause: str
    group: str
    blocking: bool


def weigh_rows(answer: PlanAnswer) -> list[WeighRow]:
    """Return the lines to weigh, meat first."""
    return [_weigh_row(line) for line in sorted(answer.lines, key=lambda line: not line.is_meat)]


def total_rows(answer: PlanAnswer) -> list[WeighRow]:
    """Return what the lines add up to and what goes on the rack, with the range of the pickup."""
    rows = []
    if answer.total_kg is not None:
        percent = number(sum(line.percent_of_raw for line in answer.lines), 2)
        kg = answer.total_kg
        rows.append(WeighRow(word("total"), percent, "", scale_metric(kg), scale_us(kg), "", emphasis=True))
    if answer.marinated_kg is not None:
        percent = number(100 * answer.marinated_kg / answer.raw_kg, 1)
        low, high, digits = answer.marinated_low_kg, answer.marinated_high_kg, batch_digits(answer.raw_kg)
        known = low is None or high is None or number(low, digits) == number(high, digits)
        carries = "" if known else word("likely_between", span=span(low, high, digits))
        metric, us = number(answer.marinated_kg, digits), number(answer.marinated_kg / POUND_KG, digits)
        name = word("on_the_rack")
        rows.append(WeighRow(name, percent, "", f"{metric} kg", f"{us} lb", carries, emphasis=True))
    return rows


def weight_rows(answer: PlanAnswer) -> list[WeightRow]:
    """Return the weights worth a row, heaviest first: every marked one, and a few between."""
    digits = pull_digits(answer)
    at_pull = _at_pull(answer.curve, answer.pull)
    return [_weight_row(point, answer.pull, point is at_pull, digits) for point in _chosen(answer.curve, answer.pull)]


def rack_rows(answer: PlanAnswer) -> list[RackRow]:
    """Return one row for each rack that the product names."""
    return [_rack_row(rack, pull_digits(answer)) for rack in answer.pull.racks]


def check_rows(checks: Sequence[Check]) -> list[CheckRow]:
    """Return the checks in the order in which they came."""
    return [_check_row(check) for check in checks]


def pull_digits(answer: PlanAnswer) -> int:
    """Return the decimals of weights on the way down: those of the pull weight, or of the batch if there is none."""
    return batch_digits(answer.raw_kg if answer.pull.kg is None else answer.pull.kg)


def pounds(kg: float | None) -> str:
    """Return a weight in lb: two decimals, more under a pound.

    >>> pounds(84.0), pounds(0.202), pounds(0.042)
    ('185.19', '0.445', '0.093')
    """
    if kg is None:
        return word("unknown")
    lb = kg / POUND_KG
    return number(lb, 2 if lb >= 1 else min(max(significant_decimals(lb, 2), 3), 4))


def scale_metric(kg: float | None, cut: bool = False) -> str:
    """Return an amount as a metric scale shows it: kg, or g under a kilogram.

    Grams carry every decimal the checks were made for, up to two; beyond that the scale counts in ounces, whose column
    is the exact one, and four figures stand here.

    >>> scale_metric(10.08), scale_metric(0.202), scale_metric(0.0042)
    ('10.08 kg', '202 g', '4.2 g')
    """
    if kg is None:
        return word("unknown")
    if kg >= 1:
        return f"{weighed(kg) if not (cut and _more(weighed(kg), kg)) else at_most(kg, 3)} kg"
    grams = kg / GRAM_KG
    exact = _trimmed(weighed(grams))
    digits = significant_decimals(grams)
    fine = len(exact.partition(".")[2]) > MOST_GRAM_DECIMALS and grams >= 1
    if cut and (fine or _more(exact, grams)):
        return f"{_trimmed(at_most(grams, max(digits, MOST_GRAM_DECIMALS)))} g"
    return f"{_trimmed(number(grams, digits)) if fine else exact} g"


def scale_us(kg: float | None, cut: bool = False) -> str:
    """Return an amount as a US scale shows it: lb, or oz under a pound; ``cut`` rounds down, where a law limits it.

    >>> scale_us(84.0), scale_us(0.202), scale_us(0.0042)
    ('185.19 lb', '7.13 oz', '0.148 oz')
    """
    if kg is None:
        return word("unknown")
    shown = at_most if cut else number
    lb = kg / POUND_KG
    if lb >= 1:
        return f"{shown(lb, 2)} lb"
    oz = kg / OUNCE_KG
    return f"{shown(oz, 2 if oz >= 1 else 3)} oz"


def _more(shown: str, amount: float) -> bool:
    return float(shown) > amount * (1 + BINARY_DUST)


def judged(value: float | None, limit: float | None, digits: int) -> str:
    """Return a value that was judged, with more decimals only where rounding would put it on its limit.

    >>> judged(500.0, 546.875, 0), judged(200.04, 200.0, 0), judged(200.0, 200.0, 0)
    ('500', '200.04', '200')
    """
    said = number(value, digits)
    if value is None or limit is None or value == limit or float(said) != limit:
        return said
    return apart(value, limit, digits)[0]


def mark_of(verdict: str) -> str:
    """Return the verdict with its mark in plain characters."""
    signs = {Verdict.MET: "[#]", Verdict.NOT_MET: "[/]", Verdict.CANNOT_TELL: "[:]"}
    return f"{signs[Verdict(verdict)]} {verdict}"


def _weigh_row(line: PlanLine) -> WeighRow:
    name = plain(line.label or line.ingredient)
    if line.is_meat:
        name = word("green_weight_of", name=name)
    carries = "; ".join(plain(str(text)) for text in line.carries)
    return WeighRow(
        name,
        number(line.percent_of_raw, _percent_digits(line.percent_of_raw)),
        "" if line.percent_of_finished is None else number(line.percent_of_finished, 2),
        scale_metric(line.kg, cut=line.is_limited),
        scale_us(line.kg, cut=line.is_limited),
        carries,
        line.is_meat,
    )


def _percent_digits(percent: float) -> int:
    return 2 if percent >= 1 or round(percent, 2) == round(percent, 3) else 3


def _chosen(curve: Sequence[CurvePoint], pull: Pull) -> list[CurvePoint]:
    points = sorted(curve, key=lambda point: -point.kg)
    at_pull = _at_pull(points, pull)
    kept = [point for point in points if point.mark is not None or point is at_pull]
    kept += [point for point in points[:1] if point not in kept]
    watched = points
    if pull.kg is not None:
        watched = [point for point in points if WATCHED[0] * pull.kg <= point.kg <= WATCHED[1] * pull.kg]
    free = MOST_WEIGHTS - len(kept)
    if watched and free > 0:
        heaviest, lightest = watched[0].kg, watched[-1].kg
        aims = [heaviest + (lightest - heaviest) * at / max(free - 1, 1) for at in range(free)]
        apart_by = abs(heaviest - lightest) / (3 * MOST_WEIGHTS)
        for aim in aims:
            near = min(watched, key=lambda point: abs(point.kg - aim))
            if all(abs(near.kg - other.kg) > apart_by for other in kept):
                kept.append(near)
    return sorted(kept, key=lambda point: -point.kg)


def _at_pull(curve: Sequence[CurvePoint], pull: Pull) -> CurvePoint | None:
    if pull.kg is None or not curve:
        return None
    kg = pull.kg
    nearest = min(curve, key=lambda point: abs(point.kg - kg))
    return nearest if abs(nearest.kg - kg) <= kg * NEAR else None


def _weight_row(point: CurvePoint, pull: Pull, is_pull: bool, digits: int) -> WeightRow:
    mark = plain(str(point.mark)) if point.mark is not None else ""
    if not mark and is_pull:
        mark = word("pull")
    if pull.kg is not None and not point.inside and not is_pull:
        mark = f"{mark}; {word('too_wet')}" if mark else word("too_wet")
    return WeightRow(
        mark,
        number(point.kg, digits),
        number(point.kg / POUND_KG, digits),
        number(point.percent_of_raw, 1),
        number(point.percent_of_marinated, 1),
        span(point.aw_low, point.aw_high, 2),
        number(point.mpr, 2),
        number(point.salt_percent, 1),
        number(point.sugar_percent, 1),
        is_pull,
    )


def _rack_row(rack: RackPull, digits: int) -> RackRow:
    return RackRow(
        plain(rack.name),
        weighed(rack.tare_kg),
        "" if rack.loaded_kg is None else weighed(rack.loaded_kg),
        "" if rack.pull_kg is None else number(rack.pull_kg, digits),
        "" if rack.pull_kg is None else number(rack.pull_kg / POUND_KG, digits),
        number(rack.percent_of_loaded, 1),
        rack.marked,
    )


def _check_row(check: Check) -> CheckRow:
    value, limit = _value_and_limit(check)
    return CheckRow(
        str(check.verdict),
        plain(str(check.title)),
        value,
        limit and word(check.direction.replace(" ", "_"), value=limit),
        plain(str(check.why)),
        plain(check.clause),
        str(Group(check.group)),
        check.blocking,
    )


def _value_and_limit(check: Check) -> tuple[str, str]:
    """Value and limit of a check with their units, as finely as they are known; empty where there is none."""
    if check.unit == "min" and check.value is not None and check.limit is not None:
        return times(check.value * MINUTE_S, check.limit * MINUTE_S)
    unit = f" {check.unit}" if check.unit and check.unit != "aw" else ""
    if check.unit == "log" and check.value is not None and check.value > MOST_LOGS:
        return logs(check.value) + unit, "" if check.limit is None else bound_beside(
            None, check.limit, check.digits
        ) + unit
    value = "" if check.value is None else judged(check.value, check.limit, check.digits) + unit
    return value, "" if check.limit is None else bound_beside(check.value, check.limit, check.digits) + unit


def _trimmed(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text
