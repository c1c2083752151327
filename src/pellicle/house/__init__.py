"""The machine: its kinds and positions, the air it can hold, and the schedule with what ends each step, all in SI.

Knows what a house does to the air; what the pieces do to it is coupled in time elsewhere.
"""
