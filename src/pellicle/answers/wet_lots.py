"""Lots that were read over the limit at a weight which the pull would allow: a finding before any weight."""

from __future__ import annotations

from pellicle.answers.working import Working
from pellicle.message import message
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.units import both, show_percent


def wet_lots(work: Working) -> list[Check]:
    """Return one check, not met, for each lot whose wettest reading stood over the limit at the pull weight or under.

    Whether the model learnt from the lot or left it out as too far off: what was read wet there may be wet again.
    """
    formula, pull = work.formula, work.pull.kg
    found = []
    for reading in work.product.readings:
        share = reading.out_kg / reading.raw_kg
        wettest = max(reading.aw)
        if wettest <= work.target_aw or share * formula.raw_kg > pull * SAME:
            continue
        values = {"lot": reading.lot, "aw": f"{wettest:g}", "at": show_percent(share), "pull": both(pull)}
        found.append(
            Check(
                f"readings.wet.{reading.lot}",
                message("answers.title_wet_lot", lot=reading.lot),
                Verdict.NOT_MET,
                message("answers.wet_lot", **values, limit=f"{work.target_aw:g}"),
                Group.OWN,
                value=wettest,
                limit=work.target_aw,
                unit="aw",
                margin=work.target_aw - wettest,
                digits=3,
            )
        )
    return found


# A lot out at a weight within two scale readings of the pull was out at the pull. own choice
SAME = 1.01
