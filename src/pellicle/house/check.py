"""What a house and a schedule cannot be: each refusal a sentence. What is merely dangerous passes and is said later."""

from __future__ import annotations

from dataclasses import replace

from pellicle.air.humid import saturation_pressure_pa, vapour_pressure_pa
from pellicle.air.state import COLDEST_AIR_C, HOTTEST_AIR_C, air_state
from pellicle.errors import InputError
from pellicle.house.chamber import ChamberSetup, resolve_house
from pellicle.house.lying import PieceSetup, resolve_piece
from pellicle.house.schedule import Control, StepSetup, resolve_schedule, way_of
from pellicle.house.until import EndKind, Weights, end_kind
from pellicle.passage import Step, StopWeight, WeightOf
from pellicle.product import Product
from pellicle.units import show_duration, show_mass, show_percent, show_temperature

PACKED_KG_M3 = 1000.0  # of meat without any air between the pieces
# A weight between everything and nothing, where the rest of a schedule is checked before its weights are known.
REACHABLE = StopWeight(0.5, WeightOf.MARINATED)
# assumed: marinated meat is all thawed from here up; the heat of melting is not computed, C.
COLDEST_PIECE_C = -2.0
ANY_WEIGHTS = Weights(raw_kg=1.0, marinated_kg=1.0, dry_kg=0.0)


def check_passage(product: Product) -> None:
    """Pass if the piece, the house and every step of a product make sense together; InputError otherwise.

    A product that states no piece or no schedule passes: it can be planned, not run. The weight that ends a step is
    compared with what goes in when that is known, by ``resolve_schedule``.
    """
    chamber = resolve_house(product)
    if chamber.load_kg is not None and chamber.load_kg > PACKED_KG_M3 * chamber.volume_m3:
        volume, most = f"{chamber.volume_m3:g}", show_mass(PACKED_KG_M3)
        raise InputError("house.no_room", field="house.load", read=show_mass(chamber.load_kg), volume=volume, most=most)
    if product.piece.thickness_m is not None:
        _check_start(resolve_piece(product), chamber)
    for at, step in enumerate(product.schedule, start=1):
        _check_stated(step, f"step[{at}]", chamber, product)
    if product.schedule:
        steps = tuple(
            replace(step, until_weight=REACHABLE) if step.until_weight is not None else step
            for step in product.schedule
        )
        resolved = resolve_schedule(replace(product, schedule=steps), ANY_WEIGHTS)
        for found in resolved:
            _check_air(found, chamber)
            _check_end(found, chamber)
        if product.piece.thickness_m is not None:
            _check_first_core(resolved[0], resolve_piece(product).start_c)


def _check_start(piece: PieceSetup, chamber: ChamberSetup) -> None:
    """Refuse pieces that go in frozen, or hotter than water can be there."""
    if not COLDEST_PIECE_C <= piece.start_c < chamber.boiling_point_c:
        raise InputError(
            "house.start_temperature",
            field="piece.start_temperature",
            read=show_temperature(piece.start_c),
            low=show_temperature(COLDEST_PIECE_C),
            boiling=show_temperature(chamber.boiling_point_c, digits=1),
        )


def _check_first_core(step: StepSetup, start_c: float) -> None:
    """Refuse a schedule that begins by warming the pieces to what they have already."""
    end = step.end
    if end.kind is EndKind.CORE and end.value <= start_c <= step.dry_bulb_c:
        raise InputError(
            "house.core_below_start",
            field=f"{step.field}.until_core",
            name=step.name,
            read=show_temperature(end.value, digits=1),
            start=show_temperature(start_c, digits=1),
        )


def _check_stated(step: Step, field: str, chamber: ChamberSetup, product: Product) -> None:
    """Refuse what can be told from the step as it is stated."""
    if step.dry_bulb_c is not None and not COLDEST_AIR_C <= step.dry_bulb_c <= HOTTEST_AIR_C:
        raise InputError(
            "air.dry_bulb_range",
            field=f"{field}.dry_bulb",
            read=show_temperature(step.dry_bulb_c),
            low=show_temperature(COLDEST_AIR_C),
            high=show_temperature(HOTTEST_AIR_C),
        )
    way = way_of(step, field)
    if way in ("damper", "fresh_air") and not chamber.damper:
        raise InputError("house.no_damper", field=f"{field}.{way}", name=step.name, kind=chamber.kind.label)
    if step.steam_kg_s and way in ("humidity", "wet_bulb"):
        raise InputError("house.steam_and_humidity", field=f"{field}.steam", name=step.name, way=way)
    end_kind(step, field)
    if step.at_most_s is not None and step.for_s is not None and step.at_most_s < step.for_s:
        raise InputError(
            "house.at_most_first",
            field=f"{field}.at_most",
            name=step.name,
            at_most=show_duration(step.at_most_s),
            time=show_duration(step.for_s),
        )
    if _is_still(step, product) and chamber.emissivity == 0:
        raise InputError("house.no_heat", field=field, name=step.name)


def _is_still(step: Step, product: Product) -> bool:
    """Return whether what decides a step's film coefficient is an air speed of nothing."""
    for place in (step, product.house):
        if place.film_w_m2k is not None:
            return False
        if place.air_speed_m_s is not None:
            return place.air_speed_m_s == 0
    return False


def _check_air(step: StepSetup, chamber: ChamberSetup) -> None:
    """Refuse air that is wetter, or drier, than air can be at its temperature and pressure."""
    if step.control is Control.WET_BULB:
        air_state(step.dry_bulb_c, chamber.pressure_pa, wet_bulb_c=step.held, field=f"{step.field}.wet_bulb")
    if step.control is Control.HUMIDITY:
        air_state(step.dry_bulb_c, chamber.pressure_pa, humidity=step.held, field=f"{step.field}.humidity")


def _check_end(step: StepSetup, chamber: ChamberSetup) -> None:
    """Refuse an end that cannot come, however long one waits."""
    end = step.end
    if end.kind is EndKind.CORE and end.value >= step.dry_bulb_c and end.value > step.dry_bulb_from_c:
        raise InputError(
            "house.core_above_air",
            field=f"{step.field}.until_core",
            name=step.name,
            read=show_temperature(end.value, digits=1),
            air=show_temperature(step.dry_bulb_c, digits=1),
        )
    if step.sealed and end.kind in (EndKind.WEIGHT, EndKind.AW):
        what = "weight" if end.kind is EndKind.WEIGHT else "mean water activity"
        raise InputError("house.sealed_end", field=step.field, name=step.name, what=what)
    ratio = step.humidity_ratio(chamber.pressure_pa)
    if end.kind is EndKind.AW and ratio is not None:
        humidity = float(vapour_pressure_pa(ratio, chamber.pressure_pa) / saturation_pressure_pa(step.dry_bulb_c))
        if end.value <= humidity:
            raise InputError(
                "house.aw_below_air",
                field=f"{step.field}.until_aw",
                name=step.name,
                read=f"{end.value:g}",
                humidity=show_percent(humidity),
                aw=f"{humidity:.2f}",
            )
