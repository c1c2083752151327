"""The lower bound of what is credited: the 10th percentile of draws about the published mean.

The draws are a full grid of equally likely values, so the same series always has the same bound: the time for one log
at 60 C (between studies, between strains, the rest), z, and how much dryness protects. The line for decisions, which
is an envelope, is not divided again.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from pellicle.measured.series import Array, Series
from pellicle.safety.credit import Ends, amounts, log_d
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.inactivation import amplitude
from pellicle.safety.organisms import Organism

# section 7.3 of the review, log10 units, and section 8 for z; the strains are those of the second
SOURCES = ("lethality-review", "aryani-2015")
STUDY_SD, STRAIN_SD, REST_SD = 0.30, 0.22, 0.10
Z_SD_C = 0.5
# 0.35 at a water activity of 0.85, where the shift is 1.18: a third of the amplitude (lethality-review, section 2.2).
AMPLITUDE_SD = 0.30
PROBE_SD_C = 0.5
QUANTILE = 0.10
Z_NODES, AMPLITUDE_NODES, D_NODES = 9, 5, 101
LEAST_Z_C = 3.0


def lower_bound(parts: Ends, series: Series, facts: LethalityFacts, organism: Organism) -> float:
    """Return the log reduction that nine in ten draws exceed, over the credited parts of one face."""
    return float(np.quantile(draws(parts, series, facts, organism), QUANTILE))


def draws(parts: Ends, series: Series, facts: LethalityFacts, organism: Organism) -> Array:
    """Return equally likely log reductions over the credited parts of one face, in no order."""
    mean = organism.mean
    floor = organism.poultry and organism.name == "salmonella"
    z_step, amplitude_step = (
        grid.reshape(-1, 1) for grid in np.meshgrid(normal_nodes(Z_NODES), normal_nodes(AMPLITUDE_NODES))
    )
    drawn = amplitude(facts.sugar_share) * np.maximum(1.0 + AMPLITUDE_SD * amplitude_step, 0.0)
    below, above = (np.maximum(z_c + Z_SD_C * z_step, LEAST_Z_C) for z_c in (mean.z_below_c, mean.z_above_c))
    log_d_of = log_d(mean.d60_s, below, above, drawn, facts.inside_factor, floor)
    found = np.sum(amounts(parts, log_d_of), axis=-1)
    sd = log_d_sd(measured=not series.simulated, z_c=mean.z_below_c)
    every: Array = np.multiply.outer(found, 10.0 ** (-sd * normal_nodes(D_NODES))).ravel()
    return every


def log_d_sd(measured: bool, z_c: float) -> float:
    """Return the standard deviation of log10 of the time for one log; a probe's own error counts in a log.

    >>> round(log_d_sd(True, 5.56), 2)
    0.4
    """
    probe = PROBE_SD_C / z_c if measured else 0.0
    return math.sqrt(STUDY_SD**2 + STRAIN_SD**2 + REST_SD**2 + probe**2)


@cache
def normal_nodes(count: int) -> Array:
    """Return equally likely values of a standard normal: the quantiles in the middle of so many equal parts.

    >>> [round(float(node), 2) for node in normal_nodes(3)]
    [-0.97, 0.0, 0.97]
    """
    from scipy.special import ndtri

    found: Array = ndtri((np.arange(count) + 0.5) / count)
    return found
