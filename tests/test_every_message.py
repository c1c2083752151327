"""House rules for every text shown to people: it exists, has its values, is used, and calls nothing "safe"."""

from __future__ import annotations

import ast
import re
import string
from functools import cache
from pathlib import Path

import pytest

from everything import PACKAGE, TOP, modules, pages, short, strings, tree
from pellicle.message import templates

MAKERS = {"message", "Message", "PellicleError", "InputError", "DataError"}
PAGES = {id.split(".")[0] for id in templates()}
SAFE = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b", re.IGNORECASE)


def fields(id: str) -> set[str]:
    """Return the names of the values a template needs."""
    return {name.split(".")[0].split("[")[0] for _, name, _, _ in string.Formatter().parse(templates()[id]) if name}


def ids(node: ast.expr) -> list[str]:
    """Return the message ids an expression can stand for, as far as they are written out."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return [node.value]
    if isinstance(node, ast.IfExp):
        return ids(node.body) + ids(node.orelse)
    return []


def calls(path: Path) -> list[tuple[int, str, set[str] | None]]:
    """Return line, id and the names of the supplied values (None where they are not all written out)."""
    found = []
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call) and node.args and getattr(node.func, "id", "") in MAKERS:
            names = {keyword.arg for keyword in node.keywords}
            supplied = None if None in names or getattr(node.func, "id", "") == "Message" else names
            found += [(node.lineno, id, supplied) for id in ids(node.args[0])]
    return found


@cache
def said() -> str:
    """Return everything that stands between quotes in the package, worked examples included, as one text."""
    return "\n".join(strings())


@cache
def starts() -> tuple[str, ...]:
    """Return the written-out beginnings of ids that are put together as f-strings."""
    found = []
    for path in modules():
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.JoinedStr) and node.values and isinstance(node.values[0], ast.Constant):
                start = str(node.values[0].value)
                if start.split(".")[0] in PAGES and "." in start:
                    found.append(start)
    return tuple(found)


def sayings(path: Path) -> list[tuple[str, set[str]]]:
    """Return the ids a template says, each with the names of the values it supplies."""
    found = re.findall(r'{%\s*say "([\w.]+)"([^%]*)%}', path.read_text("utf-8"))
    return [(id, set(re.findall(r"(\w+)=", values))) for id, values in found]


@cache
def on_pages() -> frozenset[str]:
    """Return every id that a template says."""
    return frozenset(id for path in pages() for id, _ in sayings(path))


@pytest.mark.parametrize("path", pages(), ids=short)
def test_every_message_on_a_page_exists_and_has_its_values(path: Path) -> None:
    for id, supplied in sayings(path):
        assert id in templates(), id
        assert fields(id) <= supplied, id


@pytest.mark.parametrize("path", modules(), ids=short)
def test_every_message_that_is_used_exists(path: Path) -> None:
    unknown = [f"line {line}: {id}" for line, id, _ in calls(path) if id not in templates()]
    assert not unknown


@pytest.mark.parametrize("path", modules(), ids=short)
def test_every_value_of_a_message_is_supplied(path: Path) -> None:
    for line, id, supplied in calls(path):
        if id in templates() and supplied is not None:
            missing = fields(id) - supplied
            assert not missing, f"line {line}: {id} lacks {', '.join(sorted(missing))}"


@pytest.mark.parametrize("id", sorted(templates()))
def test_every_message_is_used(id: str) -> None:
    assert id in strings() | on_pages() or id.startswith(starts()) or f'"{id}"' in said()


@pytest.mark.parametrize("id", sorted(templates()))
def test_every_message_can_be_filled_in(id: str) -> None:
    """Braces that are text are doubled; every value has a name."""
    assert all(name.isidentifier() for name in fields(id))
    assert templates()[id].strip()


def test_nothing_we_say_calls_anything_safe() -> None:
    """A limit is met by a value, or not, or we cannot tell."""
    told = [
        *PACKAGE.rglob("*.py"),
        *pages(),
        *PACKAGE.rglob("*.toml"),
        *PACKAGE.rglob("*.typ"),
        *PACKAGE.rglob("*.csv"),
    ]
    told += [*(TOP / "examples").rglob("*.toml"), *(TOP / "docs").rglob("*.md"), TOP / "README.md"]
    hits = [
        f"{short(path)}:{number}: {line.strip()}"
        for path in told
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if SAFE.search(line)
    ]
    assert not hits
