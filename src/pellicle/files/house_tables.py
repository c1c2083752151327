"""From [piece], [house], [[step]] and house files to ``passage``'s values in SI."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from pellicle import units
from pellicle.errors import InputError
from pellicle.files import text as toml
from pellicle.files.house_model import HouseFile, HouseTable, PieceTable, PositionTable, StepTable
from pellicle.files.refusals import choice, refuse
from pellicle.files.table_model import Typed
from pellicle.passage import Arrangement, House, Lie, Piece, Position, Step, StopWeight, WeightOf
from pellicle.units import Basis

THINNEST_M, THICKEST_M = 0.0005, 0.050  # beyond, one slab with edges is no picture of the piece any more
COLDEST_AMBIENT_C, HOTTEST_AMBIENT_C = -40.0, 50.0  # of any room or yard that people work in
CONDENSATION_MOST_PER_S = 1.0
MOST_GAP_AW = 0.5
FORMAT = 1
LEAST_AIR = 0.1  # of the house's mean film coefficient: what still air by itself leaves

_OF_MARINATED = re.compile(
    r"^(.*?)\s+of\s+(?:the\s+)?(?:marinated|marinade|pumped|start)(?:\s+weight)?$", re.IGNORECASE
)


def maybe(parse: Callable[..., float], value: Typed | None, field: str) -> float | None:
    """Return what ``parse`` makes of a value, or None where there is none."""
    return None if value is None else parse(value, field)


def piece_from(table: PieceTable) -> Piece:
    """Return the piece a table states; InputError for a thickness or a share that cannot be."""
    thickness = maybe(units.length_m, table.thickness, "piece.thickness")
    if thickness is not None and not THINNEST_M <= thickness <= THICKEST_M:
        raise InputError("house.thickness", field="piece.thickness", read=units.show_length(thickness))
    return Piece(
        thickness_m=thickness,
        spread_m=maybe(units.length_m, table.spread, "piece.spread"),
        width_m=maybe(units.length_m, table.width, "piece.width"),
        length_m=maybe(units.length_m, table.length, "piece.length"),
        lie=_choice(table.lie, "piece.lie", Lie),
        open_share_below=maybe(units.percent, table.open_share_below, "piece.open_share_below"),
        start_temperature_c=maybe(units.temperature_c, table.start_temperature, "piece.start_temperature"),
        loaded_depth_m=maybe(units.length_m, table.loaded_depth, "piece.loaded_depth"),
    )


def house_from(table: HouseTable, folder: Path) -> House:
    """Return the house a table states, on top of what its house file says; InputError otherwise."""
    if not table.file:
        return _house(table)
    path = toml.inside(folder, table.file, "house.file")
    try:
        said = read_house(path)
    except InputError as error:
        error.file = error.file or path.name
        raise
    given = {name: getattr(table, name) for name in table.model_fields_set}
    return _house(said.model_copy(update=given))


def read_house(path: Path) -> HouseTable:
    """Return the [house] table of a house file; InputError, with its line, for what cannot be used."""
    text = toml.read_text(path)
    tables = toml.read_toml(text, path.name)
    lines = toml.lines_by_path(text)
    if "format" not in tables:
        raise InputError("files.no_format", field="format", line=1)
    if tables["format"] != FORMAT or isinstance(tables["format"], bool):
        raise InputError("files.not_format_1", field="format", line=lines.get("format"), read=str(tables["format"]))
    try:
        found = HouseFile.model_validate(tables).house
    except ValidationError as error:
        raise refuse(error, HouseFile, lines) from None
    if found.file:
        raise InputError("house.file_in_file", field="house.file", line=toml.line_of(lines, "house.file"))
    try:
        _house(found)
    except InputError as error:
        error.line = error.line or toml.line_of(lines, error.field)
        raise
    return found


def step_from(table: StepTable, field: str) -> Step:
    """Return the step a table states; InputError for a value that cannot be read."""
    ramp_s, ramp_k_s = (None, None) if table.ramp is None else units.ramp(table.ramp, f"{field}.ramp")
    return Step(
        name=table.name,
        dry_bulb_c=maybe(units.temperature_c, table.dry_bulb, f"{field}.dry_bulb"),
        wet_bulb_c=maybe(units.temperature_c, table.wet_bulb, f"{field}.wet_bulb"),
        humidity=None if table.humidity is None else units.percent(table.humidity, f"{field}.humidity", most=math.inf),
        damper=maybe(units.percent, table.damper, f"{field}.damper"),
        smoke=table.smoke,
        for_s=maybe(units.duration_s, table.for_, f"{field}.for"),
        until_core_c=maybe(units.temperature_c, table.until_core, f"{field}.until_core"),
        until_weight=None if table.until_weight is None else stop_weight(table.until_weight, f"{field}.until_weight"),
        until_aw=maybe(units.aw, table.until_aw, f"{field}.until_aw"),
        at_most_s=maybe(units.duration_s, table.at_most, f"{field}.at_most"),
        until_gap=None
        if table.until_gap is None
        else units.number(table.until_gap, f"{field}.until_gap", 0.001, MOST_GAP_AW),
        ramp_s=ramp_s,
        ramp_k_s=ramp_k_s,
        fresh_kg_s=maybe(units.flow_kg_s, table.fresh_air, f"{field}.fresh_air"),
        steam_kg_s=maybe(units.flow_kg_s, table.steam, f"{field}.steam"),
        air_speed_m_s=maybe(units.speed_m_s, table.air_speed, f"{field}.air_speed"),
        film_w_m2k=maybe(units.film_w_m2k, table.film_coefficient, f"{field}.film_coefficient"),
        rest=table.rest,
    )


def stop_weight(value: Typed, field: str) -> StopWeight:
    """Return the weight that ends a step: a share of raw or of marinated, or a weight. InputError otherwise.

    >>> stop_weight("48 % of marinated", "step[3].until_weight").of.value, stop_weight("44 kg", "").value
    ('of marinated', 44.0)
    """
    match = _OF_MARINATED.match(value.strip()) if isinstance(value, str) else None
    if match:
        return StopWeight(units.share(match[1], field), WeightOf.MARINATED)
    amount = units.amount(value, field)
    if amount.bags or amount.agent or amount.basis in (Basis.TOTAL, Basis.SOLUTION):
        raise InputError("house.weight_of_what", field=field, read=amount.text)
    return StopWeight(amount.value, WeightOf.KG if amount.basis is Basis.ABSOLUTE else WeightOf.RAW)


def _house(table: HouseTable) -> House:
    flows = ("fresh_air", "fresh_air_open", "leak", "steam", "combustion_water")
    fresh, full, leak, steam, combustion = (
        maybe(units.flow_kg_s, getattr(table, name), f"house.{name}") for name in flows
    )
    shares = ("emissivity", "view_factor")
    emissivity, view = (_from_0_to_1(getattr(table, name), f"house.{name}") for name in shares)
    ambient_c = maybe(units.temperature_c, table.ambient_temperature, "house.ambient_temperature")
    if ambient_c is not None and not COLDEST_AMBIENT_C <= ambient_c <= HOTTEST_AMBIENT_C:
        raise InputError("house.ambient", field="house.ambient_temperature", read=units.show_temperature(ambient_c))
    return House(
        file=table.file,
        kind=table.kind,
        load_kg=maybe(units.mass, table.load, "house.load"),
        altitude_m=maybe(units.altitude_m, table.altitude, "house.altitude"),
        pressure_pa=maybe(units.pressure_pa, table.pressure, "house.pressure"),
        volume_m3=maybe(units.room_m3, table.volume, "house.volume"),
        ambient_c=ambient_c,
        ambient_humidity=maybe(units.percent, table.ambient_humidity, "house.ambient_humidity"),
        damper=table.damper,
        fresh_kg_s=fresh,
        full_fresh_kg_s=full,
        leak_kg_s=leak,
        steam_kg_s=steam,
        combustion_kg_s=combustion,
        gas_fired=table.gas_fired,
        condensation_per_s=None
        if table.wall_condensation is None
        else units.number(table.wall_condensation, "house.wall_condensation", 0.0, CONDENSATION_MOST_PER_S),
        air_speed_m_s=maybe(units.speed_m_s, table.air_speed, "house.air_speed"),
        film_w_m2k=maybe(units.film_w_m2k, table.film_coefficient, "house.film_coefficient"),
        emissivity=emissivity,
        view_factor=view,
        arrangement=_choice(table.arrangement, "house.arrangement", Arrangement),
        positions=tuple(_position(row, f"house.position[{at}]") for at, row in enumerate(table.position, start=1)),
    )


def _position(table: PositionTable, field: str) -> Position:
    air = units.percent(table.air, f"{field}.air", most=3.0)
    if air < LEAST_AIR:
        raise InputError("house.place_still", field=f"{field}.air", read=str(table.air), name=table.name)
    return Position(
        table.name,
        air,
        units.temperature_step_k(table.warmer, f"{field}.warmer"),
    )


def _from_0_to_1(value: Typed | None, field: str) -> float | None:
    if value is None:
        return None
    return (
        units.percent(value, field) if isinstance(value, str) and "%" in value else units.number(value, field, 0.0, 1.0)
    )


def _choice(read: str, field: str, kinds: Any) -> Any:
    return choice(read, field, {item.value: item for item in kinds}) if read else None
