"""Compiled code is kept in a folder named after what it was compiled from."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from pellicle.run import cache
from pellicle.run.simulate import simulate
from pellicle.run.warm import warm
from pieces_to_run import pork


def test_the_name_changes_with_any_relation(tmp_path: Path) -> None:
    file = tmp_path / "relation.py"
    file.write_text("def twice(x): return 2 * x", "utf-8")
    before = cache.content_hash([file])
    file.write_text("def twice(x): return 3 * x", "utf-8")
    assert cache.content_hash([file]) != before


def test_relations_tables_and_the_kernel_are_among_the_sources() -> None:
    names = {path.name for path in cache.sources()}
    assert {"water_model.py", "sorption.csv", "humid.py", "cookout.py", "kernel.py", "tableau.py"} <= names


def test_old_folders_go_but_the_newest_and_strangers_stay(tmp_path: Path) -> None:
    for at in range(6):
        folder = tmp_path / f"{at:016x}"
        folder.mkdir()
        os.utime(folder, (at, at))
    (tmp_path / "somebody else's").mkdir()
    gone = cache.prune(tmp_path, f"{5:016x}", 1e9)
    assert {path.name for path in gone} == {f"{at:016x}" for at in range(2)}
    assert (tmp_path / "somebody else's").is_dir()


def test_a_folder_used_this_week_stays(tmp_path: Path) -> None:
    for at in range(6):
        (tmp_path / f"{at:016x}").mkdir()
    assert cache.prune(tmp_path, f"{5:016x}", os.stat(tmp_path).st_mtime) == ()


def test_no_writable_folder_means_nothing_is_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    blocked = tmp_path / "a file"
    blocked.write_text("", "utf-8")
    cache._folder.cache_clear()
    monkeypatch.setenv(cache.VARIABLE, str(blocked))
    assert cache._folder() is None
    cache._folder.cache_clear()


def test_a_child_process_finds_the_folder_of_its_parent(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A bug once: the folder we had set was taken for the user's own, and the child compiled everything again."""
    monkeypatch.setenv(cache.VARIABLE, str(tmp_path))
    own = tmp_path / "pellicle"
    assert cache._parents() == (own,)

    monkeypatch.setenv(cache.VARIABLE, str(own / cache.content_hash()))
    assert cache._parents() == (own,)


def test_two_threads_may_ask_for_the_kernel_first():
    """A bug once: both imported the compiler at the same time, and one found it half made."""
    ask = (
        "from concurrent.futures import ThreadPoolExecutor as Pool; from pellicle.run.compile import compiled;"
        "found = list(Pool(4).map(lambda _: compiled(), range(8))); print(len({id(one) for one in found}))"
    )

    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "1"


def test_warming_an_already_warm_cache_costs_nothing():
    simulate(pork())

    assert warm() == 0.0
