"""Who may do what: the roles, the actions, the one table between them, and the one guard that reads it."""
