"""The plain figures of a plan that checks judge: cure, accelerators, phosphates, and the product at the pull."""

from __future__ import annotations

from pellicle.answers.plan_answer import CurvePoint
from pellicle.answers.working import Working
from pellicle.formula.cure_figures import CureFigures, from_formula
from pellicle.formula.printed import PERCENT
from pellicle.formula.restricted import Restricted, accelerators, phosphates
from pellicle.product import CureMethod
from pellicle.rules.figures import PlanQuantities

ACIDS = ("ascorbic acid", "erythorbic acid")
SALTS = ("sodium ascorbate", "sodium erythorbate")
PICKLED = (CureMethod.INJECTED, CureMethod.IMMERSION_PICKUP, CureMethod.IMMERSION_WHOLE)
GLUCONOLACTONE = "gluconolactone"


def cure_figures(work: Working) -> CureFigures:
    """Return every official figure of the cure in the printed formula, and undepleted at the pull weight."""
    return from_formula(work.formula, work.product.cure_method, work.product.uptake, work.pull.kg)


def quantities(work: Working, cure: CureFigures, at_pull: CurvePoint) -> PlanQuantities:
    """Return the figures of a plan, all from the amounts as printed.

    Accelerators and phosphates are judged by what the method's official sum gives for pumped and immersed meat, where
    most of the pickle stays behind; else by the most there can be, all of them in the green weight, or in the mix.
    """
    formula, product = work.formula, work.product
    restricted = accelerators(formula, product.cure_method, product.uptake)
    pickled = product.cure_method in PICKLED
    phosphate = phosphates(formula)
    taken = work.marinated.high * formula.total_kg / work.marinated.high_kg if pickled else 1.0
    return PlanQuantities(
        cure=cure,
        salts_ppm=sum(_judged(restricted[name], pickled) for name in SALTS if name in restricted),
        acids_ppm=sum(_judged(restricted[name], pickled) for name in ACIDS if name in restricted),
        phosphate_share=phosphate.of_total * taken,
        phosphate_disodium_share=phosphate.as_disodium_kg / formula.total_kg * taken,
        gluconolactone_share=float(formula.solution.solute(GLUCONOLACTONE)) / formula.total_kg,
        pull_known=True,
        aw_at_pull=at_pull.aw,
        aw_low=at_pull.aw_low,
        aw_high=at_pull.aw_high,
        mpr_at_pull=at_pull.mpr,
        salt_share=at_pull.salt_percent / PERCENT,
        brine_share=at_pull.brine_percent / PERCENT,
        pickup_share=work.marinated.kg / formula.raw_kg - 1,
    )


def _judged(found: Restricted, pickled: bool) -> float:
    return found.ingoing_ppm if pickled and found.ingoing_ppm is not None else found.worst_case_ppm
