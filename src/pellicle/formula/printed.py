"""Numbers as they stand in this room's sentences."""

from __future__ import annotations

PERCENT = 100.0  # per cent per unit share
G_PER_KG = 1000.0


def percent(share: float, digits: int = 4) -> str:
    """Return a share as per cent, to a number of significant digits.

    >>> percent(0.0625), percent(0.1668934, 3)
    ('6.25 %', '16.7 %')
    """
    return f"{PERCENT * share:.{digits}g} %"


def metric_mass(kg: float) -> str:
    """Return a mass in kg or, below one, in g, to five significant digits.

    >>> metric_mass(22.7), metric_mass(0.057)
    ('22.7 kg', '57 g')
    """
    return f"{kg:.5g} kg" if kg >= 1 else f"{G_PER_KG * kg:.5g} g"


def parts_per_million(value: float) -> str:
    """Return a figure in ppm with the decimals that a comparison by eye needs.

    >>> parts_per_million(156.25), parts_per_million(200.0), parts_per_million(156.94)
    ('156.25 ppm', '200 ppm', '156.94 ppm')
    """
    return f"{value:.2f}".rstrip("0").rstrip(".") + " ppm"
