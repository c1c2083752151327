"""SI turned into what people read: weights, temperatures, lengths and times in metric and in US units, shares."""

from __future__ import annotations

import math
import re
from typing import Literal

from pellicle.units.kinds import (
    DAY_S,
    FAHRENHEIT_ICE_POINT,
    FAHRENHEIT_STEP_C,
    GRAM_KG,
    HOUR_S,
    INCH_M,
    MILLIMETRE_M,
    MINUTE_S,
    OUNCE_KG,
    PERCENT,
    POUND_KG,
    PPM,
)

System = Literal["metric", "us"]

NBSP = "\u00a0"

# How finely figures are printed where no scale says so: our own choice.
DIGITS = 3  # significant digits of a weight: a part in a thousand of most, a part in a hundred at worst
FEWEST_DECIMALS_BELOW = 1000.0  # kg or lb: below this a weight keeps at least one decimal
MOST_DECIMALS = 6
CLEAN = 1e-9  # relative: how near a decimal number a scale division must be to be printed as one
SECONDS_SHOWN_BELOW_S = 10 * MINUTE_S
DAYS_SHOWN_FROM_S = 2 * DAY_S


def show_mass(kg: float, system: System = "metric", division_kg: float | None = None) -> str:
    """Return a weight as read from a scale: g below 1 kg, oz below 1 lb; ValueError if it is not finite.

    ``division_kg`` is the scale's smallest step: the weight is rounded to it and carries its decimals. Without it a
    weight carries three significant digits, and from ten kg or lb one decimal.

    >>> show_mass(84.02), show_mass(84.02, "us"), show_mass(0.00568), show_mass(0.113398, "us")
    ('84.0 kg', '185.2 lb', '5.68 g', '4.00 oz')
    >>> show_mass(12.3456, division_kg=0.005), show_mass(0.0123, division_kg=0.005)
    ('12.345 kg', '10 g')
    """
    _refuse_not_finite(kg)
    rounded = round(kg / division_kg) * division_kg if division_kg else kg
    large, small = (("kg", 1.0), ("g", GRAM_KG)) if system == "metric" else (("lb", POUND_KG), ("oz", OUNCE_KG))
    text = _weight(rounded, *large, division_kg)
    return text if abs(_leading(text)) >= 1 else _weight(rounded, *small, division_kg)


def both(kg: float, division_kg: float | None = None) -> str:
    """Return a weight in metric and US units side by side.

    >>> both(84.02)
    '84.0 kg / 185.2 lb'
    """
    return f"{show_mass(kg, 'metric', division_kg)} / {show_mass(kg, 'us', division_kg)}"


def show_temperature(c: float, system: System = "metric", digits: int = 0) -> str:
    """Return a temperature (degC) in degC or degF.

    >>> show_temperature(71.1), show_temperature(71.1, "us"), show_temperature(-1.94, digits=1)
    ('71 °C', '160 °F', '-1.9 °C')
    """
    value, unit = (c, "°C") if system == "metric" else (c / FAHRENHEIT_STEP_C + FAHRENHEIT_ICE_POINT, "°F")
    return f"{_fixed(value, digits)} {unit}"


def both_temperatures(c: float, digits: int = 0) -> str:
    """Return a temperature in degC and degF side by side.

    >>> both_temperatures(71.1)
    '71 °C / 160 °F'
    """
    return f"{show_temperature(c, 'metric', digits)} / {show_temperature(c, 'us', digits)}"


def show_length(m: float, system: System = "metric", digits: int | None = None) -> str:
    """Return a length in mm with one decimal, or in inches with two, unless ``digits`` says otherwise.

    >>> show_length(0.00635, digits=2), show_length(0.00635, "us"), show_length(0.0064)
    ('6.35 mm', '0.25 in', '6.4 mm')
    """
    if system == "metric":
        return f"{_fixed(m / MILLIMETRE_M, 1 if digits is None else digits)} mm"
    return f"{_fixed(m / INCH_M, 2 if digits is None else digits)} in"


def show_duration(s: float) -> str:
    """Return a duration in days, hours and minutes; seconds below ten minutes, days from two.

    >>> show_duration(21000), show_duration(80), show_duration(3599), show_duration(183600)
    ('5 h 50 min', '1 min 20 s', '1 h', '2 d 3 h')
    """
    _refuse_not_finite(s)
    step = 1.0 if abs(s) < SECONDS_SHOWN_BELOW_S else MINUTE_S
    left = round(abs(s) / step) * step
    units = ((DAY_S, "d"), (HOUR_S, "h"), (MINUTE_S, "min"), (1.0, "s"))
    shown = []
    for size, name in units if left >= DAYS_SHOWN_FROM_S else units[1:]:
        count, left = divmod(left, size)
        shown += [f"{count:.0f} {name}"] if count else []
    return ("-" if s < 0 and shown else "") + (" ".join(shown) or "0 s")


def show_percent(share: float, digits: int = 1) -> str:
    """Return a share (kg/kg) in per cent.

    >>> show_percent(0.46), show_percent(0.0025, 2)
    ('46.0 %', '0.25 %')
    """
    return f"{_fixed(share / PERCENT, digits)} %"


def show_ppm(share: float, digits: int = 0) -> str:
    """Return a share (kg/kg) in ppm.

    >>> show_ppm(156.25e-6), show_ppm(156.25e-6, 2)
    ('156 ppm', '156.25 ppm')
    """
    return f"{_fixed(share / PPM, digits)} ppm"


def unbroken(text: str) -> str:
    """Return ``text`` with a space that does not break between every number and what it counts, for paper and screens.

    >>> unbroken("84.0 kg / 185.2 lb") == f"84.0{NBSP}kg / 185.2{NBSP}lb"
    True
    """
    return re.sub(r"(?<=[0-9]) (?=[^\W0-9]|[%°‰])", NBSP, text)


def _weight(kg: float, unit: str, unit_kg: float, division_kg: float | None) -> str:
    value = kg / unit_kg
    decimals = _decimals_of_division(division_kg / unit_kg) if division_kg else _decimals_of_size(value, unit)
    return f"{_fixed(value, decimals)} {unit}"


def _decimals_of_size(value: float, unit: str) -> int:
    """Return the decimals that give three significant digits; large weights keep one."""
    if value == 0:
        return 0
    order = math.floor(math.log10(float(f"{abs(value):.{DIGITS - 1}e}")))
    fewest = 1 if unit in ("kg", "lb") and abs(value) < FEWEST_DECIMALS_BELOW else 0
    return min(MOST_DECIMALS, max(DIGITS - 1 - order, fewest))


def _decimals_of_division(division: float) -> int:
    """Return the decimals a scale of this division shows in this unit: exact where the division is a decimal number."""
    for decimals in range(MOST_DECIMALS + 1):
        steps = division * 10**decimals
        if round(steps) and abs(steps - round(steps)) <= CLEAN * steps:
            return decimals
    return min(MOST_DECIMALS, max(0, math.ceil(-math.log10(division))))


def _leading(text: str) -> float:
    return float(text.split()[0])


def _fixed(value: float, decimals: int) -> str:
    """Return ``value`` with its decimals, and no minus before a zero."""
    _refuse_not_finite(value)
    text = f"{value:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0 else text


def _refuse_not_finite(value: float) -> None:
    if not math.isfinite(value):
        raise ValueError(f"cannot print {value}: what is not known must be told apart before it is printed")
