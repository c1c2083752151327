"""What can be measured and in which units: exact factors, spellings, and the limits beyond which an entry is a slip."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: SI value = (number - ``zero``) * ``factor``. Units of one ``chain`` may follow: ``2 lb 3 oz``."""

    factor: float
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


# Exact by definition. Source keys: international-pound-yard (1959 agreement), si-units, us-liquid-measure, uk-gallon.
POUND_KG = 0.45359237  # international-pound-yard
OUNCE_KG = POUND_KG / 16  # international-pound-yard
HUNDREDWEIGHT_KG = POUND_KG * 100  # us-liquid-measure: the short hundredweight of the meat trade, 100 lb
GRAM_KG = 1e-3  # si-units
MILLIGRAM_KG = 1e-6  # si-units
TONNE_KG = 1e3  # si-units
INCH_M = 0.0254  # international-pound-yard
FOOT_M = INCH_M * 12  # international-pound-yard
MILLIMETRE_M = 1e-3  # si-units
CENTIMETRE_M = 1e-2  # si-units
MICROMETRE_M = 1e-6  # si-units
US_GALLON_M3 = 231 * INCH_M**3  # us-liquid-measure: 231 cubic inches
US_QUART_M3 = US_GALLON_M3 / 4  # us-liquid-measure
US_PINT_M3 = US_GALLON_M3 / 8  # us-liquid-measure
US_CUP_M3 = US_GALLON_M3 / 16  # us-liquid-measure
US_FLUID_OUNCE_M3 = US_GALLON_M3 / 128  # us-liquid-measure
US_TABLESPOON_M3 = US_FLUID_OUNCE_M3 / 2  # us-liquid-measure
US_TEASPOON_M3 = US_FLUID_OUNCE_M3 / 6  # us-liquid-measure
IMPERIAL_GALLON_M3 = 4.54609e-3  # uk-gallon
IMPERIAL_QUART_M3 = IMPERIAL_GALLON_M3 / 4  # uk-gallon
IMPERIAL_PINT_M3 = IMPERIAL_GALLON_M3 / 8  # uk-gallon
IMPERIAL_FLUID_OUNCE_M3 = IMPERIAL_GALLON_M3 / 160  # uk-gallon
LITRE_M3 = 1e-3  # si-units
MILLILITRE_M3 = 1e-6  # si-units
MINUTE_S = 60.0  # si-units
HOUR_S = 3600.0  # si-units
DAY_S = 86400.0  # si-units
ICE_POINT_K = 273.15  # si-units: the zero of the Celsius scale
FAHRENHEIT_ICE_POINT = 32.0  # si-units: F = 9/5 C + 32
FAHRENHEIT_STEP_C = 5 / 9  # si-units
PERCENT = 1e-2  # si-units
PERMILLE = 1e-3  # si-units
PPM = 1e-6  # si-units

# Limits of sense, our own choice: far outside anything weighed, cut or timed in this trade, so beyond is a slip.
MASS_LEAST_KG, MASS_MOST_KG = 1e-9, 1e6
TEMPERATURE_LEAST_C, TEMPERATURE_MOST_C = -60.0, 400.0
LENGTH_LEAST_M, LENGTH_MOST_M = 1e-5, 2.0
DURATION_LEAST_S, DURATION_MOST_S = 1.0, 365 * DAY_S
VOLUME_LEAST_M3, VOLUME_MOST_M3 = 1e-8, 100.0
DENSITY_LEAST_KG_M3, DENSITY_MOST_KG_M3 = 20.0, 5000.0


def _named(rows: Mapping[str, Unit]) -> Mapping[str, Unit]:
    """Return each unit under each of the spellings its row lists, separated by ``|``."""
    return MappingProxyType({spelling: unit for row, unit in rows.items() for spelling in row.split("|")})


MASS = Kind(
    "mass",
    _named(
        {
            "t|tonne|tonnes": Unit(TONNE_KG, "metric"),
            "kg|kgs|kilo|kilos|kilogram|kilograms": Unit(1.0, "metric"),
            "g|gr|gram|grams": Unit(GRAM_KG, "metric"),
            "mg|milligram|milligrams": Unit(MILLIGRAM_KG, "metric"),
            "cwt": Unit(HUNDREDWEIGHT_KG, "pound"),
            "lb|lbs|#|pound|pounds": Unit(POUND_KG, "pound"),
            "oz|ounce|ounces": Unit(OUNCE_KG, "pound"),
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
            "c|°c|deg c|degc|degrees c|celsius|degrees celsius": Unit(1.0),
            "f|°f|deg f|degf|degrees f|fahrenheit|degrees fahrenheit": Unit(
                FAHRENHEIT_STEP_C, zero=FAHRENHEIT_ICE_POINT
            ),
            "k|kelvin": Unit(1.0, zero=ICE_POINT_K),
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
            "m|metre|metres|meter|meters": Unit(1.0),
            "cm|centimetre|centimetres|centimeter|centimeters": Unit(CENTIMETRE_M),
            "mm|millimetre|millimetres|millimeter|millimeters": Unit(MILLIMETRE_M),
            "um|µm|micron|microns": Unit(MICROMETRE_M),
            "ft|foot|feet": Unit(FOOT_M, "foot"),
            'in|ins|"|inch|inches': Unit(INCH_M, "foot"),
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
            "d|day|days": Unit(DAY_S, "clock"),
            "h|hr|hrs|hour|hours": Unit(HOUR_S, "clock"),
            "min|mins|m|minute|minutes": Unit(MINUTE_S, "clock"),
            "s|sec|secs|second|seconds": Unit(1.0, "clock"),
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
            "m³": Unit(1.0),
            "l|litre|litres|liter|liters": Unit(LITRE_M3, "litre"),
            "ml|cc|cm³|millilitre|millilitres|milliliter|milliliters": Unit(MILLILITRE_M3, "litre"),
            "gal|gallon|gallons|us gal|us gallon|us gallons": Unit(US_GALLON_M3, "us"),
            "qt|quart|quarts|us qt": Unit(US_QUART_M3, "us"),
            "pt|pint|pints|us pt": Unit(US_PINT_M3, "us"),
            "cup|cups|us cup": Unit(US_CUP_M3, "us"),
            "fl oz|fl. oz|floz|fluid ounce|fluid ounces|us fl oz": Unit(US_FLUID_OUNCE_M3, "us"),
            "tbsp|tbsps|tablespoon|tablespoons": Unit(US_TABLESPOON_M3, "us"),
            "tsp|tsps|teaspoon|teaspoons": Unit(US_TEASPOON_M3, "us"),
            "imp gal|imperial gallon|imperial gallons": Unit(IMPERIAL_GALLON_M3, "imperial"),
            "imp qt|imperial quart|imperial quarts": Unit(IMPERIAL_QUART_M3, "imperial"),
            "imp pt|imperial pint|imperial pints": Unit(IMPERIAL_PINT_M3, "imperial"),
            "imp fl oz|imperial fluid ounce|imperial fluid ounces": Unit(IMPERIAL_FLUID_OUNCE_M3, "imperial"),
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
            "%|pct|percent": Unit(PERCENT),
            "‰|permille": Unit(PERMILLE),
            "ppm": Unit(PPM),
        }
    ),
    0.0,
    1.0,
    "0 %",
    "100 %",
    ("18 %", "6 g/kg", "2.9 oz/lb"),
)
DENSITY_FORMS = ("1.2 g/ml", "1200 kg/m3", "10 lb/gal")

KINDS = (MASS, TEMPERATURE, LENGTH, DURATION, VOLUME, SHARE)

# Spellings that mean different things to different people: refused, with what to write instead.
AMBIGUOUS = MappingProxyType(
    {
        "ton": ("2000 lb", "2240 lb", "1 t"),
        "tons": ("2000 lb", "2240 lb", "1 t"),
    }
)
