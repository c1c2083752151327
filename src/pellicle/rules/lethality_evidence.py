"""What guidance makes of evidence beside a log: challenge studies, and cooks that failed and were repeated."""

from __future__ import annotations

from collections.abc import Sequence

from pellicle.relation import relation

# One-sided 95 % prediction for six replicates (us-cooking-guideline-2021, p. 56).
REPLICATE_FACTOR = 1.94


@relation("us-cooking-guideline-2021", valid={"mean_log": (0.0, 12.0), "sd_log": (0.0, 3.0)})
def challenge_bound_log(mean_log: float, sd_log: float) -> float:
    """Return what a challenge study of six replicates supports by its strongest rule: mean - 1.94 sd.

    ``mean_log`` and ``sd_log`` [log]. A mean of 6.2 with 0.5 supports 5.23, above a target of 5 (worked example).

    >>> round(challenge_bound_log(6.2, 0.5), 2)
    5.23
    """
    return mean_log - REPLICATE_FACTOR * sd_log


def warming_hours(cooks: Sequence[tuple[float, bool]]) -> float:
    """Return the hours between 50 and 130 F that count for a product cooked several times.

    ``cooks`` are hours of each cook and whether it reached a lethal row: only that sets the clock back. A failed cook
    of 2 h and another of 4.5 h count 6.5 h; had the first been lethal, 4.5 h (worked example).

    >>> warming_hours([(2.0, False), (4.5, True)]), warming_hours([(2.0, True), (4.5, True)])
    (6.5, 4.5)
    """
    worst = current = 0.0
    for hours, lethal in cooks:
        current += hours
        worst = max(worst, current)
        if lethal:
            current = 0.0
    return worst
