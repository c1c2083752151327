"""An independent table of units gives the same conversions, to a part in a thousand million."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pellicle.units.kinds import KINDS, Kind
from pellicle.units.reading import measure

ORACLE = pint.UnitRegistry()

# our spelling: the oracle's name
SAME = {
    "mass": {
        "t": "metric_ton",
        "kg": "kilogram",
        "g": "gram",
        "mg": "milligram",
        "cwt": "US_hundredweight",
        "lb": "pound",
        "oz": "ounce",
    },
    "length": {"m": "meter", "cm": "centimeter", "mm": "millimeter", "um": "micrometer", "ft": "foot", "in": "inch"},
    "duration": {"d": "day", "h": "hour", "min": "minute", "s": "second"},
    "volume": {
        "m³": "meter**3",
        "l": "liter",
        "ml": "milliliter",
        "gal": "gallon",
        "qt": "quart",
        "pt": "pint",
        "cup": "cup",
        "fl oz": "fluid_ounce",
        "tbsp": "tablespoon",
        "tsp": "teaspoon",
        "imp gal": "imperial_gallon",
        "imp qt": "imperial_quart",
        "imp pt": "imperial_pint",
        "imp fl oz": "imperial_fluid_ounce",
    },
    "share": {"%": "percent", "‰": "permille", "ppm": "ppm"},
    "temperature": {"c": "degC", "f": "degF", "k": "kelvin"},
    "altitude": {"m": "meter", "km": "kilometer", "ft": "foot"},
    "pressure": {"pa": "pascal", "hpa": "hectopascal", "kpa": "kilopascal", "bar": "bar"},
    "temperature step": {"k": "delta_degC", "f": "delta_degF"},
}
SI = {
    "mass": "kilogram",
    "length": "meter",
    "duration": "second",
    "volume": "meter**3",
    "share": "dimensionless",
    "temperature": "degC",
    "altitude": "meter",
    "pressure": "pascal",
    "temperature step": "delta_degC",
}
PAIRS = [(kind, ours, theirs) for kind in KINDS for ours, theirs in SAME[kind.name].items()]


@pytest.mark.parametrize(("kind", "ours", "theirs"), PAIRS, ids=[ours for _, ours, _ in PAIRS])
@given(number=st.floats(min_value=1e-3, max_value=1e6).map(lambda value: float(f"{value:.7g}")))
def test_a_unit_converts_as_the_oracle_does(kind: Kind, ours: str, theirs: str, number: float) -> None:
    text = f"{number!r} {ours}"
    expected = ORACLE.Quantity(number, theirs).to(SI[kind.name]).magnitude
    # near the zero of a scale only the absolute difference has a meaning
    assert measure(text, text, "x", kind, kind.forms) == pytest.approx(expected, rel=1e-9, abs=1e-9 * kind.signed)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_no_unit_is_left_unchecked(kind: Kind) -> None:
    checked = {kind.units[ours] for ours in SAME[kind.name]}
    assert set(kind.units.values()) == checked
