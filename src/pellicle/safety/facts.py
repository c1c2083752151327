"""What lethality has to know of a product beside the series: its meat, and where its germs are."""

from __future__ import annotations

from dataclasses import dataclass

from pellicle.product import POULTRY
from pellicle.safety.printed_tables import MEAT
from pellicle.safety.printed_tables import POULTRY as POULTRY_TABLE

# Whole muscle against ground, in beef and in turkey: half the rate (orta-ramirez-2005).
INSIDE_FACTOR = 2.0


@dataclass(frozen=True, slots=True)
class LethalityFacts:
    """Species, where the germs are, how the surface starts, and what a probe may be off.

    ``species`` "" is not told: it is then counted as meat, and no verdict rests on it. ``inside``: the solution was
    tumbled or injected into whole muscle, or the meat was needled. ``sugar_share`` is the part of sugars and polyols
    in what is dissolved, by particles (0 to 1); ``surface_aw`` the water activity of the surface at the start where
    known. ``probe_error_c`` is taken off every core reading before it is held against a printed row. ``table_log``
    picks the column for meat: 6.5 or 7.
    """

    species: str = ""
    inside: bool = False
    sugar_share: float = 0.0
    surface_aw: float | None = None
    probe_error_c: float = 0.0
    table_log: float = 6.5

    @property
    def poultry(self) -> bool:
        """True for any poultry: its own lines and table hold, never those of beef."""
        return self.species in POULTRY

    @property
    def inside_factor(self) -> float:
        """What multiplies the time for one log for germs carried into whole muscle."""
        return INSIDE_FACTOR if self.inside else 1.0

    @property
    def table(self) -> str:
        """The printed table that holds: for poultry the longer of chicken and turkey, unless it is one of the two."""
        if not self.poultry:
            return MEAT
        return self.species if self.species in ("chicken", "turkey") else POULTRY_TABLE
