"""What is shipped is the wheel: it must hold every table and text, and work where there is no checkout."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from everything import PACKAGE, TOP

pytestmark = pytest.mark.slow

SOURCES = """
import sys
sys.path.insert(0, sys.argv.pop(1))
import pellicle
assert pellicle.__file__.startswith(sys.path[0]), pellicle.__file__
from pellicle.cli import main
main()
"""


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel and unpack it, as an installer would."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder / "built")]
    subprocess.run(build, cwd=TOP, check=True, capture_output=True)
    (wheel,) = (folder / "built").glob("pellicle-*.whl")
    zipfile.ZipFile(wheel).extractall(folder / "unpacked")
    return folder / "unpacked"


def test_it_holds_every_file_of_the_package(unpacked: Path) -> None:
    shipped = {path.relative_to(unpacked / "pellicle") for path in (unpacked / "pellicle").rglob("*") if path.is_file()}
    ours = {path.relative_to(PACKAGE) for path in PACKAGE.rglob("*") if path.is_file()}
    assert shipped == {path for path in ours if "__pycache__" not in path.parts}


def test_it_carries_its_licence_and_its_command(unpacked: Path) -> None:
    (info,) = unpacked.glob("pellicle-*.dist-info")
    assert (info / "licenses" / "LICENSE").read_bytes() == (TOP / "LICENSE").read_bytes()
    assert "pellicle = pellicle.cli:main" in (info / "entry_points.txt").read_text("utf-8")


def test_it_works_away_from_the_checkout(unpacked: Path, tmp_path: Path) -> None:
    command = [sys.executable, "-I", "-c", SOURCES, str(unpacked), "sources"]
    run = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    assert "own-arithmetic" in run.stdout
