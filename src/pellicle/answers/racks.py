"""The scale reading at which each rack of a product is pulled, for a pull weight of the whole batch."""

from __future__ import annotations

import math

from pellicle.answers.plan_answer import RackPull
from pellicle.answers.working import Working

PERCENT = 100.0
# Green weights this near each other are one batch.
SAME_BATCH = 1e-6


def racks_at(pull_kg: float, work: Working, file_raw_kg: float | None) -> tuple[RackPull, ...]:
    """Return the racks as loaded in the file, for a pull weight; for a batch of another size their loads are not
    known."""
    share = pull_kg / work.marinated.kg
    same = file_raw_kg is not None and math.isclose(work.formula.raw_kg, file_raw_kg, rel_tol=SAME_BATCH)
    return tuple(
        RackPull(
            name=rack.name,
            tare_kg=rack.tare_kg,
            loaded_kg=rack.loaded_kg if same else None,
            pull_kg=rack.tare_kg + (rack.loaded_kg - rack.tare_kg) * share if same and rack.loaded_kg else None,
            percent_of_loaded=PERCENT * share,
            marked=rack.marked,
        )
        for rack in work.product.racks
    )
