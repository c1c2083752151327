"""The cautions that a log or a run calls for: what its numbers do not show, said where the hazard is."""

from __future__ import annotations

from collections.abc import Mapping

from pellicle.message import Message, message
from pellicle.rules.cautions import Caution, Where
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import Lethality
from pellicle.safety.process_times import ProcessTimes

REVIEW, COOKING = "lethality-review", "us-cooking-guideline-2021"
# From this share of sugars in what lowers water activity on, the caution on sugar stands (lethality-review, 2.3).
SWEET_FROM = 0.3
# The table's own line has to promise this much more than what is credited before the centre is called misleading.
MISLEADS_LOG = 2.0
SLOW_S = 3600.0


def lethality_cautions(
    facts: LethalityFacts, found: Mapping[str, Lethality], times: ProcessTimes
) -> tuple[Caution, ...]:
    """Return the cautions in the order of the work; the last one always defers to a process authority."""
    one = next(iter(found.values()))
    texts: list[Message] = [message("cautions.dry_surface")]
    if one.table_ramp is not None and one.table_ramp > (one.wet or 0.0) + MISLEADS_LOG:
        texts.append(message("cautions.centre_misleads"))
    if facts.sugar_share >= SWEET_FROM:
        texts.append(message("cautions.sugar_and_salt"))
    if facts.inside:
        texts.append(message("cautions.inside"))
    if facts.poultry:
        texts.append(message("cautions.poultry"))
    if times.growth_s is not None and times.growth_s >= SLOW_S:
        texts.append(message("cautions.slow_start"))
    texts.append(message("rules_lethality.caution_altitude"))
    said = [Caution(Where.HOUSE, text, (REVIEW, COOKING)) for text in texts]
    doubt = message("rules_lethality.caution_doubt")
    return (*said, Caution(Where.RELEASE, doubt, (REVIEW,)), Caution(Where.RELEASE, message("cautions.authority"), ()))
