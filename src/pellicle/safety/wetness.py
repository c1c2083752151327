"""How wet the surface was: from a simulated face, or from a log whose wet bulb shows it; else it is not known.

A wet surface cannot be hotter than the wet bulb by much. A log shows a wet surface while the product is no hotter than
three degrees above the measured wet bulb, or the air holds 90 %. A surface once shown dry stays dry until the dew point
rises above the product: only condensation wets it again. After a stretch in which readings failed it counts as dry:
nobody saw it wet. What water activity such a surface has is read off the
line of constant wet bulb, and never counted below the least that is credited.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pellicle.air.humid import (
    STANDARD_PRESSURE_PA,
    humidity_ratio_from_wet_bulb,
    saturation_pressure_pa,
    vapour_pressure_pa,
    wet_bulb_c,
)
from pellicle.air.humid import humidity_ratio as ratio_of
from pellicle.measured.quality import mean_over
from pellicle.measured.series import Array, Series
from pellicle.safety.intervals import LOWER_END_FROM_S, NOTHING_FROM_S, Mask

# The least water activity of a surface at which heat is credited (lethality-review, section 8).
CREDIT_AW = 0.95
# How far the product may stand above the wet bulb, K, and the humidity that counts by itself (lethality-review, 0.5).
WET_BULB_GAP_C = 3.0
WET_HUMIDITY = 0.90
# A surface is taken to be wetted only where the dew point stands so far over the core, over so many seconds (own
# choice).
DEW_MARGIN_C, STEADY_S = 0.5, 600.0
DRIED_S = 300.0  # shown dry for less than this is the scatter of two probes (own choice)
APART = 0.15  # of humidity, between a sensor and the two bulbs (own choice)


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
    # what decides is where the readings stand, not how each of them scatters
    steady = [None if one is None else mean_over(series.time_s, one, STEADY_S) for one in (series.air_c, humidity)]
    lost = _after_the_unknown(series)
    shown = shown_aw(core, series.wet_bulb_c, humidity, surface_aw, lost, _condenses(series, steady))
    return Wetness(shown[:, None], np.minimum(core, series.wet_bulb_c)[:, None], "wet bulb")


def shown_aw(
    core_c: Array,
    wet_bulb_c: Array,
    humidity: Array,
    surface_aw: float | None,
    lost: Mask | None = None,
    condenses: Mask | None = None,
) -> Array:
    """Return the water activity a log shows for the surface, (n,): from the credited least upwards where wet, else 0.

    ``core_c`` and ``wet_bulb_c`` (n,) degC, ``humidity`` (n,) 0 to 1 or NaN. ``lost`` (n,): rows after a stretch of
    which nothing is known; ``condenses`` (n,): rows at which water condenses, none where that is not seen. NaN where
    core or wet bulb lacks.
    """
    over = core_c - wet_bulb_c
    dries = (over > WET_BULB_GAP_C) & ~(humidity >= WET_HUMIDITY)
    if lost is not None:
        dries |= lost
    wets = np.zeros(core_c.size, dtype=bool) if condenses is None else condenses & ~dries
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
    """Return for how long a log's surface was dry before a time, or for all one knows may have been, s.

    0 for a simulated series, for less than the scatter of two probes makes, and where nothing in a log shows how wet
    it was.
    """
    if shown is None or series.simulated:
        return 0.0
    driest = np.min(shown.aw, axis=1)
    before = series.time_s <= until_s
    dry = before & (driest < CREDIT_AW)
    spans = np.diff(series.time_s)
    seen = float(np.sum(spans[dry[:-1] & dry[1:]]))
    found = seen + sum(seconds for row, seconds in _unknown(series) if before[row])
    return found if found > DRIED_S else 0.0


def _unknown(series: Series) -> list[tuple[int, float]]:
    """Return the long stretches in which core or wet bulb was not read: the row after each, and how long it was, s.

    Long is over five minutes, or over half an hour in a log that is written less often than every five.
    """
    known = np.ones(series.time_s.size, dtype=bool)
    for column in (series.core_c, series.wet_bulb_c):
        known &= np.isfinite(column) if column is not None else False
    rows = np.flatnonzero(known)
    if rows.size == 0:
        return []
    times = series.time_s[rows]
    gaps = np.diff(times, prepend=series.time_s[0])
    written = np.diff(times)
    seldom = written.size > 0 and float(np.median(written)) > LOWER_END_FROM_S
    most = NOTHING_FROM_S if seldom else LOWER_END_FROM_S
    return [(int(rows[at]), float(gaps[at])) for at in np.flatnonzero(gaps > most)]


def _after_the_unknown(series: Series) -> Mask:
    """The first row after each stretch of which nothing is known: nobody saw the surface wet meanwhile."""
    found = np.zeros(series.time_s.size, dtype=bool)
    found[[row for row, _ in _unknown(series)]] = True
    return found


def _condenses(series: Series, steady: list[Array | None]) -> Mask | None:
    """The rows at which the air's dew point stands over the core, taken over some minutes; None without the air."""
    air, humidity = steady
    if air is None or humidity is None or series.core_c is None:
        return None
    core = mean_over(series.time_s, series.core_c, STEADY_S) + DEW_MARGIN_C
    found: Mask = saturation_pressure_pa(core) <= humidity * saturation_pressure_pa(air)
    return found


def contradicted(series: Series) -> bool:
    """Return whether a log's own humidity and its wet bulb tell of different air: then neither is believed."""
    if series.humidity is None or series.wet_bulb_c is None or series.air_c is None or series.simulated:
        return False
    other = with_humidity(replace(series, humidity=None)).humidity
    apart = np.abs(series.humidity - other) if other is not None else np.zeros(0)
    known = apart[np.isfinite(apart)]
    return bool(known.size and float(np.median(known)) > APART)


def with_humidity(series: Series, pressure_pa: float = STANDARD_PRESSURE_PA) -> Series:
    """Return the series with wet bulb and humidity both, where dry bulb and one of them were measured.

    This converts one measured humidity into the other; it never makes one up. ``pressure_pa`` is that of the air.
    """
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
