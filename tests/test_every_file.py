"""House rules for every text file: nothing that holds on one machine only, nothing that names a package registry."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from everything import TOP, short, texts

# written in pieces, so that this file does not find itself
PLACES = ["/wo" + "rk/", "/ho" + "me/", "/ro" + "ot/", "/tm" + "p/", "/op" + "t/", "C:" + r"\\\\"]
REGISTRIES = ["py" + r"pi\.", "python" + "hosted", "npm" + "js", "deb" + r"\.debian", "conda" + r"\."]
FORBIDDEN = re.compile("|".join([*(rf"(?<![\w.]){place}" for place in PLACES), *REGISTRIES]))
LOCKS = sorted((TOP / "requirements").glob("*.txt"))


def test_there_are_files_to_check() -> None:
    assert {"README.md", "pyproject.toml", "demo"} <= {short(path) for path in texts()}


@pytest.mark.parametrize("path", texts(), ids=short)
def test_it_names_no_machine_and_no_registry(path: Path) -> None:
    hits = [
        f"line {number}: {line.strip()[:120]}"
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if FORBIDDEN.search(line)
    ]
    assert not hits


@pytest.mark.parametrize("path", LOCKS, ids=short)
def test_a_lock_file_pins_and_hashes_everything_and_has_no_address(path: Path) -> None:
    text = path.read_text("utf-8")
    entries = re.split(r"\n(?=\S)", text.strip())
    assert entries
    assert "://" not in text
    for entry in entries:
        assert re.match(r"[a-z0-9.-]+(\[[a-z,]+\])?==\S+", entry), entry
        assert "--hash=sha256:" in entry, entry


def test_the_lock_files_agree_with_each_other() -> None:
    pins: dict[str, set[str]] = {}
    for path in LOCKS:
        for name, version in re.findall(r"^([a-z0-9.-]+)==(\S+)", path.read_text("utf-8"), re.MULTILINE):
            pins.setdefault(name, set()).add(version)
    assert not {name: versions for name, versions in pins.items() if len(versions) > 1}
