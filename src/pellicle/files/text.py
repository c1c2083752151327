"""Reading a TOML file for people: what is wrong with the file is said in one sentence, with the line.

``tomllib`` reports a line for broken syntax only; ``line_of`` finds the line of any key afterwards.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pellicle.errors import InputError

# A product file is a few kB; a megabyte is a mistake, and the cap keeps a wrong file from being read into memory.
LARGEST_BYTES = 1_000_000

_HEADER = re.compile(r"^\s*(\[\[?)\s*(.+?)\s*\]\]?\s*(#.*)?$")
_KEY = re.compile(r"""^\s*((?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*=""")
_PART = re.compile(r""""([^"]*)"|'([^']*)'|([A-Za-z0-9_-]+)""")
_AT_LINE = re.compile(r"^(.*) \(at (?:line (\d+), column (\d+)|end of document)\)$")


def read_text(path: Path) -> str:
    """Return the text of a file; InputError if it is missing, a folder, empty, too large or not UTF-8."""
    name = str(path)
    if not path.exists():
        raise InputError("files.missing", file=name)
    if path.is_dir():
        raise InputError("files.folder", file=name)
    if not path.is_file():
        raise InputError("files.not_a_file", file=name)
    size = path.stat().st_size
    if size > LARGEST_BYTES:
        raise InputError(
            "files.too_large", file=name, size=f"{size / 1e6:.1f} MB", most=f"{LARGEST_BYTES / 1e6:.0f} MB"
        )
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError("files.not_utf8", file=name, byte=error.start) from None
    except OSError as error:
        raise InputError("files.unreadable", file=name, reason=error.strerror or "unknown") from None
    if not text.strip():
        raise InputError("files.empty", file=name)
    return text


def read_toml(text: str, name: str) -> dict[str, Any]:
    """Return the tables of a TOML text; InputError with the line where its syntax breaks."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        match = _AT_LINE.match(str(error))
        what = match.group(1) if match else str(error)
        line = int(match.group(2)) if match and match.group(2) else None
        refusal = InputError("files.broken_toml", line=line, what=what)
        refusal.file = name
        raise refusal from None


def inside(folder: Path, name: str, field: str) -> Path:
    """Return the file ``name`` beside a product file; InputError if the path leaves the folder."""
    root = folder.resolve()
    path = (root / name).resolve()
    if Path(name).is_absolute() or not path.is_relative_to(root):
        raise InputError("files.leaves_folder", field=field, file=name)
    return path


def lines_by_path(text: str) -> Mapping[str, int]:
    """Return the line number of every table and key by its path, such as ``formula[1].amount``; positions count from 1.

    >>> lines_by_path('[meat]\\nraw = "40 lb"\\n[[formula]]\\ningredient = "salt"\\n')["formula[1].ingredient"]
    4
    """
    found: dict[str, int] = {}
    counts: dict[str, int] = {}
    prefix = ""
    fence = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if fence:
            fence = "" if fence in line else fence
            continue
        header = _HEADER.match(line)
        if header and "=" not in line.split("#")[0]:
            prefix = _table_path(header.group(2), header.group(1) == "[[", counts)
            found.setdefault(prefix, number)
            continue
        key = _KEY.match(line)
        if key:
            path = ".".join([prefix, *_parts(key.group(1))] if prefix else _parts(key.group(1)))
            found.setdefault(path, number)
            for mark in ('"""', "'''"):
                if line.count(mark) == 1:
                    fence = mark
    return found


def line_of(lines: Mapping[str, int], path: str) -> int | None:
    """Return the line of a path, or of the nearest table around it, or None."""
    while path:
        if path in lines:
            return lines[path]
        path = re.sub(r"(\.[^.\[]*|\[\d+\])$", "", path) if re.search(r"[.\[]", path) else ""
    return None


def _parts(dotted: str) -> list[str]:
    return [a or b or c for a, b, c in _PART.findall(dotted)]


def _table_path(dotted: str, array: bool, counts: dict[str, int]) -> str:
    path = ""
    parts = _parts(dotted)
    for position, part in enumerate(parts):
        path = f"{path}.{part}" if path else part
        if array and position == len(parts) - 1:
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = f"{path}[{counts[path]}]"
    return path
