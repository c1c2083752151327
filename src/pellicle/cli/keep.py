"""``pellicle backup``, ``restore`` and ``verify``: the plant's data as one file, and the check of its audit."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from pellicle.cli.serve import DataOption
from pellicle.cli.shared import finish
from pellicle.message import message, say

BROKEN = 1


def backup(
    file: Annotated[Path, typer.Argument(help="The file to write; best on another disk.", show_default=False)],
    data: DataOption = None,
) -> None:
    """Write everything the plant has kept to one file; people may go on working."""
    from pellicle.plant.folder import of
    from pellicle.plant.start.setup import open_plant

    folder = of(data)
    open_plant(folder)
    from pellicle.plant.audit.models import short
    from pellicle.plant.keep.backup import backup as make

    kept = make(folder, file)
    found = kept.manifest
    finish(say(message("plant_keep.made", file=str(file), entries=found.entries, head=short(found.head))))


def restore(
    file: Annotated[Path, typer.Argument(help="A file that pellicle backup wrote.", show_default=False)],
    data: DataOption = None,
) -> None:
    """Put a backup in the place of the plant's data; it is checked first, and what it replaces is kept."""
    from pellicle.plant.folder import of
    from pellicle.plant.keep.archive import refuse_unreadable
    from pellicle.plant.start.setup import prepare, set_up

    refuse_unreadable(file)
    folder = of(data)
    prepare(folder)
    set_up(folder)
    from pellicle.plant.audit.models import short
    from pellicle.plant.keep.restore import restore as put_back

    done = put_back(folder, file)
    found = done.manifest
    finish(say(message("plant_keep.restored", made=found.made_at, entries=found.entries, head=short(found.head))))
    if done.replaced is not None:
        finish(say(message("plant_keep.replaced", folder=str(done.replaced))))


def verify(
    head: Annotated[
        str, typer.Option(help="A head printed on a record or a backup, to be looked for.", show_default=False)
    ] = "",
    data: DataOption = None,
) -> None:
    """Check that nothing was changed in or taken out of the plant's audit, and say where it breaks."""
    from pellicle.plant.folder import of
    from pellicle.plant.start.setup import open_plant

    open_plant(of(data))
    from pellicle.plant.audit.tell import told

    sentences, whole = told(head)
    finish("\n".join(sentences))
    if not whole:
        raise typer.Exit(BROKEN)
