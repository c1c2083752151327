"""From a folder to a first page: checks, locks, tables, and the server. Read ``serve`` first."""
