"""The plain figures that checks judge: what a formula and a pull weight come to, without how they were reached."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pellicle.formula.cure import DRY, PPM, WHOLE, Base
from pellicle.formula.cure_figures import AgentFigures, CureFigures
from pellicle.formula.cure_limit import largest_lawful_kg
from pellicle.formula.ions import As, factor
from pellicle.product import CureMethod

# what a limit is written in (column ``counted_as`` of the table), as ``formula`` expresses it
COUNTED = {
    "as weighed": As.WEIGHED,
    "NaNO2": As.SODIUM,
    "NaNO3": As.SODIUM,
    "NO2": As.ION,
    "NO3": As.ION,
}


@dataclass(frozen=True, slots=True)
class PlanQuantities:
    """Everything the checks of a plan need from its formula and its pull; None is not known.

    ``cure`` holds nitrite and nitrate (None: the formula brings neither, and no label is silent). ``salts_ppm``
    (ascorbate and erythorbate) and ``acids_ppm`` (ascorbic and erythorbic acid) are on the green weight.
    ``phosphate_share`` (added phosphates as weighed), ``phosphate_disodium_share`` (the same as disodium phosphate)
    and ``gluconolactone_share`` are kg/kg of the product as it goes into the house. Water activity (predicted, with
    its range), moisture to protein, ``salt_share`` (kg/kg of product) and ``brine_share`` (salt per salt and water)
    are at the pull; ``pickup_share`` is solution per green weight.
    """

    cure: CureFigures | None = None
    salts_ppm: float = 0.0
    acids_ppm: float = 0.0
    phosphate_share: float = 0.0
    phosphate_disodium_share: float | None = None
    gluconolactone_share: float = 0.0
    pull_known: bool = False
    aw_at_pull: float | None = None
    aw_low: float | None = None
    aw_high: float | None = None
    mpr_at_pull: float | None = None
    salt_share: float | None = None
    brine_share: float | None = None
    pickup_share: float | None = None

    @property
    def added_liquid(self) -> bool:
        """True where the formula adds any liquid beside its cure."""
        return self.cure is not None and bool(self.cure.liquids)


def brought(cure: CureFigures | None) -> tuple[AgentFigures, ...]:
    """Return the agents that the ingredients bring, and those that a silent label leaves open."""
    if cure is None:
        return ()
    return tuple(
        agent
        for agent in cure.agents
        if agent.at_least_ppm or agent.worst_case_ppm or agent.kg or not known(cure, agent.agent)
    )


def known(cure: CureFigures, agent: str = "nitrite") -> bool:
    """Return whether every ingredient's label says how much of an agent it brings."""
    return all(agent not in source.silent_on for source in cure.sources)


def all_potassium(agent: AgentFigures) -> bool:
    """Return whether the agent comes as its potassium salt only."""
    return agent.sodium_factor == factor(agent.agent, "potassium", As.SODIUM)


def factor_to(agent: AgentFigures, counted_as: str) -> float:
    """Return what one part of the agent's salts as weighed is, counted as a limit counts it."""
    return {As.WEIGHED: 1.0, As.SODIUM: agent.sodium_factor, As.ION: agent.ion_factor}[COUNTED[counted_as]]


@dataclass(frozen=True, slots=True)
class Lawful:
    """The most of one ingredient that keeps an agent within its limit, [kg]."""

    name: str
    kg: float


def largest_lawful(cure: CureFigures, agent: AgentFigures, limit_ppm: float) -> Lawful | None:
    """Return the most of the ingredient that brings most of an agent, for a limit in ppm of the salts as weighed.

    Every official sum of the method has to hold with it; the rest of the formula stays as it is. None where nothing
    bounds it or another label is silent.
    """
    bringing = [source for source in cure.sources if source.agent_kg(agent.agent) > 0]
    if not bringing:
        return None
    main = max(bringing, key=lambda source: source.agent_kg(agent.agent))
    amounts = [
        largest_lawful_kg(replace(cure, base=base), main, limit_ppm, agent.agent) for base in _bases(cure, agent)
    ]
    bounds = [kg for kg in amounts if kg is not None]
    return Lawful(main.name, min(bounds)) if bounds else None


def _bases(cure: CureFigures, agent: AgentFigures) -> tuple[Base | None, ...]:
    """The method's own base; for an immersion that of the other official sum too, for tumbled meat that of all taken
    up.

    A stated uptake is a guess at what the meat will take: the largest lawful amount does not lean on it.
    """
    own = (cure.base,)
    if cure.method is CureMethod.TUMBLED:
        return (*own, DRY)
    if cure.method is CureMethod.IMMERSION_PICKUP:
        return (*own, WHOLE)
    if cure.method is CureMethod.IMMERSION_WHOLE and agent.other_official_ppm and agent.kg and cure.pickle_kg:
        return (*own, Base(0.0, agent.kg * PPM / (agent.other_official_ppm * cure.pickle_kg)))
    return own
