"""House rules for every module of the package."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from everything import PACKAGE, modules, short, tree

LONGEST = 400
JUNK_DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc"}


@pytest.mark.parametrize("path", modules(), ids=short)
def test_a_module_is_no_longer_than_a_room_can_be(path: Path) -> None:
    lines = len(path.read_text("utf-8").splitlines())
    assert lines <= LONGEST, f"{lines} lines: split it where the subject changes"


@pytest.mark.parametrize("path", modules(), ids=short)
def test_a_module_says_what_it_is(path: Path) -> None:
    assert ast.get_docstring(tree(path)), "a module opens with a paragraph: what it holds, from which source"


@pytest.mark.parametrize("path", modules(), ids=short)
def test_a_module_is_named_after_its_subject(path: Path) -> None:
    assert path.stem not in JUNK_DRAWERS


@pytest.mark.parametrize("path", sorted(PACKAGE.rglob("__init__.py")), ids=short)
def test_the_front_door_of_a_room_computes_nothing(path: Path) -> None:
    allowed = (ast.Import, ast.ImportFrom, ast.Assign, ast.AnnAssign, ast.Expr)
    odd = [node for node in tree(path).body if not isinstance(node, allowed)]
    if path.parent.name == "cli":  # the console script's entry stands there
        odd = [node for node in odd if not isinstance(node, ast.FunctionDef)]
    assert not odd, "__init__.py holds the room's paragraph and its public names"


@pytest.mark.parametrize("path", modules(), ids=short)
def test_a_relation_is_registered_where_it_stands(path: Path) -> None:
    """``@relation`` is found by the kernel through its module: inside a function it would be made at every call."""
    inside = [
        node.name
        for outer in ast.walk(tree(path))
        if isinstance(outer, ast.FunctionDef)
        for node in ast.walk(outer)
        if node is not outer and isinstance(node, ast.FunctionDef)
        for mark in node.decorator_list
        if isinstance(mark, ast.Call) and getattr(mark.func, "id", "") == "relation"
    ]
    assert not inside
