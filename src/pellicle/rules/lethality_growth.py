"""The findings on growth and the hazards of a slow or a cool, wet start, by name and with their numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pellicle.message import message
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.safety.growth import Growth
from pellicle.safety.process_times import ProcessTimes
from pellicle.source import sources

# Growth in log10 that is acceptable, and from which a toxin is a concern (us-cooking-guideline-2021, p. 14-15).
AUREUS_MOST_LOG, AUREUS_TOXIN_LOG = 2.0, 3.0
AUREUS_FLAG_LOG = 1.0  # worth a look (lethality-review, section 5.2)
OTHER_MOST_LOG = 1.0  # vegetative germs, and C. perfringens (us-cooking-guideline-2021, p. 66-79)
# How long a product may sit at the best temperatures before the hazard is named, s (lethality-review, section 5.2).
NAMED_FROM_S = 3600.0
HOUR = 3600.0
COOKING, REVIEW = "us-cooking-guideline-2021", "lethality-review"


def growth_checks(found: Sequence[Growth], times: ProcessTimes) -> tuple[Check, ...]:
    """Return one finding per organism that applies, and the hazards that the times show."""
    return (*(growth_check(one) for one in found if one.applies), *hazards(times))


def growth_check(found: Growth) -> Check:
    """Return the finding on one organism: at most 2 log of S. aureus, 1 log of the others.

    A figure that rests on memory gives no verdict at all.
    """
    aureus = found.organism == "aureus"
    limit = AUREUS_MOST_LOG if aureus else OTHER_MOST_LOG
    title = message("rules_lethality.title_growth", organism=found.label)
    base = Check(
        f"growth.{found.organism}",
        title,
        Verdict.CANNOT_TELL,
        title,
        Group.RULE if aureus else Group.INFORMATION,
        limit=limit,
        unit="log",
        digits=1,
        clause="cooking guideline 2021, p. 14-15" if aureus else "cooking guideline 2021, attachment A2",
        sources=(*found.sources, COOKING),
        blocking=aureus,
    )
    if found.log is None:
        why = found.why if found.why is not None else title
        return replace(base, why=why)
    values = {"log": f"{found.log:.1f}", "hours": f"{found.hours or 0.0:.1f}"}
    base = replace(base, value=found.log, margin=limit - found.log)
    if any(sources()[key].to_verify for key in found.sources):
        return replace(base, why=message("rules_lethality.growth_memory", **values))
    if found.log >= (AUREUS_TOXIN_LOG if aureus else limit):
        return replace(base, verdict=Verdict.NOT_MET, why=message("rules_lethality.growth_toxin", **values))
    if found.log > limit:
        return replace(base, verdict=Verdict.NOT_MET, why=message("rules_lethality.growth_between", **values))
    id = "growth_flag" if found.log >= AUREUS_FLAG_LOG else "growth_small"
    return replace(base, verdict=Verdict.MET, why=message(f"rules_lethality.{id}", **values))


def hazards(times: ProcessTimes) -> tuple[Check, ...]:
    """Return the hazards by name: held back by evaporation at the best temperatures, and cool and wet for hours."""
    named = (
        ("hazard.cooled_start", "cooled", times.cooled_s),
        ("hazard.cool_wet_start", "cool_wet", times.cool_wet_s),
    )
    return tuple(
        Check(
            id,
            message(f"rules_lethality.title_{word}"),
            Verdict.CANNOT_TELL,
            message(f"rules_lethality.hazard_{word}", hours=f"{seconds / HOUR:.1f}"),
            Group.INFORMATION,
            value=seconds / HOUR,
            unit="h",
            digits=1,
            sources=(REVIEW,),
            blocking=False,
        )
        for id, word, seconds in named
        if seconds is not None and seconds >= NAMED_FROM_S
    )
