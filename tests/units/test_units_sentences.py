"""Every entry that cannot be used gets one sentence: the field, what was read, and three forms that would do."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest

from pellicle import units
from pellicle.errors import InputError
from pellicle.message import templates

FIELD = "formula[2].amount"
number = partial(units.number, low=0, high=40)
count = partial(units.count, low=0, high=40)

REFUSED: list[tuple[Callable[..., Any], Any, str, str]] = [
    # what reads it, what was typed, the sentence's id, words that must stand in it
    (units.mass, "", "empty", "is empty"),
    (units.mass, True, "not_text", "`True`, which is neither text nor a number"),
    (units.mass, ["1 kg"], "not_text", "neither text nor a number"),
    (units.mass, "abc", "unreadable", "`abc`, which is not a number followed by a unit"),
    (units.mass, "lb 25", "unreadable", "not a number followed by a unit"),
    (units.mass, "5-6 lb", "unreadable", "not a number followed by a unit"),
    (units.mass, "1 500 g", "unreadable", "not a number followed by a unit"),
    (units.mass, "2 lb.5 oz", "unreadable", "not a number followed by a unit"),
    (units.mass, 25, "no_unit", "`25`, a number without a unit"),
    (units.mass, "25", "no_unit", "`25`, a number without a unit"),
    (units.mass, "25 stones", "unknown_unit", "`stones` is not a unit known here"),
    (units.mass, "25 {x}", "unknown_unit", "`{x}` is not a unit known here"),
    (units.mass, "25 mm", "other_kind", "`mm` does not measure what is asked for"),
    (units.mass, "2 fl oz", "other_kind", "`fl oz` does not measure"),
    (units.mass, "5 Mg", "ambiguous_unit", "`Mg` can mean more than one unit"),
    (units.mass, "2 tons", "ambiguous_unit", "`2000 lb`, `2240 lb` or `1 t`"),
    (units.mass, "2 T", "ambiguous_unit", "`T` can mean more than one unit"),
    (units.mass, "5 gr", "ambiguous_unit", "`gr` can mean more than one unit"),
    (units.mass, "1/0 lb", "not_a_number", "`1/0` is not a number"),
    (units.mass, "1 3/2 lb", "not_a_number", "`1 3/2` is not a number"),
    (units.mass, "2..5 lb", "not_a_number", "`2..5` is not a number"),
    (units.mass, "1.500,5 g", "not_a_number", "`1.500,5` is not a number"),
    (units.mass, "9" * 5000 + "/7 lb", "not_a_number", "is not a number"),
    (units.mass, "nan kg", "not_finite", "`nan kg`, which is no finite number"),
    (units.mass, float("inf"), "not_finite", "`inf`, which is no finite number"),
    (units.mass, 10**5000, "not_finite", "`1.0e+5000`, which is no finite number"),
    (units.mass, "1e999 kg", "not_finite", "no finite number"),
    (units.mass, "1,500 g", "ambiguous_comma", "`1500 g` if it separates thousands, `1.500 g` if it is a decimal"),
    (units.mass, "1,500,000 g", "thousands", "Write `1500000 g`"),
    (units.mass, "1,500.5 g", "thousands", "Write `1500.5 g`"),
    (units.mass, "3 oz 2 lb", "parts", "the largest first"),
    (units.mass, "2 lb 300 g", "parts", "units must come from one system"),
    (units.mass, "2 lb 19 oz", "part_too_big", "as large as one of the unit before it"),
    (units.mass, "-3 kg", "negative", "nothing below zero makes sense"),
    (units.mass, "−1/2 lb 15 oz", "negative", "nothing below zero makes sense"),
    (units.mass, "0 kg", "zero", "`0 kg`, which is nothing"),
    (units.mass, "0.0001 mg", "too_small", "less than the 0.001 mg"),
    (units.mass, "1e9 kg", "too_large", "more than the 1000 t"),
    (units.temperature_c, 160, "no_unit", "`160 F`, `71 C` or `71.1 °C`"),
    (units.temperature_c, "160", "no_unit", "a number without a unit"),
    (units.temperature_c, "500 C", "too_large", "more than the 400 °C"),
    (units.temperature_c, "-90 F", "too_small", "less than the -60 °C"),
    (units.temperature_c, "160 F 3 F", "parts", "do not go together"),
    (units.length_m, "3 m", "too_large", "more than the 2 m"),
    (units.length_m, "0 mm", "zero", "which is nothing"),
    (units.duration_s, "1 h 75 min", "part_too_big", "as large as one of the unit before it"),
    (units.duration_s, "400 d", "too_large", "more than the 365 d"),
    (units.duration_s, "1:20", "unreadable", "not a number followed by a unit"),
    (units.volume_m3, "5 oz", "other_kind", "`oz` does not measure"),
    (units.volume_m3, "1e6 l", "too_large", "more than the 100 m³"),
    (units.density_kg_m3, "1e9 kg/m3", "out_of_range", "allowed is from 20 kg/m3 to 5000 kg/m3"),
    (units.density_kg_m3, "9 %", "other_kind", "`9 %` does not measure"),
    (units.share, 0.09, "fraction_for_percent", "If so write `9 %`"),
    (units.share, "9", "no_unit", "`9 %`, `9 g/kg` or `9 ppm`"),
    (units.share, -1, "negative", "nothing below zero makes sense"),
    (units.share, "-3 %", "negative", "nothing below zero makes sense"),
    (units.share, "120 %", "too_large", "more than the 100 %"),
    (units.share, "3 kg", "other_kind", "`kg` does not measure"),
    (units.share, "4 oz/0 lb", "zero", "which is nothing"),
    (units.room_m3, "0 m3", "zero", "`12 m3`, `0.25 m3` or `60 l`"),
    (units.share, "1,500 ppm", "ambiguous_comma", "`1500 ppm` if it separates thousands"),
    (units.nitrite_strength, 6.25, "strength_without_percent", "cannot be told whether it is a per cent or a fraction"),
    (units.nitrite_strength, 0.0625, "strength_without_percent", "for example `6.25 %`"),
    (units.nitrite_strength, float("nan"), "not_finite", "no finite number"),
    (units.nitrite_strength, 10**5000, "not_finite", "no finite number"),
    (units.nitrite_strength, "101 %", "out_of_range", "from 0 % to 100 %"),
    (units.nitrite_strength, "-1 %", "out_of_range", "from 0 % to 100 %"),
    (units.percent, "6 g/kg", "unknown_unit", "Write for example `35 %`"),
    (units.percent, 35, "no_unit", "`35 %`"),
    (units.percent, "120 %", "too_large", "more than the 100 %"),
    (count, "1.5", "not_whole", "not a whole number"),
    (units.aw, "85 %", "aw_percent", "Write `0.85` if that is meant"),
    (units.aw, 85, "aw_percent", "Write `0.85` if that is meant"),
    (units.aw, 0, "aw_range", "above 0 and at most 1"),
    (units.aw, 1.2, "aw_range", "above 0 and at most 1"),
    (units.aw, "wet", "not_a_number", "`wet` is not a number"),
    (units.aw, float("nan"), "not_finite", "no finite number"),
    (number, 41, "out_of_range", "allowed is from 0 to 40"),
    (number, "x", "not_a_number", "`x` is not a number"),
    (number, -(10**400), "not_finite", "no finite number"),
    (units.amount, 0.09, "fraction_for_percent", "If so write `9 % of raw`"),
    (units.amount, 9, "no_basis", "`9 % of raw`, `9 g/kg` or `9 kg`"),
    (units.amount, "9", "no_basis", "does not say what it is a share of"),
    (units.amount, "9 % of sugar", "unknown_basis", "`sugar` is not a basis known here"),
    (units.amount, "150 ppm of nitrite", "unknown_basis", "`nitrite` is not a basis known here"),
    (units.amount, "4 oz of raw", "weight_of_basis", "a weight, which is not a share"),
    (units.amount, "-9 %", "negative", "nothing below zero makes sense"),
    (units.amount, -9, "negative", "nothing below zero makes sense"),
    (units.amount, "0 %", "zero_amount", "Leave the line out"),
    (units.amount, "0.000001 %", "too_small", "less than the 0.1 ppm"),
    (units.amount, "900 %", "too_large", "more than the 300 % of raw"),
    (units.amount, "100 % of total", "whole_or_more", "is below 100 %"),
    (units.amount, "120 % of solution", "whole_or_more", "is below 100 %"),
    (units.amount, "2 tsp", "volume", "Weigh it"),
    (units.amount, "2 gal per 100 lb", "volume", "Weigh it"),
    (units.amount, "1 bag per 25 lb of total", "bag_basis", "bags are counted per weight of raw meat"),
    (units.amount, "2 bags of raw", "bag_basis", "or simply counted"),
    (units.amount, "5000 bags", "too_many_bags", "more bags than the 1000"),
    (units.amount, "-2 bags", "negative", "nothing below zero makes sense"),
    (units.amount, "0 bags", "zero", "which is nothing"),
    (units.amount, "two bags", "unreadable", "not a number followed by a unit"),
    (units.amount, "1 oz nitrite", "agent_weight", "a weight of pure nitrite or nitrate"),
    (units.amount, "6.25 % nitrite", "agent_too_large", "more than the 10000 ppm"),
    (units.amount, "nitrite", "unreadable", "not a number followed by a unit"),
    (units.amount, "4 oz per 100", "no_unit", "a number without a unit"),
    (units.amount, float("nan"), "not_finite", "no finite number"),
]


def name(case: object) -> str:
    return repr(case)[:20] if isinstance(case, str | float | int) and not isinstance(case, int) else ""


@pytest.mark.parametrize(("read", "entry", "id", "words"), REFUSED, ids=name)
def test_a_refusal_names_the_field_what_was_read_and_three_forms(
    read: Callable[..., Any], entry: Any, id: str, words: str
) -> None:
    with pytest.raises(InputError) as refused:
        read(entry, FIELD)
    sentence = str(refused.value)
    assert refused.value.message.id == f"units.{id}"
    assert refused.value.field == FIELD
    assert sentence.startswith(FIELD)
    assert words in sentence
    assert len(set(forms_in(sentence, id))) == 3


@pytest.mark.parametrize(("read", "entry", "id", "words"), REFUSED, ids=name)
def test_the_forms_a_refusal_offers_are_not_refused(read: Callable[..., Any], entry: Any, id: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        read(entry, FIELD)
    for form in forms_in(str(refused.value), id):
        read(form, FIELD)


def test_every_sentence_of_the_page_is_tested() -> None:
    page = {id.removeprefix("units.") for id in templates() if id.startswith("units.")}
    assert page == {id for _, _, id, _ in REFUSED}


def test_a_long_entry_is_cut_short_in_its_sentence() -> None:
    with pytest.raises(InputError, match="…`") as refused:
        units.mass("x" * 1_000_000, "meat.raw")
    assert len(str(refused.value)) < 300


def test_without_a_field_the_sentence_still_says_what_was_read() -> None:
    with pytest.raises(InputError, match="The entry reads `25`"):
        units.mass("25", "")


def forms_in(sentence: str, id: str) -> list[str]:
    """Return the three forms, the last of what stands between quotes."""
    return re.findall(r'"([^"]+)"' if id == "not_text" else r"`([^`]+)`", sentence)[-3:]
