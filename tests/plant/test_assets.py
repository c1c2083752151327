"""The charts and fonts: built when the lock is another one, whole or not at all, and never needed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from everything import TOP
from pellicle.plant import assets

NPM = """#!/usr/bin/env python3
import pathlib, sys
assert sys.argv[1:3] == ["ci", "--ignore-scripts"], sys.argv
assert pathlib.Path("package-lock.json").is_file() and pathlib.Path(".npmrc").is_file()
for name in {files!r}:
    path = pathlib.Path("node_modules", name)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("made by npm " * 50)
"""


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    for name in ("package.json", "package-lock.json", ".npmrc"):
        (tmp_path / name).write_bytes((TOP / name).read_bytes())
    return tmp_path


def npm(folder: Path, program: str, monkeypatch: pytest.MonkeyPatch) -> None:
    place = folder / "bin"
    place.mkdir(exist_ok=True)
    (place / "npm").write_text(program)
    (place / "npm").chmod(0o755)
    monkeypatch.setenv("PATH", str(place), prepend=":")


def test_the_lock_has_hashes_and_no_addresses_of_packages():
    packages = json.loads((TOP / "package-lock.json").read_text("utf-8"))["packages"]
    assert all("integrity" in found and "resolved" not in found for name, found in packages.items() if name)


def test_a_build_copies_the_named_files_and_says_from_which_lock(checkout: Path, monkeypatch: pytest.MonkeyPatch):
    npm(checkout, NPM.format(files=list(assets.FILES)), monkeypatch)
    vendor = checkout / "static" / "vendor"
    assert assets.wanted(vendor, checkout)

    assets.build(vendor, checkout)

    assert not assets.wanted(vendor, checkout)
    made = {path.relative_to(vendor).as_posix() for path in vendor.rglob("*") if path.is_file()}
    assert made >= {*assets.FILES.values(), "BUILT", "echarts/echarts.min.js.gz", "echarts/echarts.min.js.br"}
    assert [path.name for path in vendor.parent.iterdir()] == ["vendor"]

    (checkout / "package-lock.json").write_text("another lock")
    assert assets.wanted(vendor, checkout)


@pytest.mark.parametrize(
    ("program", "why"),
    [
        ("#!/bin/sh\necho 'npm error network is unreachable' >&2; exit 1\n", "network is unreachable"),
        ("#!/bin/sh\nmkdir node_modules\n", "the package lacks echarts/dist"),
    ],
)
def test_a_failed_build_says_why_and_leaves_what_was_there(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, program: str, why: str
):
    vendor = checkout / "static" / "vendor"
    vendor.mkdir(parents=True)
    (vendor / "old").write_text("as it was")
    npm(checkout, program, monkeypatch)
    with pytest.raises(assets.AssetsError, match=why):
        assets.build(vendor, checkout)
    assert [path.name for path in vendor.iterdir()] == ["old"]


def test_without_npm_it_says_so(checkout: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("PATH", "")
    with pytest.raises(assets.AssetsError, match="npm is not on the path"):
        assets.build(checkout / "vendor", checkout)


def test_an_installed_wheel_builds_nothing(tmp_path: Path):
    assert not assets.wanted(tmp_path / "vendor", tmp_path)
    assert not assets.built(tmp_path / "vendor")


def test_every_package_comes_with_its_licence():
    packages = {name.rsplit("/dist/", 1)[0].rsplit("/files/", 1)[0] for name in assets.FILES}
    with_licence = {name.removesuffix("/LICENSE") for name in assets.FILES if name.endswith("/LICENSE")}
    assert {name for name in packages if "/LICENSE" not in name and "/NOTICE" not in name} <= with_licence | {
        "echarts/licenses"
    }
