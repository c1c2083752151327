"""Published limits as dated rows, the plant's own limits, and the verdicts: met, not met, cannot tell.

A limit is a row with jurisdiction, clause, basis, dates and source; a check applies it to a value on a day. Evidence
that is missing gives cannot tell, never met.
"""
