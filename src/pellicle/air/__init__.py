"""Humid air: what the wet and the dry bulb, the relative humidity and the dew point say of each other, at any altitude.

Knows no meat and no house. Bodies are plain enough for the kernel to compile.
"""
