"""The plain figures of a plan that checks judge: cure, accelerators, phosphates, and the product at the pull."""

from __future__ import annotations

from pellicle.answers.plan_answer import CurvePoint
from pellicle.answers.working import Working
from pellicle.formula.cure_figures import CureFigures, from_formula
from pellicle.formula.printed import PERCENT
from pellicle.formula.restricted import accelerators, phosphates
from pellicle.rules.figures import PlanQuantities

ACIDS = ("ascorbic acid", "erythorbic acid")
SALTS = ("sodium ascorbate", "sodium erythorbate")
GLUCONOLACTONE = "gluconolactone"


def cure_figures(work: Working) -> CureFigures:
    """Return every official figure of the cure in the printed formula, and undepleted at the pull weight."""
    return from_formula(work.formula, work.product.cure_method, work.product.uptake, work.pull.kg)


def quantities(work: Working, cure: CureFigures, at_pull: CurvePoint) -> PlanQuantities:
    """Return the figures of a plan, all from the amounts as printed.

    Accelerators and phosphates are the most there can be: all of them in the green weight, or in meat and solution.
    """
    formula, product = work.formula, work.product
    restricted = accelerators(formula, product.cure_method, product.uptake)
    phosphate = phosphates(formula)
    return PlanQuantities(
        cure=cure,
        salts_ppm=sum(restricted[name].worst_case_ppm for name in SALTS if name in restricted),
        acids_ppm=sum(restricted[name].worst_case_ppm for name in ACIDS if name in restricted),
        phosphate_share=phosphate.of_total,
        phosphate_disodium_share=phosphate.as_disodium_kg / formula.total_kg,
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
