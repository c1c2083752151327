"""Bringing the tables up to this version, one process at a time, and the guards of the audit with them."""

from __future__ import annotations

from django.core.management import call_command
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader

from pellicle.errors import PellicleError
from pellicle.plant.audit.guards import install, missing
from pellicle.plant.folder import PRIVATE_FILE, Folder
from pellicle.plant.start.lock import LockedError, held

WAIT_S = 60.0


def known_migrations() -> set[str]:
    """Return every step that this version knows."""
    return {f"{app}.{name}" for app, name in MigrationLoader(None).disk_migrations}


def migrate(folder: Folder) -> tuple[str, ...]:
    """Take the missing steps and return the guards of the audit that were found missing in finished tables.

    PellicleError where the tables are of a newer version than this program, or another process does not finish.
    """
    try:
        with held(folder.migrating, WAIT_S):
            # before the engine makes it: what it writes beside the file gets the file's mode
            folder.database.touch(mode=PRIVATE_FILE)
            executor = MigrationExecutor(connection)
            taken = {f"{app}.{name}" for app, name in executor.loader.applied_migrations}
            newer = sorted(taken - known_migrations())
            if newer:
                raise PellicleError("plant_start.newer", folder=str(folder.path), step=newer[0])
            gone = missing(connection)
            if executor.migration_plan(executor.loader.graph.leaf_nodes()):
                call_command("migrate", interactive=False, verbosity=0)
            install(connection)
    except LockedError:
        raise PellicleError("plant_start.migrating", folder=str(folder.path)) from None
    return gone
