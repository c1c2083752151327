"""Weights, temperatures, lengths, times, volumes, shares and plain numbers as people type them, turned into SI."""

from __future__ import annotations

from pellicle.errors import InputError
from pellicle.units.kinds import (
    DENSITY_FORMS,
    DENSITY_LEAST_KG_M3,
    DENSITY_MOST_KG_M3,
    DURATION,
    LENGTH,
    MASS,
    PART,
    PERCENT,
    ROOM,
    SHARE,
    TEMPERATURE,
    VOLUME,
)
from pellicle.units.reading import Entry, Forms, bare_number, entry_text, is_bare_number, measure, quantity, refusal
from pellicle.units.shares import share_of, split_per

STRENGTH_FORMS = ("6.25 %", "0.6 %", "62.5 g/kg")
LEAST_PERCENT = 10.0  # own choice: a bare aw from here to 100 was meant in per cent, one nearer 1 is a slip
AW_FORMS = ("0.85", "0.80", "0.915")


def mass(value: Entry, field: str, *, zero: bool = False) -> float:
    """Return a weight in kg, from 0.001 mg to 1000 t; ``zero`` allows ``0 kg``. InputError otherwise.

    >>> mass("25 lb", "--raw"), mass("1,5 kg", "--raw"), mass("0 kg", "--protein", zero=True)
    (11.33980925, 1.5, 0.0)
    """
    return quantity(value, field, MASS, zero=zero)


def temperature_c(value: Entry, field: str) -> float:
    """Return a temperature in degC, from -60 to 400. InputError otherwise.

    >>> round(temperature_c("160 F", "step[1].dry_bulb"), 3), temperature_c("71 °C", "")
    (71.111, 71.0)
    """
    return quantity(value, field, TEMPERATURE)


def length_m(value: Entry, field: str) -> float:
    """Return a length in m, from 0.01 mm to 2 m. InputError otherwise.

    >>> length_m("1/4 in", "piece.thickness"), length_m("6.4 mm", "")
    (0.00635, 0.0064)
    """
    return quantity(value, field, LENGTH)


def duration_s(value: Entry, field: str, *, zero: bool = False) -> float:
    """Return a duration in s, from 1 s to 365 d; ``zero`` allows ``0 min``. InputError otherwise.

    >>> duration_s("1 h 20 min", "step[1].for")
    4800.0
    """
    return quantity(value, field, DURATION, zero=zero)


def volume_m3(value: Entry, field: str) -> float:
    """Return a volume in m3, from 0.01 ml to 100 m3. InputError otherwise.

    >>> round(volume_m3("2 gal", "--water") * 1000, 6), round(volume_m3("1 imp gal", "") * 1000, 6)
    (7.570824, 4.54609)
    """
    return quantity(value, field, VOLUME)


def room_m3(value: Entry, field: str) -> float:
    """Return the volume of a house in m3, as ``volume_m3`` does. InputError otherwise.

    >>> room_m3("12 m3", "house.volume"), room_m3("60 l", "")
    (12.0, 0.06)
    """
    return quantity(value, field, ROOM)


def density_kg_m3(value: Entry, field: str) -> float:
    """Return a density in kg/m3, from 20 to 5000: ``1.2 g/ml``, ``1200 kg/m3``, ``10 lb/gal``. InputError otherwise.

    >>> round(density_kg_m3("1.2 g/ml", "density"), 6)
    1200.0
    """
    text = entry_text(value, field, DENSITY_FORMS)
    part, whole = split_per(text)
    if not whole:
        raise refusal("other_kind", field, text, DENSITY_FORMS, unit=text)
    kg = measure(part, text, field, MASS, DENSITY_FORMS)
    counted = whole if whole[0].isdigit() else f"1 {whole}"
    m3 = measure(counted, text, field, VOLUME, DENSITY_FORMS)
    if kg <= 0 or m3 <= 0 or not DENSITY_LEAST_KG_M3 <= kg / m3 <= DENSITY_MOST_KG_M3:
        raise refusal("out_of_range", field, text, DENSITY_FORMS, low="20 kg/m3", high="5000 kg/m3")
    return kg / m3


def share(value: Entry, field: str, *, most: float = 1.0) -> float:
    """Return a share in kg/kg, from 0 to ``most``: ``18 %``, ``150 ppm``, ``6 g/kg``, ``2.9 oz/lb``. InputError if not.

    >>> share("18 %", "--pickup"), round(share("150 ppm", ""), 9), share("2.9 oz/lb", "")
    (0.18, 0.00015, 0.18125)
    """
    if is_bare_number(value):
        raise _fraction_or_percent(value, field, SHARE.forms)
    text = entry_text(value, field, SHARE.forms)
    return _up_to(most, share_of(text, text, field, SHARE.forms), text, field, SHARE.forms)


def percent(value: Entry, field: str, *, most: float = 1.0) -> float:
    """Return a part of a whole that is no weight, such as a humidity or how far a damper is open, from 0 to ``most``:
    in per cent and nothing else, because 6 g/kg of a humidity is another quantity. InputError otherwise.

    >>> percent("35 %", "--humidity")
    0.35
    """
    if is_bare_number(value):
        raise _fraction_or_percent(value, field, PART.forms)
    text = entry_text(value, field, PART.forms)
    return _up_to(most, measure(text, text, field, PART, PART.forms), text, field, PART.forms)


def nitrite_strength(value: Entry, field: str) -> float:
    """Return the strength of a cure (kg/kg) as its label states it, in per cent. InputError for a bare number.

    >>> nitrite_strength("6.25 %", "formula[3].nitrite")
    0.0625
    """
    if is_bare_number(value):
        read, _ = bare_number(value, field, STRENGTH_FORMS)
        raise refusal("strength_without_percent", field, read, STRENGTH_FORMS)
    text = entry_text(value, field, STRENGTH_FORMS)
    found = share_of(text, text, field, STRENGTH_FORMS)
    if not 0 <= found <= 1:
        raise refusal("out_of_range", field, text, STRENGTH_FORMS, low="0 %", high="100 %")
    return found


def aw(value: Entry, field: str) -> float:
    """Return a water activity, above 0 and at most 1. InputError otherwise; ``85 %`` is refused with its hint.

    >>> aw(0.85, "product.aw_limit"), aw("0.85", "--aw")
    (0.85, 0.85)
    """
    if isinstance(value, str) and value.strip().endswith(("%", "٪")):
        read = entry_text(value, field, AW_FORMS)
        found = share_of(read, read, field, AW_FORMS)
        raise refusal("aw_percent", field, read, (f"{found:.6g}", *AW_FORMS[1:]))
    read, found = _number(value, field, AW_FORMS)
    if LEAST_PERCENT <= found <= 1 / PERCENT:
        raise refusal("aw_percent", field, read, (f"{found * PERCENT:.6g}", *AW_FORMS[1:]))
    if not 0 < found <= 1:
        raise refusal("aw_range", field, read, AW_FORMS)
    return found


def number(value: Entry, field: str, low: float, high: float) -> float:
    """Return a number without a unit, from ``low`` to ``high`` inclusive. InputError otherwise.

    >>> number(3, "house.racks", 1, 40), number("0.5", "house.leak", 0, 1)
    (3.0, 0.5)
    """
    forms = (f"{low:.6g}", f"{(low + high) / 2:.6g}", f"{high:.6g}")
    read, found = _number(value, field, forms)
    if not low <= found <= high:
        raise refusal("out_of_range", field, read, forms, low=forms[0], high=forms[2])
    return found


def count(value: Entry, field: str, low: int, high: int) -> int:
    """Return a whole number from ``low`` to ``high`` inclusive. InputError otherwise.

    >>> count("200", "--pieces", 0, 20000)
    200
    """
    found = number(value, field, low, high)
    if not found.is_integer():
        raise refusal("not_whole", field, str(value), (f"{low}", f"{(low + high) // 2}", f"{high}"))
    return int(found)


def _up_to(most: float, found: float, read: str, field: str, forms: Forms) -> float:
    """Return a share that is neither below zero nor above ``most``."""
    if found < 0:
        raise refusal("negative", field, read, forms)
    if found > most:
        raise refusal("too_large", field, read, forms, limit=f"{most / PERCENT:.6g} %")
    return found


def _fraction_or_percent(value: Entry, field: str, forms: Forms) -> InputError:
    """Return the refusal of a bare share, with the per cent it may stand for."""
    read, number = bare_number(value, field, forms)
    if number < 0:
        return refusal("negative", field, read, forms)
    if 0 < number < 1:
        return refusal("fraction_for_percent", field, read, (f"{number / PERCENT:.6g} %", f"{number:.6g} %", forms[1]))
    others = (f"{number:.6g} g/kg", f"{number:.6g} ppm") if forms is SHARE.forms else forms[1:]
    return refusal("no_unit", field, read, (f"{number:.6g} %", *others))


def _number(value: Entry, field: str, forms: Forms) -> tuple[str, float]:
    """Return what was read and its value, for entries that take no unit."""
    if is_bare_number(value):
        return bare_number(value, field, forms)
    text = entry_text(value, field, forms)
    raise refusal("not_a_number", field, text, forms, part=text)
