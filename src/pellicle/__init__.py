"""Pellicle: from a product file to the weight to pull at.

product -> formula -> mixture on the rack -> run through the house -> lethality, growth -> rules -> answer -> page, PDF, JSON
"""

__version__ = "0.1.0"
