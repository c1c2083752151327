"""Pellicle: from a product file for dried, smoked or cured whole-muscle meat to the weight to pull at.

product -> formula -> mixture on the rack -> run through the house -> lethality, growth -> rules -> answer -> page

Data goes one way along that line, and a room of this package imports only what stands before it. The ground (product,
parameter, figure, table, relation, source, message, units, errors) knows nothing of meat; ``food``, ``formula``,
``rules`` and ``answers`` build on it in that order; ``files``, ``report`` and ``cli`` are the edges where formats and
frameworks live. Rooms of the line that are not there yet are waiting for their issues.
"""

__version__ = "0.1.0"
