"""The command line: one file per command, each thin. Heavy rooms are imported when a command runs, so that help is quick."""

from pellicle.cli.main import main

__all__ = ["main"]
