"""What heating can reach: the temperature a wet piece holds in a step, and cores that wait above it."""

from __future__ import annotations

from pellicle.air.humid import humidity_ratio, saturation_pressure_pa
from pellicle.air.wet_surface import wet_surface_c
from pellicle.house.chamber import ChamberSetup
from pellicle.house.schedule import StepSetup
from pellicle.house.until import EndKind
from pellicle.message import Message, message
from pellicle.units import show_duration, show_percent, show_temperature

HALVINGS = 40  # of the range of humidities: far below anything a probe resolves
WET = 1.0  # water activity of a surface that evaporates like water


def wet_hold_c(step: StepSetup, chamber: ChamberSetup) -> float | None:
    """Return the temperature (C) a wet surface holds in a step's set point; None where the house's balance decides."""
    ratio = step.humidity_ratio(chamber.pressure_pa)
    if ratio is None:
        return None
    film = step.film.w_m2k
    return float(wet_surface_c(step.dry_bulb_c, ratio, chamber.pressure_pa, film, step.emissivity, WET))


def humidity_needed(step: StepSetup, chamber: ChamberSetup, target_c: float) -> float | None:
    """Return the relative humidity (share) at which a wet surface holds ``target_c`` (C) in this step's dry bulb.

    None where even saturated air does not bring it there, or its vapour would be over the pressure.
    """
    low, high = 0.0, 1.0
    if target_c > step.dry_bulb_c or _held_at(high, step, chamber) < target_c:
        return None
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if _held_at(middle, step, chamber) >= target_c else (middle, high)
    return high


def reach_remarks(steps: tuple[StepSetup, ...], chamber: ChamberSetup) -> tuple[Message, ...]:
    """Return a remark for each step that waits for a core warmer than its wet surface can hold, or ends in its ramp."""
    remarks = []
    for step in steps:
        if step.left_off is not step:
            remarks.append(_ramp_cut(step))
        held = wet_hold_c(step, chamber)
        if step.end.kind is not EndKind.CORE or step.sealed or held is None or held >= step.end.value:
            continue
        needed = humidity_needed(step, chamber, step.end.value)
        values = {
            "name": step.name,
            "held": show_temperature(held, digits=1),
            "target": show_temperature(step.end.value, digits=1),
        }
        if needed is None:
            remarks.append(message("house.core_above_wet_surface", **values))
        else:
            remarks.append(message("house.core_needs_humidity", needed=show_percent(needed, 0), **values))
    return tuple(remarks)


def _ramp_cut(step: StepSetup) -> Message:
    return message(
        "house.ramp_cut",
        name=step.name,
        to=show_temperature(step.dry_bulb_c, digits=1),
        ramp=show_duration(step.ramp_s),
        time=show_duration(step.end.value),
        reached=show_temperature(step.left_off.dry_bulb_c, digits=1),
    )


def _held_at(humidity: float, step: StepSetup, chamber: ChamberSetup) -> float:
    ratio = humidity_ratio(humidity * saturation_pressure_pa(step.dry_bulb_c), chamber.pressure_pa)
    film = step.film.w_m2k
    return float(wet_surface_c(step.dry_bulb_c, ratio, chamber.pressure_pa, film, step.emissivity, WET))
