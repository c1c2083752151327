"""The command line: one thin file per command. Heavy rooms are imported when a command runs: help is quick."""

from pellicle.cli.main import main

__all__ = ["main"]
