"""What drying itself does to germs: a rate per hour seen in dry processes, for expectation only and never for release.

Published dry runs lost 0.4 to 0.9 log per hour in their first four hours, almost whatever the air's temperature, then
hardly any more.
"""

from __future__ import annotations

import numpy as np

from pellicle.measured.series import Series
from pellicle.safety.intervals import share_above

SOURCE = "lethality-review"  # sections 3.2 and 3.3
LOG_PER_HOUR = 0.6
LATER_LOG_PER_HOUR = 0.1
FIRST_HOURS = 4.0
MOST_LOG = 3.0
# A face drier than this is drying (lethality-review, section 3.2).
DRYING_AW = 0.97
# Half-width of the band on what is expected: twice the spread over nine measured rows (lethality-review, section 3.3).
BAND_LOG = 2.6
SECONDS_PER_HOUR = 3600.0


def dry_kill(series: Series) -> float:
    """Return the log reduction by drying: by how long the last face to dry has been drier than 0.97.

    0 where the faces' water activity is not known.
    """
    if series.face_aw is None:
        return 0.0
    faces = [at for at, is_open in enumerate(series.open_faces) if is_open]
    return min(dry_kill_log(_drying_hours(series, at)) for at in faces)


def dry_kill_log(hours: float) -> float:
    """Return the log reduction after so many hours of drying.

    >>> [round(dry_kill_log(hours), 1) for hours in (1.0, 4.0, 10.0, 30.0)]
    [0.6, 2.4, 3.0, 3.0]
    """
    first = min(hours, FIRST_HOURS) * LOG_PER_HOUR
    later = max(hours - FIRST_HOURS, 0.0) * LATER_LOG_PER_HOUR
    return min(first + later, MOST_LOG)


def expected_band(expected: float | None) -> tuple[float | None, float | None]:
    """Return the ends of the band about an expectation, never below nothing; None without one.

    >>> expected_band(1.0), expected_band(None)
    ((0.0, 3.6), (None, None))
    """
    if expected is None:
        return None, None
    return max(expected - BAND_LOG, 0.0), expected + BAND_LOG


def _drying_hours(series: Series, face: int) -> float:
    assert series.face_aw is not None
    aw = series.face_aw[:, face]
    enters, leaves = share_above(aw[:-1], aw[1:], DRYING_AW)
    dry = (1.0 - (leaves - enters)) * np.diff(series.time_s)
    return float(np.nansum(dry)) / SECONDS_PER_HOUR
