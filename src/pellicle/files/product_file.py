"""From a product file to a ``Product`` in SI. Every refusal names the field, the line, what was read and what is
allowed."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pydantic import ValidationError

from pellicle import parameter, units
from pellicle.errors import InputError
from pellicle.files import text as toml
from pellicle.files.house_tables import house_from, maybe, piece_from, step_from
from pellicle.files.ingredient_file import read_ingredients
from pellicle.files.product_model import (
    BagTable,
    LineTable,
    MeatTable,
    MixtureLineTable,
    ProductFile,
    ProductTable,
    RackTable,
    ReadingTable,
    UptakeTable,
)
from pellicle.files.refusals import choice, refuse
from pellicle.files.table_model import Typed
from pellicle.house.check import check_passage
from pellicle.product import (
    SPECIES,
    AwTarget,
    Bag,
    CureMethod,
    Form,
    Line,
    LotReading,
    Maker,
    Meat,
    MixtureLine,
    OwnIngredient,
    OwnLimit,
    Pack,
    PlantPlan,
    Product,
    Rack,
    Storage,
    Uptake,
)
from pellicle.rules.humidity_gate import option
from pellicle.rules.lethality_holds import named_hold
from pellicle.units import Basis

FORMAT = 1
# Beyond this the tail is a guess about a guess: the priors are known to two digits.
HIGHEST_CONFIDENCE = 0.995
CONFIDENCE_DECIMALS = 6
# Raw meat reads 0.99: a limit there is no limit.
HIGHEST_AW_LIMIT = 0.98
NONE_DECLARED = frozenset({"none", "no", "0", "0 %"})


def read_product(path: Path) -> Product:
    """Return the product of a file, with the ingredients of the file it names, if any.

    InputError, with the line where one can be told, for a file that cannot be read, is not TOML, has unknown or missing
    keys, or a value that cannot be used.
    """
    return product_from_text(toml.read_text(path), path.name, path.parent)


def product_from_text(text: str, name: str, folder: Path) -> Product:
    """Return the product written in ``text``; ``name`` is shown in errors, ``folder`` is where other files must lie."""
    tables = toml.read_toml(text, name)
    lines = toml.lines_by_path(text)
    check_format(tables, lines)
    try:
        file = ProductFile.model_validate(tables)
    except ValidationError as error:
        raise refuse(error, ProductFile, lines) from None
    try:
        product = _product(file, lines, folder)
        check_passage(product)
        return product
    except InputError as error:
        if error.line is None and not error.file:
            error.line = toml.line_of(lines, error.field)
        raise


def check_format(tables: Mapping[str, Any], lines: Mapping[str, int]) -> None:
    """Refuse a file that states no format, or one that this version does not read."""
    if "format" not in tables:
        raise InputError("files.no_format", field="format", line=1)
    if tables["format"] != FORMAT or isinstance(tables["format"], bool):
        line = lines.get("format")
        raise InputError("files.not_format_1", field="format", line=line, read=str(tables["format"]))


def _product(file: ProductFile, lines: Mapping[str, int], folder: Path) -> Product:
    head = file.product
    storage, maker = _classes(head.product_class)
    own: tuple[OwnIngredient, ...] = ()
    if file.ingredients:
        own = read_ingredients(toml.inside(folder, file.ingredients, "ingredients"))
    _refuse_shared_names(file, own)
    parameter.check_overrides(file.model)
    meat = _meat(file.meat)
    return Product(
        name=head.name,
        species=_species(head.species),
        form=choice(head.form, "product.form", _forms()),
        storage=storage,
        maker=maker,
        jurisdiction=head.jurisdiction.strip().lower(),
        pack=choice(head.pack, "product.pack", {item.value: item for item in Pack}),
        target=_target(head),
        meat=meat,
        formula=tuple(_line(line, f"formula[{at}]", lines) for at, line in enumerate(file.formula, start=1)),
        cure_method=_method(file),
        name_class=head.name_class,
        mixtures=MappingProxyType({name: _mixture(name, rows) for name, rows in file.mixture.items()}),
        bags=MappingProxyType({name: _bag(name, bag) for name, bag in file.bag.items()}),
        own_ingredients=own,
        uptake=_uptake(file.uptake, meat),
        piece=piece_from(file.piece),
        house=house_from(file.house, folder),
        schedule=tuple(step_from(step, f"step[{at}]") for at, step in enumerate(file.step, start=1)),
        plan=PlantPlan(
            file.plan.version,
            file.plan.support,
            tuple(OwnLimit(limit.what, str(limit.value), limit.where, limit.how_often) for limit in file.limit),
            humidity_option=_known_option(file.plan.humidity_option),
            wet_bulb_hold=_known_hold(file.plan.wet_bulb_hold),
            as_studied=file.plan.as_studied,
        ),
        racks=tuple(_rack(rack, f"rack[{at}]") for at, rack in enumerate(file.rack, start=1)),
        readings=tuple(_reading(reading, f"reading[{at}]") for at, reading in enumerate(file.reading, start=1)),
        model=MappingProxyType(dict(file.model)),
        scale_division_kg=None if file.scale is None else units.mass(file.scale.division, "scale.division"),
        storage_c=units.temperature_c(head.storage_temperature, "product.storage_temperature"),
    )


def _forms() -> dict[str, Form]:
    forms = {item.value: item for item in Form}
    return {**forms, "whole": Form.WHOLE_MUSCLE, "needle-tenderised": Form.TENDERISED, "tenderized": Form.TENDERISED}


def _species(read: str) -> str:
    found: str = choice(read, "product.species", {name: name for name in sorted(SPECIES)})
    return found


def _classes(read: str | list[str]) -> tuple[Storage, Maker]:
    storages = {item.value: item for item in Storage}
    makers = {item.value: item for item in Maker}
    storage: list[Storage] = []
    maker: list[Maker] = []
    for name in [read] if isinstance(read, str) else read:
        found = choice(name, "product.class", {**storages, **makers})
        (storage if isinstance(found, Storage) else maker).append(found)
    for names in (storage, maker):
        if len(set(names)) > 1:
            raise InputError("files.two_classes", field="product.class", first=names[0], second=names[1])
    return (storage or [Storage.SHELF_STABLE])[0], (maker or [Maker.INSPECTED])[0]


def _target(head: ProductTable) -> AwTarget:
    return AwTarget(
        units.number(units.aw(head.aw_limit, "product.aw_limit"), "product.aw_limit", 0.0, HIGHEST_AW_LIMIT),
        _confidence(head.confidence),
        head.aw_support,
        head.oxygen_evidence,
        head.opening_plan,
    )


def _confidence(read: Typed) -> float:
    value = units.share(read, "product.confidence") if isinstance(read, str) else float(read)
    return round(units.number(value, "product.confidence", 0.5, HIGHEST_CONFIDENCE), CONFIDENCE_DECIMALS)


def _meat(table: MeatTable) -> Meat:
    if table.ingredient and table.per_100g is not None:
        raise InputError("files.meat_two_ways", field="meat")
    if not table.ingredient and table.per_100g is None:
        raise InputError(
            "files.needed", field="meat.ingredient", hint=MeatTable.model_fields["ingredient"].description or ""
        )
    return Meat(
        ingredient=table.ingredient or table.name or "meat",
        raw_kg=maybe(units.mass, table.raw, "meat.raw"),
        per_100g=None if table.per_100g is None else MappingProxyType(dict(table.per_100g)),
        purchased_kg=maybe(units.mass, table.purchased, "meat.purchased"),
        sliced_kg=maybe(units.mass, table.sliced, "meat.sliced"),
    )


def _line(table: LineTable, field: str, lines: Mapping[str, int]) -> Line:
    return Line(
        ingredient=table.ingredient,
        amount=units.amount(table.amount, f"{field}.amount"),
        nitrite_share=maybe(units.nitrite_strength, table.nitrite, f"{field}.nitrite"),
        nitrate_share=maybe(units.nitrite_strength, table.nitrate, f"{field}.nitrate"),
        potassium=table.potassium,
        spoon=table.spoon,
        line=toml.line_of(lines, field),
    )


def _mixture(name: str, rows: Mapping[str, Typed | MixtureLineTable]) -> tuple[MixtureLine, ...]:
    found = []
    for ingredient, row in rows.items():
        field = f"mixture.{name}.{ingredient}"
        table = row if isinstance(row, MixtureLineTable) else MixtureLineTable(share=row)
        found.append(
            MixtureLine(
                ingredient,
                units.share(table.share, field),
                maybe(units.nitrite_strength, table.nitrite, f"{field}.nitrite"),
                maybe(units.nitrite_strength, table.nitrate, f"{field}.nitrate"),
                table.potassium,
            )
        )
    return tuple(found)


def _declared(value: Typed | None, field: str) -> float | None:
    if value is None:
        return None
    return 0.0 if str(value).strip().lower() in NONE_DECLARED else units.nitrite_strength(value, field)


def _bag(name: str, table: BagTable) -> Bag:
    field = f"bag.{name}"
    return Bag(
        name,
        maybe(units.mass, table.weight, f"{field}.weight"),
        maybe(units.mass, table.for_meat, f"{field}.for_meat"),
        _declared(table.nitrite, f"{field}.nitrite"),
        _declared(table.nitrate, f"{field}.nitrate"),
        MappingProxyType(dict(table.per_100g)),
        tuple(table.order),
    )


def _method(file: ProductFile) -> CureMethod | None:
    if file.cure is None:
        return None
    found: CureMethod = choice(file.cure.method, "cure.method", {item.value: item for item in CureMethod})
    return found


def _rack(table: RackTable, field: str) -> Rack:
    tare, loaded = units.mass(table.tare, f"{field}.tare"), maybe(units.mass, table.loaded, f"{field}.loaded")
    if loaded is not None and loaded <= tare:
        read, empty = units.show_mass(loaded), units.show_mass(tare)
        raise InputError("files.rack_below_tare", field=f"{field}.loaded", read=read, tare=empty)
    return Rack(table.name, tare, loaded, table.marked)


def _of_raw(read: Typed, field: str, meat: Meat) -> float:
    """A pickup or marinated weight as share of raw: a weight over the file's raw; other bases are refused."""
    amount = units.amount(read, field)
    if amount.agent or amount.bags or amount.basis not in (Basis.RAW, Basis.ABSOLUTE):
        raise InputError("files.uptake_basis", field=field, read=str(read))
    if amount.basis is Basis.RAW:
        return amount.value
    if meat.raw_kg is None:
        raise InputError("files.marinated_needs_raw", field=field)
    return amount.value / meat.raw_kg


def _uptake(table: UptakeTable, meat: Meat) -> Uptake:
    given = [name for name in ("marinated", "pickup", "taken_up") if getattr(table, name) is not None]
    if len(given) > 1:
        raise InputError("files.two_uptakes", field=f"uptake.{given[1]}", first=given[0], second=given[1])
    marinated = None if table.marinated is None else _of_raw(table.marinated, "uptake.marinated", meat)
    return Uptake(
        marinated_share=marinated,
        pickup_share=None if table.pickup is None else _of_raw(table.pickup, "uptake.pickup", meat),
        taken_share=maybe(units.share, table.taken_up, "uptake.taken_up"),
        how=table.how,
        time_s=maybe(units.duration_s, table.time, "uptake.time"),
        temperature_c=maybe(units.temperature_c, table.temperature, "uptake.temperature"),
        equalised=table.equalised,
    )


def _reading(table: ReadingTable, field: str) -> LotReading:
    values = table.aw if isinstance(table.aw, list) else [table.aw]
    return LotReading(
        table.lot,
        units.mass(table.raw, f"{field}.raw"),
        units.mass(table.out, f"{field}.out"),
        tuple(units.aw(value, f"{field}.aw") for value in values),
        table.standard_checked,
        table.observed,
        table.same_humectants,
    )


def _refuse_shared_names(file: ProductFile, own: tuple[OwnIngredient, ...]) -> None:
    kinds: dict[str, str] = {}
    for kind, names in (
        ("mixture", file.mixture),
        ("bag", file.bag),
        ("ingredient", [ingredient.name for ingredient in own]),
    ):
        for name in names:
            if name in kinds:
                raise InputError("files.name_twice", field=f"{kind}.{name}", name=name, first=kinds[name], second=kind)
            kinds[name] = kind


def _known_option(named: str) -> str:
    """Return the option as it was named, once it is one we know."""
    return option(named).label if named else ""


def _known_hold(named: str) -> str:
    """Return the hold as it was named, once it reads as one."""
    if named:
        named_hold(named)
    return named
