"""What a formula, or a few weights, bring of nitrite and nitrate: every official figure, the worst case, and the sums
in words. Nothing here is judged; limits stand in ``rules``.

For immersion both official answers are given, whichever the plant declares. The worst case puts everything into the
green weight: that is where meat left in the pickle for ever, or a pickle drunk up to the last drop, would end.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pellicle.errors import InputError
from pellicle.food.ingredient import Ingredient
from pellicle.formula.cure import DRY, WHOLE, Base, base_of, ingoing_ppm, pickup_of
from pellicle.formula.ions import AGENTS, As, factor
from pellicle.formula.parts import Formula
from pellicle.formula.printed import metric_mass, parts_per_million, percent
from pellicle.message import Message, message
from pellicle.product import CureMethod, Uptake

Show = Callable[[float], str]
SALTS = ("sodium", "potassium")


@dataclass(frozen=True, slots=True)
class CureSource:
    """An ingredient that may bring a curing agent: its mass and the shares (kg/kg) of the agents' salts in it.

    ``silent_on`` names the agents of which nobody says how much it holds; its shares are then only the least there is.
    """

    name: str
    kg: float
    shares: dict[str, float]
    silent_on: tuple[str, ...] = ()

    def agent_kg(self, agent: str, to: As = As.WEIGHED) -> float:
        """Return the mass of an agent [kg]: its salts as weighed, or expressed otherwise."""
        return self.kg * sum(self.shares.get(f"{salt} {agent}", 0.0) * factor(agent, salt, to) for salt in SALTS)


@dataclass(frozen=True, slots=True)
class AgentFigures:
    """Nitrite, or nitrate: figures in ppm (mg/kg), each the weight of the salts as they were weighed.

    ``ingoing_ppm`` is the official figure of the method, ``other_official_ppm`` the other official answer for an
    immersion, ``worst_case_ppm`` all of it in the green weight, ``finished_ppm`` the ingoing amount, nothing used up,
    in the finished weight. None where unknown: ``why_unknown`` says why, and ``at_least_ppm`` what the known sources
    alone would give.
    """

    agent: str
    kg: float | None
    ingoing_ppm: float | None
    other_official_ppm: float | None
    worst_case_ppm: float | None
    finished_ppm: float | None
    at_least_ppm: float | None
    sodium_factor: float
    ion_factor: float
    basis: Message
    arithmetic: tuple[Message, ...]
    why_unknown: Message | None = None

    def expressed(self, ppm: float | None, to: As) -> float | None:
        """Return one of the figures expressed as the sodium salt or as the ion; None stays None."""
        if ppm is None:
            return None
        return ppm * {As.WEIGHED: 1.0, As.SODIUM: self.sodium_factor, As.ION: self.ion_factor}[to]


@dataclass(frozen=True, slots=True)
class CureFigures:
    """The curing agents of a formula or of a few weights, and what the figures rest on.

    ``base`` is what the method divides by, None where a pickup is missing; ``liquids`` name the added liquids (a rubbed
    cure allows none); ``pickup_known`` is True if the uptake was weighed or stated.
    """

    method: CureMethod | None
    green_kg: float
    pickle_kg: float
    base: Base | None
    pickup_known: bool
    sources: tuple[CureSource, ...]
    nitrite: AgentFigures
    nitrate: AgentFigures
    liquids: tuple[str, ...] = ()

    @property
    def agents(self) -> tuple[AgentFigures, AgentFigures]:
        """Return nitrite and nitrate."""
        return self.nitrite, self.nitrate


def from_formula(
    formula: Formula,
    method: CureMethod | None,
    uptake: Uptake,
    finished_kg: float | None = None,
    show: Show = metric_mass,
) -> CureFigures:
    """Return the cure's figures for a formula; every ingredient that holds nitrite or nitrate counts.

    ``finished_kg`` is the weight of the product for the undepleted figure; ``show`` prints a mass in the arithmetic.
    """
    sources = tuple(
        CureSource(
            part.ingredient.name,
            part.kg,
            {
                f"{salt} {agent}": float(part.ingredient.composition.solute(f"{salt} {agent}"))
                for salt in SALTS
                for agent in AGENTS
            },
            _silent_on(part.ingredient),
        )
        for part in formula.parts
    )
    kept = tuple(source for source in sources if source.kg > 0 and (any(source.shares.values()) or source.silent_on))
    liquids = tuple(part.ingredient.name for part in formula.liquid_parts)
    return _figures(kept, method, formula.raw_kg, formula.solution_kg, uptake, liquids, finished_kg, show)


def from_numbers(
    method: CureMethod | None,
    green_kg: float,
    cure_kg: float,
    nitrite_share: float,
    nitrate_share: float = 0.0,
    potassium: bool = False,
    pickle_kg: float | None = None,
    pickup_share: float | None = None,
    show: Show = metric_mass,
) -> CureFigures:
    """Return the cure's figures for plain weights [kg]: a cure of a strength (kg/kg) for so much meat.

    ``pickle_kg`` is the mass of the whole pickle, the cure in it; ``pickup_share`` what the meat takes up of it per
    green weight. Injection and immersion need a pickle. InputError for what cannot be.

    >>> figures = from_numbers(CureMethod.TUMBLED, 22.7, 0.057, 0.0625, pickle_kg=None)
    >>> round(figures.nitrite.ingoing_ppm, 1)
    156.9
    """
    for value, field in ((green_kg, "--meat"), (cure_kg, "--cure")):
        if not value > 0:
            raise InputError("formula.bad_weight", field=field, read=f"{value:g} kg")
    if not 0 <= nitrite_share + nitrate_share <= 1:
        raise InputError("formula.strength_over_whole", field="--nitrite", name="cure")
    if pickle_kg is None and (pickup_share is not None or method in _NEED_PICKLE):
        raise InputError("formula.pickle_needed", field="--pickle", method=str(method or ""))
    if pickle_kg is not None and not pickle_kg >= cure_kg:
        raise InputError("formula.pickle_below_cure", field="--pickle", pickle=show(pickle_kg), cure=show(cure_kg))
    if pickup_share is not None and pickle_kg is not None and not 0 <= pickup_share * green_kg <= pickle_kg:
        read, added = f"{percent(pickup_share)} of raw", f"{percent(pickle_kg / green_kg)} of raw"
        raise InputError("formula.more_than_solution", field="--pickup", read=read, added=added)
    salt = SALTS[1] if potassium else SALTS[0]
    source = CureSource("cure", cure_kg, {f"{salt} nitrite": nitrite_share, f"{salt} nitrate": nitrate_share})
    liquids = () if pickle_kg is None else ("pickle",)
    return _figures(
        (source,), method, green_kg, pickle_kg or 0.0, Uptake(pickup_share=pickup_share), liquids, None, show
    )


def _silent_on(ingredient: Ingredient) -> tuple[str, ...]:
    known = {"nitrite": ingredient.nitrite_known, "nitrate": ingredient.nitrate_known}
    return tuple(agent for agent in AGENTS if not known[agent])


_NEED_PICKLE = (CureMethod.INJECTED, CureMethod.IMMERSION_PICKUP, CureMethod.IMMERSION_WHOLE)
_OTHER_METHOD = {
    CureMethod.IMMERSION_PICKUP: CureMethod.IMMERSION_WHOLE,
    CureMethod.IMMERSION_WHOLE: CureMethod.IMMERSION_PICKUP,
}


def _figures(
    sources: tuple[CureSource, ...],
    method: CureMethod | None,
    green_kg: float,
    pickle_kg: float,
    uptake: Uptake,
    liquids: tuple[str, ...],
    finished_kg: float | None,
    show: Show,
) -> CureFigures:
    base = base_of(method, uptake, bool(liquids))
    other = base_of(_OTHER_METHOD[method], uptake, bool(liquids)) if method in _OTHER_METHOD else None
    words = _Words(green_kg, pickle_kg, uptake, show)
    nitrite, nitrate = (_agent(agent, sources, base, other, finished_kg, words) for agent in AGENTS)
    known = pickup_of(uptake) is not None or uptake.taken_share is not None
    return CureFigures(method, green_kg, pickle_kg, base, known, sources, nitrite, nitrate, liquids)


@dataclass(frozen=True, slots=True)
class _Words:
    """The weights a sum is made of, and how to print a mass."""

    green_kg: float
    pickle_kg: float
    uptake: Uptake
    show: Show

    def sum(self, agent: str, kg: float, base: Base) -> Message:
        """Return the official sum on a base in words."""
        values = {
            "agent": agent,
            "mass": self.show(kg),
            "green": self.show(self.green_kg),
            "pickle": self.show(self.pickle_kg),
            "ppm": parts_per_million(ingoing_ppm(kg, base, self.green_kg, self.pickle_kg)),
        }
        if base == DRY:
            return message("formula.sum_dry", **values)
        if base == WHOLE:
            return message("formula.sum_whole", **values)
        if base.pickle:
            return message("formula.sum_pickup", **values, pickup=percent(pickup_of(self.uptake) or 0.0))
        return message("formula.sum_taken", **values, taken=percent(self.uptake.taken_share or 0.0))


def _basis(base: Base | None) -> Message:
    if base is None:
        return message("formula.basis_unknown")
    if base == WHOLE:
        return message("formula.basis_whole")
    return message("formula.basis_green" if base == DRY else "formula.basis_pickup")


def _agent(
    agent: str,
    sources: Sequence[CureSource],
    base: Base | None,
    other: Base | None,
    finished_kg: float | None,
    words: _Words,
) -> AgentFigures:
    bringing = [source for source in sources if source.agent_kg(agent) > 0]
    kg = sum(source.agent_kg(agent) for source in bringing)
    unknown = [source.name for source in sources if agent in source.silent_on]
    least = None if base is None else ingoing_ppm(kg, base, words.green_kg, words.pickle_kg)
    ingoing = None if unknown else least
    why = _why(agent, unknown, base)
    lines = [
        message(
            "formula.sum_source",
            name=source.name,
            cure=words.show(source.kg),
            share=percent(source.agent_kg(agent) / source.kg),
            agent=agent,
            mass=words.show(source.agent_kg(agent)),
        )
        for source in bringing
    ]
    lines += [words.sum(agent, kg, each) for each in (base, other) if each is not None and kg]
    return AgentFigures(
        agent=agent,
        kg=None if unknown else kg,
        ingoing_ppm=ingoing,
        other_official_ppm=None
        if unknown or other is None
        else ingoing_ppm(kg, other, words.green_kg, words.pickle_kg),
        worst_case_ppm=None if unknown else ingoing_ppm(kg, DRY, words.green_kg),
        finished_ppm=None if ingoing is None or not finished_kg else ingoing * words.green_kg / finished_kg,
        at_least_ppm=least,
        sodium_factor=_factor(agent, bringing, As.SODIUM),
        ion_factor=_factor(agent, bringing, As.ION),
        basis=_basis(base),
        arithmetic=tuple(lines) if why is None else (*lines, why),
        why_unknown=why,
    )


def _why(agent: str, unknown: Sequence[str], base: Base | None) -> Message | None:
    if unknown:
        return message("formula.agent_unknown", names=", ".join(unknown), agent=agent)
    return message("formula.pickup_unknown") if base is None else None


def _factor(agent: str, sources: Sequence[CureSource], to: As) -> float:
    kg = sum(source.agent_kg(agent) for source in sources)
    if not kg:
        return factor(agent, "sodium", to)
    return sum(source.agent_kg(agent, to) for source in sources) / kg
