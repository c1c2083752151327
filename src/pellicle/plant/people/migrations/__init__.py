"""The steps that made the tables, in order."""
