"""What can be measured and in which units: exact factors, spellings, and the limits beyond which an entry is a slip."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: SI value = (number - ``zero``) * ``factor``. Units of one ``chain`` may follow one
    another: ``2 lb 3 oz``. ``source`` is a key of ``sources.toml``."""

    factor: float
    source: str
    chain: str = ""
    zero: float = 0.0


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its units by lower-case spelling, the least and the most that make sense (SI and as printed),
    and three forms in which it can be written, for the sentences that refuse something."""

    name: str
    units: Mapping[str, Unit]
    least: float
    most: float
    least_text: str
    most_text: str
    forms: tuple[str, str, str]
    signed: bool = False


POUND_AND_YARD = "international-pound-yard"
SI = "si-units"
US_MEASURE = "us-liquid-measure"
UK_GALLON = "uk-gallon"

# Exact by definition; the source of each stands beside its unit below.
POUND_KG = 0.45359237
OUNCE_KG = POUND_KG / 16
HUNDREDWEIGHT_KG = POUND_KG * 100  # the short hundredweight of the meat trade
GRAM_KG = 1e-3
MILLIGRAM_KG = 1e-6
TONNE_KG = 1e3
INCH_M = 0.0254
FOOT_M = INCH_M * 12
MILLIMETRE_M = 1e-3
CENTIMETRE_M = 1e-2
MICROMETRE_M = 1e-6
KILOMETRE_M = 1e3
HECTOPASCAL_PA = 1e2
KILOPASCAL_PA = 1e3
BAR_PA = 1e5
BTU_J = 1055.056  # the British thermal unit of ISO 31-4; other definitions differ by less than a part in a thousand
US_GALLON_M3 = 231 * INCH_M**3  # 231 cubic inches
US_QUART_M3 = US_GALLON_M3 / 4
US_PINT_M3 = US_GALLON_M3 / 8
US_CUP_M3 = US_GALLON_M3 / 16
US_FLUID_OUNCE_M3 = US_GALLON_M3 / 128
US_TABLESPOON_M3 = US_FLUID_OUNCE_M3 / 2
US_TEASPOON_M3 = US_FLUID_OUNCE_M3 / 6
IMPERIAL_GALLON_M3 = 4.54609e-3
IMPERIAL_QUART_M3 = IMPERIAL_GALLON_M3 / 4
IMPERIAL_PINT_M3 = IMPERIAL_GALLON_M3 / 8
IMPERIAL_FLUID_OUNCE_M3 = IMPERIAL_GALLON_M3 / 160
LITRE_M3 = 1e-3
MILLILITRE_M3 = 1e-6
MINUTE_S = 60.0
HOUR_S = 3600.0
DAY_S = 86400.0
ICE_POINT_K = 273.15  # the zero of the Celsius scale
FAHRENHEIT_ICE_POINT = 32.0  # F = 9/5 C + 32
FAHRENHEIT_STEP_C = 5 / 9
PERCENT = 1e-2
PERMILLE = 1e-3
PPM = 1e-6

# Limits of sense, our own choice: far outside anything weighed, cut or timed in this trade, so beyond is a slip.
MASS_LEAST_KG, MASS_MOST_KG = 1e-9, 1e6
TEMPERATURE_LEAST_C, TEMPERATURE_MOST_C = -60.0, 400.0
LENGTH_LEAST_M, LENGTH_MOST_M = 1e-5, 2.0
DURATION_LEAST_S, DURATION_MOST_S = 1.0, 365 * DAY_S
VOLUME_LEAST_M3, VOLUME_MOST_M3 = 1e-8, 100.0
ALTITUDE_LEAST_M, ALTITUDE_MOST_M = -430.0, 5000.0  # the lowest shore; above the highest towns
PRESSURE_LEAST_PA, PRESSURE_MOST_PA = 50e3, 110e3
TEMPERATURE_STEP_MOST_K = 30.0
SPEED_MOST_M_S = 30.0
FLOW_MOST_KG_S = 30.0
FILM_MOST_W_M2K = 500.0
RAMP_MOST_K_S = 5.0
DENSITY_LEAST_KG_M3, DENSITY_MOST_KG_M3 = 20.0, 5000.0


def _named(rows: Mapping[str, Unit]) -> Mapping[str, Unit]:
    """Return each unit under each of the spellings its row lists, separated by ``|``."""
    return MappingProxyType({spelling: unit for row, unit in rows.items() for spelling in row.split("|")})


MASS = Kind(
    "mass",
    _named(
        {
            "t|tonne|tonnes": Unit(TONNE_KG, SI, "metric"),
            "kg|kgs|kilo|kilos|kilogram|kilograms": Unit(1.0, SI, "metric"),
            "g|gram|grams": Unit(GRAM_KG, SI, "metric"),
            "mg|milligram|milligrams": Unit(MILLIGRAM_KG, SI, "metric"),
            "cwt": Unit(HUNDREDWEIGHT_KG, US_MEASURE, "pound"),
            "lb|lbs|#|pound|pounds": Unit(POUND_KG, POUND_AND_YARD, "pound"),
            "oz|ounce|ounces": Unit(OUNCE_KG, POUND_AND_YARD, "pound"),
        }
    ),
    MASS_LEAST_KG,
    MASS_MOST_KG,
    "0.001 mg",
    "1000 t",
    ("25 lb", "2 lb 3 oz", "1.5 kg"),
)
TEMPERATURE = Kind(
    "temperature",
    _named(
        {
            "c|°c|deg c|degc|degrees c|celsius|degrees celsius": Unit(1.0, SI),
            "f|°f|deg f|degf|degrees f|fahrenheit|degrees fahrenheit": Unit(
                FAHRENHEIT_STEP_C, SI, zero=FAHRENHEIT_ICE_POINT
            ),
            "k|kelvin": Unit(1.0, SI, zero=ICE_POINT_K),
        }
    ),
    TEMPERATURE_LEAST_C,
    TEMPERATURE_MOST_C,
    "-60 °C",
    "400 °C",
    ("160 F", "71 C", "71.1 °C"),
    signed=True,
)
LENGTH = Kind(
    "length",
    _named(
        {
            "m|metre|metres|meter|meters": Unit(1.0, SI),
            "cm|centimetre|centimetres|centimeter|centimeters": Unit(CENTIMETRE_M, SI),
            "mm|millimetre|millimetres|millimeter|millimeters": Unit(MILLIMETRE_M, SI),
            "um|µm|micron|microns": Unit(MICROMETRE_M, SI),
            "ft|foot|feet": Unit(FOOT_M, POUND_AND_YARD, "foot"),
            'in|ins|"|inch|inches': Unit(INCH_M, POUND_AND_YARD, "foot"),
        }
    ),
    LENGTH_LEAST_M,
    LENGTH_MOST_M,
    "0.01 mm",
    "2 m",
    ("1/4 in", "6.4 mm", "0.25 in"),
)
DURATION = Kind(
    "duration",
    _named(
        {
            "d|day|days": Unit(DAY_S, SI, "clock"),
            "h|hr|hrs|hour|hours": Unit(HOUR_S, SI, "clock"),
            "min|mins|m|minute|minutes": Unit(MINUTE_S, SI, "clock"),
            "s|sec|secs|second|seconds": Unit(1.0, SI, "clock"),
        }
    ),
    DURATION_LEAST_S,
    DURATION_MOST_S,
    "1 s",
    "365 d",
    ("1 h 20 min", "90 min", "2 d"),
)
VOLUME = Kind(
    "volume",
    _named(
        {
            "m³": Unit(1.0, SI),
            "l|litre|litres|liter|liters": Unit(LITRE_M3, SI, "litre"),
            "ml|cc|cm³|millilitre|millilitres|milliliter|milliliters": Unit(MILLILITRE_M3, SI, "litre"),
            "gal|gallon|gallons|us gal|us gallon|us gallons": Unit(US_GALLON_M3, US_MEASURE, "us"),
            "qt|quart|quarts|us qt": Unit(US_QUART_M3, US_MEASURE, "us"),
            "pt|pint|pints|us pt": Unit(US_PINT_M3, US_MEASURE, "us"),
            "cup|cups|us cup": Unit(US_CUP_M3, US_MEASURE, "us"),
            "fl oz|fl. oz|floz|fluid ounce|fluid ounces|us fl oz": Unit(US_FLUID_OUNCE_M3, US_MEASURE, "us"),
            "tbsp|tbsps|tablespoon|tablespoons": Unit(US_TABLESPOON_M3, US_MEASURE, "us"),
            "tsp|tsps|teaspoon|teaspoons": Unit(US_TEASPOON_M3, US_MEASURE, "us"),
            "imp gal|imperial gallon|imperial gallons": Unit(IMPERIAL_GALLON_M3, UK_GALLON, "imperial"),
            "imp qt|imperial quart|imperial quarts": Unit(IMPERIAL_QUART_M3, UK_GALLON, "imperial"),
            "imp pt|imperial pint|imperial pints": Unit(IMPERIAL_PINT_M3, UK_GALLON, "imperial"),
            "imp fl oz|imperial fluid ounce|imperial fluid ounces": Unit(
                IMPERIAL_FLUID_OUNCE_M3, UK_GALLON, "imperial"
            ),
        }
    ),
    VOLUME_LEAST_M3,
    VOLUME_MOST_M3,
    "0.01 ml",
    "100 m³",
    ("2 gal", "1 1/2 tsp", "250 ml"),
)
SHARE = Kind(
    "share",
    _named(
        {
            "%|pct|percent": Unit(PERCENT, SI),
            "‰|permille": Unit(PERMILLE, SI),
            "ppm": Unit(PPM, SI),
        }
    ),
    0.0,
    1.0,
    "0 %",
    "100 %",
    ("18 %", "6 g/kg", "2.9 oz/lb"),
)
PART = Kind(
    "part",
    _named({"%|pct|percent": Unit(PERCENT, SI)}),
    0.0,
    1.0,
    "0 %",
    "100 %",
    ("35 %", "60 %", "7.5 %"),
)
ROOM = replace(VOLUME, forms=("12 m3", "0.25 m3", "60 l"))
ALTITUDE = Kind(
    "altitude",
    _named(
        {
            "m|metre|metres|meter|meters": Unit(1.0, SI),
            "km|kilometre|kilometres|kilometer|kilometers": Unit(KILOMETRE_M, SI),
            "ft|foot|feet": Unit(FOOT_M, POUND_AND_YARD),
        }
    ),
    ALTITUDE_LEAST_M,
    ALTITUDE_MOST_M,
    "-430 m",
    "5000 m",
    ("1500 m", "5000 ft", "0 m"),
    signed=True,
)
PRESSURE = Kind(
    "pressure",
    _named(
        {
            "pa": Unit(1.0, SI),
            "hpa|mbar": Unit(HECTOPASCAL_PA, SI),
            "kpa": Unit(KILOPASCAL_PA, SI),
            "bar": Unit(BAR_PA, SI),
        }
    ),
    PRESSURE_LEAST_PA,
    PRESSURE_MOST_PA,
    "50 kPa",
    "110 kPa",
    ("84.6 kPa", "846 hPa", "1013 mbar"),
)
TEMPERATURE_STEP = Kind(
    "temperature step",
    _named(
        {
            "k|kelvin|c|°c|celsius": Unit(1.0, SI),
            "f|°f|fahrenheit": Unit(FAHRENHEIT_STEP_C, SI),
        }
    ),
    -TEMPERATURE_STEP_MOST_K,
    TEMPERATURE_STEP_MOST_K,
    "-30 K",
    "30 K",
    ("2 K", "-1.5 C", "3 F"),
    signed=True,
)
SPEED_FORMS = ("2 m/s", "400 ft/min", "1.5 m/s")
FLOW_FORMS = ("150 kg/h", "300 lb/h", "2 kg/min")
FILM_FORMS = ("20 W/m2K", "15 W/m2/K", "3.5 Btu/h/ft2/F")
RAMP_FORMS = ("1 C/min", "60 F/h", "20 min")
DENSITY_FORMS = ("1.2 g/ml", "1200 kg/m3", "10 lb/gal")

KINDS = (MASS, TEMPERATURE, LENGTH, DURATION, VOLUME, SHARE, ALTITUDE, PRESSURE, TEMPERATURE_STEP)

# Spellings that mean different things to different people: refused, with what to write instead.
EXACT_CASE = ("mg", "t")  # Mg is a tonne to some and a slip for mg to others; T is a tonne, a short ton or a spoon
AMBIGUOUS = MappingProxyType(
    {
        "gr": ("5 g", "0.3 g", "300 mg"),
        "ton": ("2000 lb", "2240 lb", "1 t"),
        "tons": ("2000 lb", "2240 lb", "1 t"),
        "mg": ("5 mg", "5 g", "5 kg"),
        "t": ("2000 lb", "2240 lb", "1 t"),
    }
)
