"""Write the table of kinds of house in ``docs/houses.md`` anew, after its data have changed."""

from __future__ import annotations

from pathlib import Path

from pellicle.house.film import Film, FilmFrom
from pellicle.house.kinds import HouseKind, house_kinds
from pellicle.units.kinds import HOUR_S

PAGE = Path(__file__).parents[1] / "docs" / "houses.md"
HEAD = "|---|---|---|---|---|---|---|\n"
AFTER = "\nThe film range is"


def row(kind: HouseKind) -> str:
    """Return the row of one kind of house."""
    film = Film(kind.film_w_m2k, kind.film_log_sd, FilmFrom.KIND)
    flows = (f"{value * HOUR_S:.3g}" for value in (kind.leak_kg_s, kind.full_fresh_kg_s))
    cells = (
        f"`{kind.name}`: {kind.label}",
        f"{film.w_m2k:g} ({film.low_w_m2k:.0f} to {film.high_w_m2k:.0f})",
        "yes" if kind.damper else "no",
        "yes" if kind.gas_fired else "no",
        f"{kind.volume_m3:g}",
        *flows,
    )
    return f"| {' | '.join(cells)} |\n"


def page(text: str) -> str:
    """Return the page with its table as the data have it."""
    before, _, rest = text.partition(HEAD)
    _, after, tail = rest.partition(AFTER)
    return before + HEAD + "".join(row(kind) for kind in house_kinds().values()) + after + tail


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text("utf-8")), "utf-8")
