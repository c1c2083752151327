"""Piece and house through a schedule: the rates of change, the stepper that follows them, and what came out.

``simulate`` is the door. Nothing in here judges lethality or texture.
"""
