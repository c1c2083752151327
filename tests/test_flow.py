"""The import contracts cover every room, and would notice a fault: each is planted in a copy and must be found."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from everything import PACKAGE, TOP

EDGES = {"cli", "plant", "report", "files"}
CONTRACTS = {
    contract["id"]: contract
    for contract in tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
}

FAULTS = {
    "a lower room imports a higher one": ("food/composition.py", "import pellicle.answers\n"),
    "siblings know each other": ("files/text.py", "import pellicle.report\n"),
    "the ground imports a room": ("figure.py", "import pellicle.food\n"),
    "a framework in the core": ("rules/verdict.py", "import pydantic\n"),
    "a compiler in the core": ("relation.py", "import numba\n"),
    "a folder that is on no list": ("attic/__init__.py", '"""Odds and ends."""\n'),
    "a command that computes reaches the server": ("cli/plan.py", "import pellicle.plant.folder\n"),
    "the server's framework in a rendering": ("report/document.py", "import django\n"),
    "two modules in a circle": ("errors.py", "import pellicle.table\n"),
}


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    """Check the contracts on the copy of the package in ``folder``."""
    command = [Path(sys.executable).with_name("lint-imports"), "--no-cache", "--no-logo"]
    environment = {**os.environ, "PYTHONPATH": str(folder)}
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True)


def copy(folder: Path) -> Path:
    shutil.copytree(PACKAGE, folder / "pellicle", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(TOP / "pyproject.toml", folder)
    return folder / "pellicle"


def rooms() -> set[str]:
    folders = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}
    return folders | {path.stem for path in PACKAGE.glob("*.py") if not path.stem.startswith("__")}


def test_every_room_of_the_core_is_kept_from_frameworks() -> None:
    watched = {
        name.removeprefix("pellicle.") for id in ("core", "compiled") for name in CONTRACTS[id]["source_modules"]
    }
    assert watched == rooms() - EDGES


@pytest.mark.slow
def test_the_contracts_are_kept(tmp_path: Path) -> None:
    copy(tmp_path)
    result = lint(tmp_path)
    assert result.returncode == 0, result.stdout


@pytest.mark.slow
@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_found(fault: str, tmp_path: Path) -> None:
    name, line = FAULTS[fault]
    planted = copy(tmp_path) / name
    planted.parent.mkdir(exist_ok=True)
    with planted.open("a", encoding="utf-8") as file:
        file.write(line)
    assert lint(tmp_path).returncode != 0
