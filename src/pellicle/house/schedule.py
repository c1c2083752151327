"""The schedule in SI: each step's air and how it gets there, how its humidity is held, and what ends it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from pellicle import parameter
from pellicle.air.humid import (
    humidity_ratio,
    humidity_ratio_from_wet_bulb,
    saturation_pressure_pa,
    vapour_pressure_pa,
    wet_bulb_c,
)
from pellicle.errors import InputError
from pellicle.house.chamber import ChamberSetup, resolve_house
from pellicle.house.film import Film, FilmFrom, film_from_speed, stated_film
from pellicle.house.until import End, EndKind, Weights, end_of
from pellicle.passage import Step
from pellicle.product import Product


class Control(StrEnum):
    """How the humidity of a step comes about."""

    HUMIDITY = "relative humidity"
    WET_BULB = "wet bulb"
    BALANCE = "balance"
    NONE = "sealed"


@dataclass(frozen=True, slots=True)
class StepSetup:
    """One step resolved, in SI.

    From its start the dry bulb goes linearly from ``dry_bulb_from_c`` to ``dry_bulb_c`` in ``ramp_s`` (0: at once),
    and the held value (``held``: RH as a share, or wet bulb in C) from ``held_from`` to ``held``. Under
    ``Control.BALANCE`` the house's air is a state fed by ``fresh_kg_s`` of dry air, ``steam_kg_s`` and
    ``moisture_kg_s`` (combustion). ``sealed``: no water passes the faces. ``emissivity`` includes the view factor.
    """

    name: str
    field: str
    dry_bulb_from_c: float
    dry_bulb_c: float
    ramp_s: float
    control: Control
    held_from: float
    held: float
    fresh_kg_s: float
    steam_kg_s: float
    moisture_kg_s: float
    film: Film
    emissivity: float
    sealed: bool
    smoke: bool
    end: End

    @property
    def left_off(self) -> StepSetup:
        """Return the step with the set points it came to: short of its own where its time ends within its ramp."""
        if self.end.kind is not EndKind.TIME or self.ramp_s <= self.end.value:
            return self
        share = self.end.value / self.ramp_s
        dry_bulb = self.dry_bulb_from_c + share * (self.dry_bulb_c - self.dry_bulb_from_c)
        return replace(self, dry_bulb_c=dry_bulb, held=self.held_from + share * (self.held - self.held_from))

    def humidity_ratio(self, pressure_pa: float) -> float | None:
        """Return the humidity ratio of the set point, kg/kg; None where the balance of the house decides."""
        if self.control is Control.HUMIDITY:
            vapour = self.held * saturation_pressure_pa(self.dry_bulb_c)
            return float(humidity_ratio(vapour, pressure_pa))
        if self.control is Control.WET_BULB:
            return float(humidity_ratio_from_wet_bulb(self.dry_bulb_c, self.held, pressure_pa))
        return None


def resolve_schedule(product: Product, weights: Weights | None = None) -> tuple[StepSetup, ...]:
    """Return the steps of a product's schedule resolved; InputError where a step makes no sense or none is there.

    ``weights`` are needed where a step ends at a weight.
    """
    if not product.schedule:
        raise InputError("house.no_steps", field="step")
    chamber = resolve_house(product)
    found: list[StepSetup] = []
    for at, step in enumerate(product.schedule, start=1):
        field = f"step[{at}]"
        found.append(_step(product, chamber, step, field, found[-1] if found else None, weights))
    return tuple(found)


def way_of(step: Step, field: str) -> str:
    """Return the one key by which a step states its humidity, or nothing; InputError if two stand there."""
    given = {
        "wet_bulb": step.wet_bulb_c,
        "humidity": step.humidity,
        "damper": step.damper,
        "fresh_air": step.fresh_kg_s,
    }
    ways = [name for name, value in given.items() if value is not None]
    if len(ways) > 1:
        raise InputError(
            "house.two_humidities", field=f"{field}.{ways[1]}", name=step.name, first=ways[0], second=ways[1]
        )
    return ways[0] if ways else ""


def film_of(product: Product, chamber: ChamberSetup, step: Step) -> Film:
    """Return the film coefficient of a step: its own, else the house's, each stated or from an air speed; else that of
    the kind of house."""
    length = product.piece.length_m or product.piece.width_m
    along = parameter.value("piece_length_in_air", product.model) if length is None else length
    dry_bulb = chamber.ambient_c if step.dry_bulb_c is None else step.dry_bulb_c
    for place in (step, product.house):
        if place.film_w_m2k is not None:
            return stated_film(place.film_w_m2k, product.model)
        if place.air_speed_m_s is not None:
            return film_from_speed(place.air_speed_m_s, along, dry_bulb, chamber.pressure_pa, product.model)
    return Film(chamber.kind.film_w_m2k, chamber.kind.film_log_sd, FilmFrom.KIND)


def _step(
    product: Product, chamber: ChamberSetup, step: Step, field: str, before: StepSetup | None, weights: Weights | None
) -> StepSetup:
    if step.dry_bulb_c is None:
        raise InputError("house.no_dry_bulb", field=field, name=step.name)
    start = chamber.ambient_c if before is None else before.left_off.dry_bulb_c
    ramp = _ramp_s(step, start)
    control, held = _control(step, field, before, product, chamber)
    way = way_of(step, field)
    if way:
        fresh = chamber.fresh_at(step.damper) if step.damper is not None else step.fresh_kg_s
    else:
        fresh = before.fresh_kg_s if before is not None and before.control is Control.BALANCE else chamber.fresh_kg_s
    fresh = chamber.fresh_kg_s if fresh is None else max(fresh, chamber.leak_kg_s)
    if control is not Control.BALANCE:
        fresh = 0.0
    heat_j_s = fresh * (1006.0 + 1860.0 * chamber.ambient_humidity_ratio) * (step.dry_bulb_c - chamber.ambient_c)
    return StepSetup(
        name=step.name,
        field=field,
        dry_bulb_from_c=start if ramp else step.dry_bulb_c,
        dry_bulb_c=step.dry_bulb_c,
        ramp_s=ramp,
        control=control,
        held_from=_held_before(before, control, held, chamber) if ramp else held,
        held=held,
        fresh_kg_s=fresh,
        steam_kg_s=chamber.steam_kg_s if step.steam_kg_s is None else step.steam_kg_s,
        moisture_kg_s=chamber.combustion_kg_s + chamber.moisture_per_j * max(heat_j_s, 0.0),
        film=film_of(product, chamber, step),
        emissivity=chamber.emissivity,
        sealed=step.rest,
        smoke=step.smoke,
        end=end_of(step, field, weights),
    )


def _ramp_s(step: Step, start_c: float) -> float:
    if step.ramp_k_s is not None and step.dry_bulb_c is not None:
        return abs(step.dry_bulb_c - start_c) / step.ramp_k_s
    return step.ramp_s or 0.0


def _control(
    step: Step, field: str, before: StepSetup | None, product: Product, chamber: ChamberSetup
) -> tuple[Control, float]:
    """Return how a step's humidity is held and at which value; a step that says nothing goes on as the one before."""
    way = way_of(step, field)
    if step.wet_bulb_c is not None:
        return Control.WET_BULB, step.wet_bulb_c
    if step.humidity is not None:
        return Control.HUMIDITY, step.humidity
    if way:
        return Control.BALANCE, 0.0
    if step.rest:
        return Control.NONE, 0.0
    if before is not None and before.control is not Control.NONE:
        return before.control, before.held
    if chamber.damper or product.house.fresh_kg_s is not None:
        return Control.BALANCE, 0.0
    raise InputError("house.no_humidity", field=field, name=step.name)


def _held_before(before: StepSetup | None, control: Control, held: float, chamber: ChamberSetup) -> float:
    """Return from where the held humidity is ramped, in the terms of this step."""
    before = None if before is None else before.left_off
    ratio = None if before is None else before.humidity_ratio(chamber.pressure_pa)
    if before is None or ratio is None:
        return held
    if before.control is control:
        return before.held
    if control is Control.WET_BULB:
        return float(wet_bulb_c(before.dry_bulb_c, ratio, chamber.pressure_pa))
    if control is Control.HUMIDITY:
        vapour = vapour_pressure_pa(ratio, chamber.pressure_pa)
        return float(vapour / saturation_pressure_pa(before.dry_bulb_c))
    return held
