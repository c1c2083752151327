"""``python -m pellicle`` is the command line."""

from pellicle.cli import main

main()
