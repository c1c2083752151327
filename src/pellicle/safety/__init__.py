"""Lethality, growth and keeping: numbers with their doubt, from a measured or a simulated series alike.

Nothing here judges; limits and targets are the business of ``rules``. Read ``inactivation`` for the equation, then
``credit`` for what may be counted, then ``lethality`` for the four numbers that are shown together.
"""
