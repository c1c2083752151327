"""The entry point: commands by name, and refusals as one sentence on stderr with status 2."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from pellicle import __version__
from pellicle.cli.air import air
from pellicle.cli.aw import aw
from pellicle.cli.cure import cure
from pellicle.cli.keep import backup, restore, verify
from pellicle.cli.lethality import lethality
from pellicle.cli.lists import ingredients, rules, sources
from pellicle.cli.new import new, schema
from pellicle.cli.plan import plan
from pellicle.cli.run import run
from pellicle.cli.serve import serve
from pellicle.errors import InputError, PellicleError

BAD_INPUT = 2

app = typer.Typer(
    help="From a product file to the weight to pull at: what to weigh, whether the cure is inside its limit, "
    "and how water activity moves as water leaves.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Exit status: 0 done; 1 done, and some check is not met; 2 bad input.",
)
app.command()(plan)
app.command()(run)
app.command()(aw)
app.command()(cure)
app.command()(lethality)
app.command()(air)
app.command()(ingredients)
app.command()(rules)
app.command()(sources)
app.command()(new)
app.command()(schema)
app.command()(serve)
app.command()(backup)
app.command()(restore)
app.command()(verify)


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"pellicle {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and end.")
    ] = False,
) -> None:
    pass


def main() -> None:
    """Run the command line; a refusal is printed on stderr and ends with status 2."""
    try:
        app()
    except PellicleError as error:
        print(refusal(error), file=sys.stderr)
        sys.exit(BAD_INPUT)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)


def refusal(error: PellicleError) -> str:
    """Return the sentence of an error, with file and line where it stood in one."""
    if isinstance(error, InputError) and (error.file or error.line):
        place = error.file or "product file"
        line = f", line {error.line}" if error.line else ""
        return f"{place}{line}: {error}"
    return str(error)
