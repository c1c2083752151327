"""What was measured, or what a run would have measured: plain types without any judgement.

``series`` holds what a lethality computation may read, whether a probe logged it or a run computed it.
"""
