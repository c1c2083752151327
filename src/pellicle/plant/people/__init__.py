"""The people of the plant: accounts, signing in and out, the first page of all. Verbs stand in ``services``."""
