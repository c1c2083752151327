"""What goes in: lines on their bases, mass balance with pickup, and the official cure arithmetic.

This room computes and judges nothing: parts per million come from here, whether they are too many is said in ``rules``.
"""
