"""From a product's lines on their bases to masses, for any green weight or any total.

A line's mass is a share of the green weight R, of everything together T = R + S, of all that is not meat S, or a mass
that stands for the file's own green weight. Each mass is therefore ``a R + b T + c S``, and summed over the lines

    S = A R + B (R + S) + C S,   so   S = R (A + B) / (1 - B - C),

which has an answer while the shares of the total and of the solution stay below 100 % together. Everything scales with
R. A cure given by its target is turned into such a share through the base of its method's official sum (``cure``).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.ingredients import Catalogue, Ingredient, is_cure
from pellicle.formula.cure import DRY, PPM, Base, base_of
from pellicle.formula.ions import AGENTS
from pellicle.formula.mixture import Portion, open_line
from pellicle.formula.parts import LIQUID_FROM_WATER, Formula, Part
from pellicle.formula.printed import metric_mass, parts_per_million, percent
from pellicle.formula.species import refuse_other_form, refuse_other_species
from pellicle.formula.strength import agent_share
from pellicle.product import CureMethod, Line, OwnIngredient, Product
from pellicle.units import Basis

__all__ = ["Formula", "Part", "resolve"]

# Less nitrite or nitrate than this share of the meat does nothing that anybody cures for (40 ppm has some value, by the
# inspectors' handbook); such an amount is a slip. Own choice.
TRACE = 20e-6
# A home batch is a few hundred grams; less is a unit mistyped. Own choice.
LEAST_KG = 0.02
MOST_OF_RAW = 3.0  # kg of one line per kg of meat; a cover pickle of three times the meat. assumed: common practice


def resolve(
    product: Product, catalogue: Catalogue, raw_kg: float | None = None, total_kg: float | None = None
) -> Formula:
    """Return every line of a product with its mass [kg], for ``raw_kg`` of meat, for ``total_kg`` of meat and all the
    rest together, or for the green weight in the product.

    A cure by target of raw puts that much of the agent into the green weight when rubbed, tumbled, ground or unstated,
    even where some of the solution is known to stay behind: no more than the target can reach the meat. Injected and
    immersed meat meets it under the official sum of its method, by the pickup, or over meat and pickle together for
    ``immersion-whole``. The target is the mass of the agent's salt as weighed, and what other lines bring of it comes
    on top. InputError, under the line's field, for anything that cannot be weighed out.
    """
    _refuse_weights(product, raw_kg, total_kg)
    shelf = catalogue.with_own(*product.own_ingredients).with_bags(*product.bags.values())
    meat = _meat(product, shelf)
    opened = [open_line(line, _field(at), product.mixtures, shelf) for at, line in enumerate(product.formula)]
    _refuse_twice(product.formula, opened)
    reference_kg = _reference(product, raw_kg)
    base = _target_base(product, any(_liquid(portions) for portions in opened))
    shares = [
        _shares(line, at, portions, product, base, reference_kg)
        for at, (line, portions) in enumerate(zip(product.formula, opened, strict=True))
    ]
    solution_per_raw = _solution(shares, product.formula)
    raw = _raw(product, raw_kg, total_kg, solution_per_raw)
    parts: list[Part] = []
    for at, (line, portions, share) in enumerate(zip(product.formula, opened, shares, strict=True)):
        per_raw = share.raw + share.total * (1 + solution_per_raw) + share.solution * solution_per_raw
        if per_raw > MOST_OF_RAW:
            raise _refusal("formula.too_much", line, at, percent=percent(per_raw, 3), most=percent(MOST_OF_RAW))
        _refuse_trace(line, at, portions, per_raw)
        parts += [
            Part(line, portion.ingredient, per_raw * raw * portion.share, portion.of_mixture, at)
            for portion in portions
        ]
    refuse_other_species(product.species, meat, [part.ingredient for part in parts])
    refuse_other_form(product.form, meat)
    solution_kg = sum(part.kg for part in parts)
    return Formula(raw, meat, tuple(parts), solution_kg, raw + solution_kg)


@dataclass(frozen=True, slots=True)
class _Shares:
    """A line's mass as ``raw R + total T + solution S``."""

    raw: float = 0.0
    total: float = 0.0
    solution: float = 0.0


def _refuse_trace(line: Line, at: int, portions: Sequence[Portion], per_raw: float) -> None:
    """Refuse a cure that would bring next to nothing: an amount meant as nitrite and written as cure, or a slip."""
    if len(portions) > 1 or line.amount.agent or not is_cure(portions[0].ingredient):
        return
    brought = {agent: agent_share(portions[0].ingredient.composition, agent) * per_raw for agent in AGENTS}
    agent = max(AGENTS, key=lambda name: brought[name])
    if 0 < brought[agent] < TRACE:
        ppm = parts_per_million(brought[agent] * PPM)
        read = line.amount.text or percent(per_raw, 3)
        hint = f'amount = "{ppm} {agent} of raw"'
        raise _refusal("formula.cure_too_little", line, at, agent=agent, read=read, ppm=ppm, hint=hint)


def _refuse_weights(product: Product, raw_kg: float | None, total_kg: float | None) -> None:
    if raw_kg is not None and total_kg is not None:
        raise InputError("formula.two_weights", field="--raw")
    for value, field in ((raw_kg, "--raw"), (total_kg, "--total"), (product.meat.raw_kg, "meat.raw")):
        if value is not None and not (math.isfinite(value) and value > 0):
            raise InputError("formula.bad_weight", field=field, read=f"{value:g} kg")
        if value is not None and value < LEAST_KG:
            raise InputError("formula.tiny_batch", field=field, read=metric_mass(value), least=metric_mass(LEAST_KG))


def _target_base(product: Product, liquid: bool) -> Base | None:
    """What a target divides by: the official sum's base, but the green weight for what is tumbled."""
    return DRY if product.cure_method is CureMethod.TUMBLED else base_of(product.cure_method, product.uptake, liquid)


def _field(at: int) -> str:
    return f"formula[{at + 1}]"


def _refusal(id: str, line: Line, at: int, key: str = "amount", **values: str) -> InputError:
    return InputError(id, field=f"{_field(at)}.{key}", line=line.line, name=line.ingredient, **values)


def _meat(product: Product, shelf: Catalogue) -> Ingredient:
    meat = product.meat
    if meat.per_100g is None:
        return shelf.find(meat.ingredient, "meat.ingredient")
    own = OwnIngredient(meat.ingredient, meat.per_100g, label=meat.ingredient, group="meat")
    return shelf.with_own(own, field="meat.per_100g").find(meat.ingredient, "meat.ingredient")


def _refuse_twice(lines: Sequence[Line], opened: Sequence[tuple[Portion, ...]]) -> None:
    seen: dict[str, int] = {}
    for at, (line, portions) in enumerate(zip(lines, opened, strict=True)):
        name = line.ingredient if portions[0].of_mixture else portions[0].ingredient.name
        if name in seen:
            raise _refusal("formula.twice", line, at, "ingredient", first=str(seen[name] + 1), second=str(at + 1))
        seen[name] = at


def _liquid(portions: Sequence[Portion]) -> bool:
    return any(float(portion.ingredient.composition.water) > LIQUID_FROM_WATER for portion in portions)


def _reference(product: Product, raw_kg: float | None) -> float | None:
    """The green weight that absolute amounts stand for: the file's own, else the one asked for."""
    return product.meat.raw_kg if product.meat.raw_kg is not None else raw_kg


def _shares(
    line: Line, at: int, portions: Sequence[Portion], product: Product, base: Base | None, reference_kg: float | None
) -> _Shares:
    amount = line.amount
    if not (math.isfinite(amount.value) and amount.value >= 0):
        raise _refusal("formula.bad_amount", line, at, read=amount.text or str(amount.value))
    value = amount.value
    if amount.bags:
        value *= _bag_kg(line, at, portions, product)
    if amount.agent:
        value /= _strength(line, at, portions)
    if amount.basis is Basis.ABSOLUTE:
        if reference_kg is None:
            raise InputError("formula.no_raw_for_absolute", field="meat.raw", line=line.line, name=line.ingredient)
        return _Shares(raw=value / reference_kg)
    if amount.agent and amount.basis is Basis.RAW:
        return _target(value, base, line, at)
    return {
        Basis.RAW: _Shares(raw=value),
        Basis.TOTAL: _Shares(total=value),
        Basis.SOLUTION: _Shares(solution=value),
    }[amount.basis]


def _bag_kg(line: Line, at: int, portions: Sequence[Portion], product: Product) -> float:
    bag = product.bags.get(portions[0].ingredient.name)
    if bag is None:
        raise _refusal("formula.no_such_bag", line, at)
    if bag.kg is None:
        raise InputError("formula.bag_weight", field=f"bag.{bag.name}.weight", line=line.line, name=bag.name)
    return bag.kg


def _strength(line: Line, at: int, portions: Sequence[Portion]) -> float:
    mixed = sum((portion.ingredient.composition * portion.share for portion in portions), start=Composition())
    share = agent_share(mixed, line.amount.agent)
    if not share:
        raise _refusal("formula.target_without_agent", line, at, agent=line.amount.agent)
    return share


def _target(share: float, base: Base | None, line: Line, at: int) -> _Shares:
    """The agent's share of raw, over the cure's strength, met under the official sum: it divides by ``base``."""
    if base is None or not (math.isfinite(base.green) and math.isfinite(base.pickle)):
        raise _refusal("formula.target_needs_pickup", line, at)
    return _Shares(raw=share * base.green, solution=share * base.pickle)


def _solution(shares: Sequence[_Shares], lines: Sequence[Line]) -> float:
    """All that is not meat, per kg of meat."""
    raw = sum(share.raw for share in shares)
    total, solution = sum(share.total for share in shares), sum(share.solution for share in shares)
    if total + solution >= 1:
        field = next(_field(at) for at, share in enumerate(shares) if share.total or share.solution)
        raise InputError("formula.shares_full", field=f"{field}.amount", percent=percent(total + solution))
    if solution and not raw + total:
        at = next(at for at, share in enumerate(shares) if share.solution)
        raise _refusal("formula.nothing_to_share", lines[at], at)
    return (raw + total) / (1 - total - solution)


def _raw(product: Product, raw_kg: float | None, total_kg: float | None, solution_per_raw: float) -> float:
    if total_kg is not None:
        return total_kg / (1 + solution_per_raw)
    raw = product.meat.raw_kg if raw_kg is None else raw_kg
    if raw is None:
        raise InputError("formula.no_raw", field="meat.raw")
    return raw
