"""How sure a passage is: what differs between batches and between pieces, run through the same house."""

from __future__ import annotations

from functools import partial

import numpy as np

from pellicle import parameter
from pellicle.answers.run_after import pull_where_aims_are
from pellicle.answers.run_answer import PlaceEnd, Range, Spread
from pellicle.answers.working import Working
from pellicle.house.chamber import ChamberSetup
from pellicle.house.lying import PieceSetup
from pellicle.measured.series import Array
from pellicle.rules.lethality_targets import target_for
from pellicle.run.setup import RunSetup
from pellicle.run.simulate import Run, series_from
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import Lethality, wet_history
from pellicle.study.ensemble import Ends, Ensemble, PieceSpread, ensemble
from pellicle.study.wettest import COVERING, PIECES_COVERED

PERCENT = 100.0
LEVEL = 0.90
# Fewer pieces make fewer batches than tell a share of them.
FEWEST_PIECES = 400


def spread_of(
    setup: RunSetup,
    work: Working,
    facts: LethalityFacts,
    chamber: ChamberSetup,
    piece: PieceSetup,
    film_log_sd: float,
    leads: Lethality,
    pieces: int,
) -> Spread:
    """Return the spread over ``pieces`` pieces, in batches of 20, with the credit against the organism that leads.

    ``work`` is the working with the drip of the passage; it gives the pull weight for pieces as unlike as these.
    Where fewer are asked for than tell anything, as many as do are run.
    """
    differs = PieceSpread(
        thickness=piece.spread_m / piece.thickness_m,
        position_log=chamber.position_sd,
        film_log=film_log_sd,
        diffusivity_log=parameter.value("water_diffusivity_log_sd", work.product.model),
        cookout=parameter.parameters()["cookout_factor"].spread,
        places=chamber.positions,
    )
    found = ensemble(
        setup, differs, max(pieces, FEWEST_PIECES), partial(_credit, facts, leads.organism), work.target_aw
    )
    return _spread(found, differs, work, facts, leads)


def _credit(facts: LethalityFacts, organism: str, done: Run) -> float:
    found = wet_history(series_from(done), facts, organism)
    return float("nan") if found is None else float(found[-1])


def _spread(found: Ensemble, differs: PieceSpread, work: Working, facts: LethalityFacts, leads: Lethality) -> Spread:
    share = PERCENT * work.marinated.kg / work.formula.raw_kg
    ends = found.pieces
    wettest = np.quantile(ends.aw_mean, PIECES_COVERED, axis=1, method=COVERING)
    least = np.quantile(ends.lethality, 1 - PIECES_COVERED, axis=1, method=COVERING)
    target = target_for(leads.organism, facts.species)
    known = not np.any(np.isnan(ends.lethality))
    dry = wettest <= work.target_aw
    # what is certain of the credit is the same share of it for every piece: strains and studies, not pieces, make it so
    sure = leads.wet_lower / leads.wet if leads.wet and leads.wet_lower is not None else 0.0
    treated = None if target is None or not known else sure * least >= target.target
    pull_kg, enough = pull_where_aims_are(work, found.aw_wettest_dry)
    return Spread(
        organism=leads.organism,
        batches=found.hours.size,
        pieces=ends.aw_mean.size,
        failed=ends.failed,
        hours=_range(found.hours),
        percent_of_raw=_range(share * np.average(ends.weight_share, axis=1, weights=found.mass)),
        aw_mean=_range(np.average(ends.aw_mean, axis=1, weights=found.mass)),
        aw_wettest=_range(wettest),
        lethality_wet=_range(least) if known else None,
        p_aw=float(np.mean(dry)),
        p_lethality=None if treated is None else float(np.mean(treated)),
        p_both=None if treated is None else float(np.mean(dry & treated)),
        aim_aw=_aim(found.aw_wettest_dry),
        pull_kg=pull_kg,
        pull_enough=enough,
        places=tuple(_place(found.places, at, one.name, share) for at, one in enumerate(differs.places)),
    )


def _aim(aw: Array) -> float | None:
    """The water activity of the middle batch when its wettest pieces are at the limit; None if they often never are."""
    middle = float(np.median(np.nan_to_num(aw, nan=0.0)))
    return middle if middle > 0.0 else None


def _place(ends: Ends, at: int, name: str, share: float) -> PlaceEnd:
    credited = float(np.median(ends.lethality[:, at]))
    return PlaceEnd(
        name,
        share * float(np.median(ends.weight_share[:, at])),
        float(np.median(ends.aw_mean[:, at])),
        credited if np.isfinite(credited) else None,
    )


def _range(values: Array) -> Range:
    low, middle, high = np.quantile(values, [(1 - LEVEL) / 2, 1 / 2, (1 + LEVEL) / 2])
    return Range(float(middle), float(low), float(high))
