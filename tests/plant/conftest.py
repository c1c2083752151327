"""A plant for every test: a migrated database file is made once and copied in place, which takes a millisecond."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings
from django.db import connections
from django.test.utils import setup_test_environment, teardown_test_environment

from invented_plant import COOKIES, NAMES, PASSWORD, person, signed_in
from pellicle.plant.folder import Folder, make
from pellicle.plant.people.services import add_person, change_own_password, make_owner
from pellicle.plant.roles.table import Role
from pellicle.plant.start.migrate import migrate


def put(database: Path) -> None:
    """Put a copy of a database in the place of the plant's."""
    connections.close_all()
    for suffix in ("-wal", "-shm"):
        Path(f"{settings.DATA.database}{suffix}").unlink(missing_ok=True)
    shutil.rmtree(settings.DATA.replaced, ignore_errors=True)
    shutil.copyfile(database, settings.DATA.database)


@pytest.fixture(scope="session")
def databases(tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, Path]]:
    """Make a new plant and one with people, each as one file."""
    setup_test_environment()
    kept = tmp_path_factory.mktemp("plants")
    make(settings.DATA)

    def keep(name: str) -> Path:
        connections.close_all()  # folds the log into the file
        return Path(shutil.copyfile(settings.DATA.database, kept / name))

    migrate(settings.DATA)
    found = {"new": keep("new")}
    owner = make_owner(NAMES[Role.OWNER], PASSWORD)
    for role in (Role.LEAD, Role.MAKER, Role.READER):
        change_own_password(add_person(NAMES[role], role, PASSWORD, owner), PASSWORD)
    for role in Role:
        COOKIES[role] = signed_in(person(role))
    found["peopled"] = keep("peopled")
    yield found
    teardown_test_environment()


@pytest.fixture
def new_plant(databases: dict[str, Path]) -> Iterator[Folder]:
    """A plant that nobody has opened yet."""
    put(databases["new"])
    yield settings.DATA
    connections.close_all()


@pytest.fixture
def plant(databases: dict[str, Path]) -> Iterator[Folder]:
    """A plant with Olga the owner, Lea the lead, Max the maker and Rita the reader."""
    put(databases["peopled"])
    yield settings.DATA
    connections.close_all()
