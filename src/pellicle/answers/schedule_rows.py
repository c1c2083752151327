"""The schedule as the product states it, one row a step: air, humidity in words, smoke, and what ends the step.

What the house makes of it is the run's; a plan, which runs nothing, hands the crew what was asked for.
"""

from __future__ import annotations

from dataclasses import dataclass

from pellicle.house.until import EndKind, end_kind
from pellicle.message import Message, message
from pellicle.passage import Step, WeightOf
from pellicle.product import Product
from pellicle.units import both, both_temperatures, show_duration
from pellicle.units.kinds import FAHRENHEIT_STEP_C, HOUR_S, MINUTE_S

PERCENT = 100.0
# Set points are written to a tenth of a degree: whole degrees Fahrenheit would move a wet bulb by up to 0.3 K.
TENTHS = 1


@dataclass(frozen=True, slots=True)
class ScheduleRow:
    """One step as stated: dry bulb [C], then in words its humidity, how the air gets there, and what ends it.

    ``ramp`` is None where the air is set at once, ``at_most`` where nothing else ends the step.
    """

    name: str
    dry_bulb_c: float | None
    humidity: Message
    ramp: Message | None
    smoke: bool
    ends: Message
    at_most: Message | None


def schedule_rows(product: Product, raw_kg: float, marinated_kg: float) -> tuple[ScheduleRow, ...]:
    """Return the steps of a product, none where it states none; weights that end a step for a batch of so many kg."""
    found = []
    held: Message | None = None
    for at, step in enumerate(product.schedule, start=1):
        humidity, held = _humidity(step, held)
        found.append(
            ScheduleRow(
                name=step.name,
                dry_bulb_c=step.dry_bulb_c,
                humidity=humidity,
                ramp=_ramp(step),
                smoke=step.smoke,
                ends=_ends(step, end_kind(step, f"step[{at}]"), raw_kg, marinated_kg),
                at_most=_at_most(step),
            )
        )
    return tuple(found)


def _humidity(step: Step, kept: Message | None) -> tuple[Message, Message | None]:
    """Return a step's humidity in words, and what the next step goes on with if it says nothing."""
    stated = _stated(step)
    if step.rest and stated is None:
        return message("answers.step_sealed"), None
    held = stated or kept or message("answers.step_by_house")
    said = held if stated is not None or kept is None else message("answers.step_as_before", what=str(held))
    if step.steam_kg_s:
        said = message("answers.step_steam", what=str(said), flow=_hourly(step.steam_kg_s))
    return said, held


def _stated(step: Step) -> Message | None:
    if step.wet_bulb_c is not None:
        return message("answers.step_wet_bulb", value=both_temperatures(step.wet_bulb_c, TENTHS))
    if step.humidity is not None:
        return message("answers.step_humidity", percent=f"{PERCENT * step.humidity:.3g}")
    if step.damper is not None:
        shown = {0.0: "answers.step_damper_shut", 1.0: "answers.step_damper_open"}
        return message(shown.get(step.damper, "answers.step_damper"), percent=f"{PERCENT * step.damper:.3g}")
    if step.fresh_kg_s is not None:
        return message("answers.step_fresh", flow=_hourly(step.fresh_kg_s))
    return None


def _hourly(flow_kg_s: float) -> str:
    return both(flow_kg_s * HOUR_S)


def _ramp(step: Step) -> Message | None:
    if step.ramp_k_s is not None:
        per_minute = step.ramp_k_s * MINUTE_S
        values = {"celsius": f"{per_minute:.2g}", "fahrenheit": f"{per_minute / FAHRENHEIT_STEP_C:.2g}"}
        return message("answers.step_ramp_rate", **values)
    return None if not step.ramp_s else message("answers.step_ramp", time=show_duration(step.ramp_s))


def _ends(step: Step, kind: EndKind, raw_kg: float, marinated_kg: float) -> Message:
    if step.until_weight is not None:
        stop = step.until_weight
        kg = stop.value * {WeightOf.RAW: raw_kg, WeightOf.MARINATED: marinated_kg, WeightOf.KG: 1.0}[stop.of]
        values = {"percent": f"{PERCENT * stop.value:.4g}", "weight": both(kg)}
        return message(f"answers.step_ends_weight_{stop.of.name.lower()}", **values)
    shown = {
        EndKind.TIME: show_duration(step.for_s or 0.0),
        EndKind.CORE: both_temperatures(step.until_core_c or 0.0, TENTHS),
        EndKind.AW: f"{step.until_aw or 0.0:.3g}",
        EndKind.GAP: f"{step.until_gap or 0.0:.3g}",
    }
    return message(f"answers.step_ends_{kind.value}", value=shown[kind])


def _at_most(step: Step) -> Message | None:
    if step.at_most_s is None or step.at_most_s == step.for_s:
        return None
    return message("answers.step_at_most", time=show_duration(step.at_most_s))
