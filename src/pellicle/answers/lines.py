"""The lines to weigh: amounts as the scale shows them, shares on every base, and what stands beside each line."""

from __future__ import annotations

from pellicle.answers.plan_answer import PlanLine
from pellicle.food.ingredients import is_cure
from pellicle.food.solutes import solute
from pellicle.formula.finished import Finished
from pellicle.formula.ions import AGENTS
from pellicle.formula.parts import Formula, WeighedLine
from pellicle.formula.printed import PERCENT, metric_mass, parts_per_million, percent
from pellicle.formula.rounding import limited
from pellicle.formula.spoon import check_spoons
from pellicle.formula.strength import agent_share
from pellicle.message import Message, message
from pellicle.product import Product

PPM = 1e6
ACCELERATOR = "accelerator"
# Salt that hides in other lines is worth a remark from this share of the green weight on. Own choice.
HIDDEN_FROM = 5e-4


def plan_lines(
    product: Product, exact: Formula, printed: Formula, finished: Finished | None, refused: bool
) -> tuple[PlanLine, ...]:
    """Return the meat and every line of the formula; no amounts to weigh where the plan is ``refused``."""
    spoons = {check.at: check.message for check in check_spoons(product, printed)}
    meat = PlanLine(
        ingredient=exact.meat.name,
        label=exact.meat.name,
        kg=None if refused else exact.raw_kg,
        exact_kg=None if refused else exact.raw_kg,
        percent_of_raw=PERCENT,
        percent_of_total=exact.percent_of_total(exact.raw_kg),
        percent_of_finished=None,
        is_meat=True,
        allergens=exact.meat.allergens,
    )
    pairs = zip(exact.lines, printed.lines, strict=True)
    return meat, *(_line(line, shown, printed, finished, refused, spoons.get(line.at)) for line, shown in pairs)


def _line(
    line: WeighedLine,
    shown: WeighedLine,
    printed: Formula,
    finished: Finished | None,
    refused: bool,
    spoon: Message | None,
) -> PlanLine:
    carries = [] if refused else _carries(shown, printed)
    allergens = sorted({allergen for part in line.parts for allergen in part.ingredient.allergens})
    return PlanLine(
        ingredient=line.line.ingredient,
        label=_label(line),
        kg=None if refused else shown.kg,
        exact_kg=None if refused else line.kg,
        percent_of_raw=printed.percent_of_raw(line.kg),
        percent_of_total=printed.percent_of_total(line.kg),
        percent_of_finished=None if finished is None or _all_water(line) else PERCENT * finished.share(line.kg),
        is_cure=any(is_cure(part.ingredient) for part in line.parts),
        is_limited=any(limited(part) for part in line.parts),
        allergens=tuple(allergens),
        carries=tuple(carries) if spoon is None or refused else (*carries, spoon),
    )


def _all_water(line: WeighedLine) -> bool:
    """True for plain water: it leaves again, and its share of the finished weight says nothing about the taste."""
    return float(line.composition.dry) == 0


def _label(line: WeighedLine) -> str:
    """The name as written; a cure with the strength on its label, since cures that look alike differ tenfold."""
    share = max((agent_share(part.ingredient.composition, "nitrite") for part in line.parts), default=0.0)
    cure = len(line.parts) == 1 and is_cure(line.parts[0].ingredient) and share > 0
    return f"{line.line.ingredient}, {percent(share)} nitrite" if cure else line.line.ingredient


def _carries(line: WeighedLine, formula: Formula) -> list[Message]:
    found = []
    composition = line.composition
    for agent in AGENTS:
        share = agent_share(composition, agent)
        if share:
            ppm = parts_per_million(_rounded(share * PPM / formula.raw_kg))
            found.append(message("answers.carries_agent", agent=agent, ppm=ppm))
    for name, kg in composition.solutes.items():
        if solute(name).group == ACCELERATOR and kg > 0:
            found.append(
                message("answers.carries_ppm", ppm=parts_per_million(_rounded(float(kg) * PPM / formula.raw_kg)))
            )
    if line.line.ingredient == "salt" and formula.hidden_salt_kg > HIDDEN_FROM * formula.raw_kg:
        whole = f"{formula.percent_of_raw(formula.salt_kg):.1f} %"
        found.append(message("answers.carries_salt", percent=whole))
    if len(line.parts) > 1:
        parts = ", ".join(f"{part.ingredient.name} {metric_mass(part.kg)}" for part in line.parts)
        found.append(message("answers.carries_parts", parts=parts))
    return found


def _rounded(ppm: float) -> float:
    return round(ppm, 1)
