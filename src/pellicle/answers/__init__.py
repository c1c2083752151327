"""One pure function per command, each returning one frozen answer; the page, the sheet and the JSON only render it.

The weight to pull at is made here, because it needs matter, formula and rules together.
"""
