"""How wet the surface was: from a simulated face, or from a log whose wet bulb shows it; else it is not known.

A wet surface cannot be hotter than the wet bulb by much. A log shows a wet surface while the product is no hotter than
three degrees above the measured wet bulb, or the air holds 90 %. A surface once shown dry stays dry until the dew point
rises above the product: only condensation wets it again. After a stretch in which readings failed it counts as dry:
nobody saw it wet. What water activity such a surface has is read off the
line of constant wet bulb, and never counted below the least that is credited.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pellicle.air.humid import (
    STANDARD_PRESSURE_PA,
    humidity_ratio_from_wet_bulb,
    saturation_pressure_pa,
    vapour_pressure_pa,
    wet_bulb_c,
)
from pellicle.air.humid import humidity_ratio as ratio_of
from pellicle.measured.series import Array, Series
from pellicle.safety.intervals import EVIDENCE, LOWER_END_FROM_S, Mask

# The least water activity of a surface at which heat is credited (lethality-review, section 8).
CREDIT_AW = 0.95
# How far the product may stand above the wet bulb, K, and the humidity that counts by itself (lethality-review, 0.5).
WET_BULB_GAP_C = 3.0
WET_HUMIDITY = 0.90


@dataclass(frozen=True, slots=True, eq=False)
class Wetness:
    """The water activity of the faces, (n, faces), and the temperature each is credited at, (n, faces) degC.

    NaN where a reading lacks. ``shown_by`` is ``faces`` (simulated or measured) or ``wet bulb``.
    """

    aw: Array
    temperature_c: Array
    shown_by: str


def wetness(series: Series, surface_aw: float | None = None) -> Wetness | None:
    """Return how wet the faces were and how warm they count, or None where nothing in the series shows it.

    The temperature is the lowest of core, face and measured wet bulb. ``surface_aw`` caps the water activity of a
    logged surface at what the product had at the start, where that is known.
    """
    core = series.core_c
    if core is None:
        return None
    if series.face_aw is not None and series.face_c is not None:
        open_faces = [at for at, is_open in enumerate(series.open_faces) if is_open]
        aw, warm = series.face_aw[:, open_faces], np.minimum(series.face_c[:, open_faces], core[:, None])
        if not series.simulated and series.wet_bulb_c is not None:
            warm = np.minimum(warm, series.wet_bulb_c[:, None])
        return Wetness(aw, warm, "faces")
    if series.wet_bulb_c is None:
        return None
    humidity = series.humidity if series.humidity is not None else np.full(core.size, np.nan)
    lost = _long_breaks(series)
    shown = shown_aw(core, series.wet_bulb_c, humidity, surface_aw, series.air_c, lost)
    return Wetness(shown[:, None], np.minimum(core, series.wet_bulb_c)[:, None], "wet bulb")


def shown_aw(
    core_c: Array,
    wet_bulb_c: Array,
    humidity: Array,
    surface_aw: float | None,
    air_c: Array | None = None,
    lost: Mask | None = None,
) -> Array:
    """Return the water activity a log shows for the surface, (n,): from the credited least upwards where wet, else 0.

    ``core_c``, ``wet_bulb_c`` and ``air_c`` (n,) degC, ``humidity`` (n,) 0 to 1 or NaN; without the air's temperature
    no condensation is seen. ``lost`` (n,): rows inside a long stretch of failed readings. NaN where core or wet bulb
    lacks.
    """
    over = core_c - wet_bulb_c
    dries = (over > WET_BULB_GAP_C) & ~(humidity >= WET_HUMIDITY)
    if lost is not None:
        dries |= lost
    # water condenses on what is no warmer than the dew point: the air's vapour saturates a surface as warm as the core
    wets = np.zeros(core_c.size, dtype=bool)
    if air_c is not None:
        wets = saturation_pressure_pa(core_c) <= humidity * saturation_pressure_pa(air_c)
        wets &= ~dries
    # the last of the two events before a row decides; before any of them the surface is as it was loaded: wet
    event = np.where(dries, -1, np.where(wets, 1, 0))
    at = np.maximum.accumulate(np.where(event != 0, np.arange(event.size), -1))
    dry = (at >= 0) & (event[np.maximum(at, 0)] < 0)
    on_line = vapour_pressure_pa(
        humidity_ratio_from_wet_bulb(core_c, wet_bulb_c, STANDARD_PRESSURE_PA), STANDARD_PRESSURE_PA
    ) / saturation_pressure_pa(core_c)
    most = 1.0 if surface_aw is None else max(surface_aw, CREDIT_AW)
    shown = np.clip(on_line, CREDIT_AW, most)
    found = np.where(dry, 0.0, shown)
    return np.where(np.isfinite(over), found, np.nan)


def dried_before(series: Series, shown: Wetness | None, until_s: float) -> float:
    """Return for how long a log's surface was shown dry before a time, s; 0 where nothing shows it."""
    if shown is None or series.simulated:
        return 0.0
    dry = (np.min(shown.aw, axis=1) < CREDIT_AW) & (series.time_s <= until_s)
    spans = np.diff(series.time_s)
    return float(np.sum(spans[dry[:-1] & dry[1:]]))


def _long_breaks(series: Series) -> Mask:
    """The rows inside a stretch of failed readings of more than five minutes."""
    broken = series.broken_in(*EVIDENCE)
    found = np.zeros(broken.size, dtype=bool)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], broken, [False]]).astype(np.int8)))
    for first, last in edges.reshape(-1, 2):
        before, after = max(first - 1, 0), min(last, broken.size - 1)
        if series.time_s[after] - series.time_s[before] > LOWER_END_FROM_S:
            found[first:last] = True
    return found


def with_humidity(series: Series, pressure_pa: float = STANDARD_PRESSURE_PA) -> Series:
    """Return the series with wet bulb and humidity both, where dry bulb and one of them were measured.

    This converts one measured humidity into the other; it never makes one up. ``pressure_pa`` is that of the air.
    """
    from dataclasses import replace

    dry = series.air_c
    if dry is None:
        return series
    if series.wet_bulb_c is not None and series.humidity is None:
        ratio = humidity_ratio_from_wet_bulb(dry, np.minimum(series.wet_bulb_c, dry), pressure_pa)
        vapour = vapour_pressure_pa(ratio, pressure_pa)
        return replace(series, humidity=np.minimum(vapour / saturation_pressure_pa(dry), 1.0))
    if series.humidity is not None and series.wet_bulb_c is None:
        ratio = ratio_of(series.humidity * saturation_pressure_pa(dry), pressure_pa)
        return replace(series, wet_bulb_c=np.asarray(wet_bulb_c(dry, ratio, pressure_pa), dtype=float))
    return series
