"""Setting Django up on a data folder. Nothing that has tables can be imported before."""

from __future__ import annotations

import os

from pellicle.errors import InputError
from pellicle.plant.folder import VARIABLE, Folder, make


def prepare(folder: Folder) -> None:
    """Make the data folder; InputError where that cannot be."""
    try:
        make(folder)
    except OSError as error:
        raise InputError(
            "plant_start.no_folder", field="--data", folder=str(folder.path), reason=error.strerror or str(error)
        ) from None


def set_up(folder: Folder) -> None:
    """Set Django up on a folder, once in a process."""
    os.environ[VARIABLE] = str(folder.path)
    os.environ["DJANGO_SETTINGS_MODULE"] = "pellicle.plant.settings"
    import django

    django.setup()


def open_plant(folder: Folder) -> None:
    """Set Django up on a folder that holds a plant already, its tables at this version; InputError if it holds none."""
    from pellicle.plant.start.migrate import migrate

    if not folder.database.exists():
        raise InputError("plant_keep.nothing", field="--data", folder=str(folder.path))
    set_up(folder)
    migrate(folder)
