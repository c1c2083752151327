"""A product's house in SI: the air's pressure and volume, what leaks in, what condenses, and how pieces are heated.

What the file leaves open comes from its kind of house; ``assumed`` says so in words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pellicle import parameter
from pellicle.air.humid import (
    STANDARD_PRESSURE_PA,
    boiling_point_c,
    humidity_ratio,
    pressure_at_altitude_pa,
    saturation_pressure_pa,
)
from pellicle.air.wet_surface import evaporation_heat_j_kg
from pellicle.errors import InputError
from pellicle.house.kinds import UNSTATED, HouseKind, house_kind
from pellicle.message import Message, message
from pellicle.passage import Arrangement, House, Position
from pellicle.product import Product
from pellicle.units import show_mass
from pellicle.units.kinds import HOUR_S

MEGAJOULE_J = 1e6
GAS_EVAPORATION_C = 50.0  # temperature of the surface for the heat evaporation takes from the flame: 2 % over 20 K

VIEW_FACTORS = {
    Arrangement.OPEN: "view_factor_open",
    Arrangement.ROWS: "view_factor_rows",
    Arrangement.STACKED: "view_factor_stacked",
}


@dataclass(frozen=True, slots=True)
class ChamberSetup:
    """A house resolved: everything the balance of its air needs, in SI, and how unlike its places are.

    Fresh air is dry air (kg/s): ``leak_kg_s`` with the damper shut, ``full_fresh_kg_s`` fully open, between them with
    the power ``damper_exponent`` of the opening. ``load_kg`` is the marinated weight that shares the air, None where
    only the product's own is there. ``moisture_per_evaporated`` is the water a flame adds per kg it evaporates,
    ``moisture_per_j`` per J it gives the fresh air. ``emissivity`` includes the view factor.
    """

    kind: HouseKind
    pressure_pa: float
    boiling_point_c: float
    volume_m3: float
    load_kg: float | None
    ambient_c: float
    ambient_humidity_ratio: float
    damper: bool
    leak_kg_s: float
    fresh_kg_s: float
    full_fresh_kg_s: float
    damper_exponent: float
    steam_kg_s: float
    combustion_kg_s: float
    moisture_per_j: float
    moisture_per_evaporated: float
    condensation_per_s: float
    emissivity: float
    positions: tuple[Position, ...]
    position_sd: float
    assumed: tuple[Message, ...]
    sources: tuple[str, ...]

    def fresh_at(self, opening: float) -> float:
        """Return the fresh air (kg/s) with the damper open by a share 0 to 1."""
        return float(self.leak_kg_s + (self.full_fresh_kg_s - self.leak_kg_s) * opening**self.damper_exponent)

    def balance_humidity_ratio(self, dry_bulb_c: float, fresh_kg_s: float, evaporated_kg_s: float) -> float:
        """Return the humidity ratio the house's air settles at under fresh air and evaporation (kg/s), unsaturated.

        The steady state of the chamber balance without wall condensation; ``dry_bulb_c`` [C] counts for a flame.
        """
        heat = fresh_kg_s * (1006.0 + 1860.0 * self.ambient_humidity_ratio) * (dry_bulb_c - self.ambient_c)
        added = self.steam_kg_s + self.combustion_kg_s + self.moisture_per_j * heat
        added += evaporated_kg_s * (1.0 + self.moisture_per_evaporated)
        return self.ambient_humidity_ratio + added / fresh_kg_s


def resolve_house(product: Product) -> ChamberSetup:
    """Return the house of a product with what its file says and, for the rest, its kind of house; InputError if it
    contradicts itself."""
    house, model = product.house, product.model
    kind = house_kind(house.kind)
    assumed: list[Message] = []
    pressure = house_pressure_pa(house)
    ambient_c = _or_parameter(house.ambient_c, "ambient_temperature_c", model)
    ambient_humidity = _or_parameter(house.ambient_humidity, "ambient_humidity", model)
    leak = kind.leak_kg_s if house.leak_kg_s is None else house.leak_kg_s
    full = kind.full_fresh_kg_s if house.full_fresh_kg_s is None else house.full_fresh_kg_s
    fresh = kind.fresh_kg_s if house.fresh_kg_s is None else house.fresh_kg_s
    if house.full_fresh_kg_s is not None and full < leak:
        raise InputError(
            "house.open_below_leak", field="house.fresh_air_open", open=_per_hour(full), leak=_per_hour(leak)
        )
    if not house.kind:
        assumed.append(message("house.assumed_kind", kind=house_kind(UNSTATED).label))
    if house.volume_m3 is None or house.leak_kg_s is None:
        assumed.append(
            message("house.assumed_air", kind=kind.label, volume=f"{kind.volume_m3:g}", leak=_per_hour(leak))
        )
    gas = kind.gas_fired if house.gas_fired is None else house.gas_fired
    per_j = parameter.value("gas_water_kg_per_mj", model) / MEGAJOULE_J if gas else 0.0
    return ChamberSetup(
        kind=kind,
        pressure_pa=pressure,
        boiling_point_c=float(boiling_point_c(pressure)),
        volume_m3=kind.volume_m3 if house.volume_m3 is None else house.volume_m3,
        load_kg=house.load_kg,
        ambient_c=ambient_c,
        ambient_humidity_ratio=float(humidity_ratio(ambient_humidity * saturation_pressure_pa(ambient_c), pressure)),
        damper=kind.damper if house.damper is None else house.damper,
        leak_kg_s=leak,
        fresh_kg_s=fresh,
        full_fresh_kg_s=max(full, leak),
        damper_exponent=parameter.value("damper_exponent", model),
        steam_kg_s=house.steam_kg_s or 0.0,
        combustion_kg_s=house.combustion_kg_s or 0.0,
        moisture_per_j=per_j,
        moisture_per_evaporated=per_j * float(evaporation_heat_j_kg(GAS_EVAPORATION_C)),
        condensation_per_s=_or_parameter(house.condensation_per_s, "wall_condensation_per_s", model),
        emissivity=_emissivity(house, kind, model),
        positions=house.positions,
        position_sd=kind.position_sd,
        assumed=tuple(assumed),
        sources=kind.sources,
    )


def house_pressure_pa(house: House) -> float:
    """Return the pressure of the air in a house: as stated, from its altitude, or that at the sea."""
    if house.pressure_pa is not None and house.altitude_m is not None:
        raise InputError("house.altitude_and_pressure", field="house.pressure")
    if house.pressure_pa is not None:
        return house.pressure_pa
    return STANDARD_PRESSURE_PA if house.altitude_m is None else float(pressure_at_altitude_pa(house.altitude_m))


def _emissivity(house: House, kind: HouseKind, model: Mapping[str, float]) -> float:
    """Return emissivity times view factor; one stated alone, without a word on what stands around, is of both."""
    emissivity = kind.emissivity if house.emissivity is None else house.emissivity
    if house.view_factor is not None:
        return emissivity * house.view_factor
    arrangement = house.arrangement or (None if house.emissivity is not None else kind.arrangement)
    if arrangement is None:
        return emissivity if house.emissivity is not None else emissivity * parameter.value("view_factor_rows", model)
    return emissivity * parameter.value(VIEW_FACTORS[arrangement], model)


def _or_parameter(stated: float | None, name: str, model: Mapping[str, float]) -> float:
    return parameter.value(name, model) if stated is None else stated


def _per_hour(kg_s: float) -> str:
    return f"{show_mass(kg_s * HOUR_S)}/h"
