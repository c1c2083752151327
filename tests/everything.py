"""What the house rules are checked over: every module, table, message page and text file of the project."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from functools import cache
from pathlib import Path

import pellicle

TOP = Path(__file__).resolve().parent.parent
PACKAGE = TOP / "src" / "pellicle"

NOT_OURS = {"build", "dist", "out", "__pycache__", "node_modules", "vendor"}
CODE = {"", ".css", ".html", ".in", ".jinja", ".js", ".py", ".sh", ".typ"}
TEXT = CODE | {".cfg", ".csv", ".json", ".md", ".toml", ".txt"}


@cache
def import_everything() -> tuple[str, ...]:
    """Import every module of the package, which registers every relation, and return their names."""
    names = [found.name for found in pkgutil.walk_packages(pellicle.__path__, "pellicle.")]
    names.remove("pellicle.__main__")  # importing it is running it
    for name in names:
        importlib.import_module(name)
    return tuple(names)


@cache
def modules() -> tuple[Path, ...]:
    """Return the file of every module of the package."""
    return tuple(sorted(PACKAGE.rglob("*.py")))


@cache
def tables() -> tuple[str, ...]:
    """Return every CSV table of the package, as ``table.rows`` wants it."""
    return tuple(str(path.relative_to(PACKAGE).as_posix()) for path in sorted(PACKAGE.rglob("*.csv")))


@cache
def texts() -> tuple[Path, ...]:
    """Return every text file of the project: what is, or could be, under version control."""
    found = []
    for path in sorted(TOP.rglob("*")):
        inside = path.relative_to(TOP).parts
        ours = not any(part in NOT_OURS or (part.startswith(".") and part != ".ci") for part in inside)
        if ours and path.is_file() and path.suffix in TEXT:
            found.append(path)
    return tuple(found)


@cache
def tree(path: Path) -> ast.Module:
    """Return a module's syntax tree."""
    return ast.parse(path.read_text("utf-8"), str(path))


@cache
def strings() -> frozenset[str]:
    """Return every text that stands between quotes in the package."""
    return frozenset(
        node.value
        for path in modules()
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


@cache
def pages() -> tuple[Path, ...]:
    """Return every template of a web page."""
    return tuple(sorted((PACKAGE / "plant").rglob("*.html")))


def short(path: Path) -> str:
    """Return a path as seen from the top of the checkout, for the names of tests."""
    return path.relative_to(TOP).as_posix()
