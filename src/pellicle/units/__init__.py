"""What people type, turned into SI at the edges, and SI turned into what people read.

Every function that reads takes what was typed and the field it was typed under, and returns a number in SI or raises
InputError with a sentence that names the field, what was read, and three forms that would do. A decimal comma is
understood (``1,5 kg``); a comma before exactly three digits (``1,500 g``) is refused, because it could be thousands.
Gallons, pints, cups and spoons are those of the United States unless ``imp`` stands before them.
"""

from __future__ import annotations

from pellicle.units.air import (
    altitude_m,
    film_w_m2k,
    flow_kg_s,
    pressure_pa,
    ramp,
    speed_m_s,
    temperature_step_k,
)
from pellicle.units.amounts import Amount, Basis, amount
from pellicle.units.parse import (
    aw,
    count,
    density_kg_m3,
    duration_s,
    length_m,
    mass,
    nitrite_strength,
    number,
    percent,
    room_m3,
    share,
    temperature_c,
    volume_m3,
)
from pellicle.units.show import (
    NBSP,
    both,
    both_temperatures,
    show_duration,
    show_length,
    show_mass,
    show_percent,
    show_ppm,
    show_temperature,
    unbroken,
)

__all__ = [
    "NBSP",
    "Amount",
    "Basis",
    "altitude_m",
    "amount",
    "aw",
    "both",
    "both_temperatures",
    "count",
    "density_kg_m3",
    "duration_s",
    "film_w_m2k",
    "flow_kg_s",
    "length_m",
    "mass",
    "nitrite_strength",
    "number",
    "percent",
    "pressure_pa",
    "ramp",
    "room_m3",
    "share",
    "show_duration",
    "show_length",
    "show_mass",
    "show_percent",
    "show_ppm",
    "show_temperature",
    "speed_m_s",
    "temperature_c",
    "temperature_step_k",
    "unbroken",
    "volume_m3",
]
