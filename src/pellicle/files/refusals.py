"""From a schema's refusal to a sentence: which key, what stands there, what is allowed, near matches, the line."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel, ValidationError

from pellicle.errors import InputError
from pellicle.files.text import line_of
from pellicle.message import message, say

LONGEST_SHOWN = 60


def near(name: str, allowed: Iterable[str]) -> str:
    """Return 'Did you mean ...? ' with the nearest of ``allowed``, or nothing."""
    found = difflib.get_close_matches(name.lower(), list(allowed), n=3, cutoff=0.6)
    return say(message("files.near", names=" or ".join(found))) if found else ""


def choice(read: str, field: str, allowed: Mapping[str, Any]) -> Any:
    """Return the value of a choice as typed (case, hyphens and spaces alike), or InputError with what is allowed."""
    asked = _plain(read)
    for name, value in allowed.items():
        if _plain(name) == asked:
            return value
    raise InputError(
        "files.not_a_choice", field=field, read=repr(read), allowed=", ".join(allowed), near=near(read, allowed)
    )


def refuse(error: ValidationError, shape: type[BaseModel], lines: Mapping[str, int]) -> InputError:
    """Return the first refusal of a schema as a sentence with its field and line."""
    # A table that nobody knows says more than the one that is missed for it.
    first = min(
        error.errors(), key=lambda found: (found["type"] == "missing", line_of(lines, _path(found["loc"])) or 0)
    )
    path = _path(first["loc"])
    line = line_of(lines, path)
    kind = first["type"]
    if kind == "extra_forbidden":
        return _unknown(first["loc"], shape, path, line)
    if kind == "missing":
        return InputError("files.needed", field=path, line=line, hint=_hint(first["loc"], shape))
    if kind == "list_type" and isinstance(first["input"], dict):
        return InputError("files.single_brackets", field=path, line=line)
    read = str(first["input"])
    read = read if len(read) <= LONGEST_SHOWN else read[:LONGEST_SHOWN] + "..."
    return InputError("files.wrong_type", field=path, line=line, read=read, wanted=_wanted(kind))


def _plain(text: str) -> str:
    return "".join(letter for letter in text.casefold() if letter.isalnum())


def _path(location: tuple[int | str, ...]) -> str:
    path = ""
    for part in location:
        if isinstance(part, int):
            path += f"[{part + 1}]"
        elif part in ("str", "int", "float", "bool", "MixtureLineTable") or "[" in part:
            continue  # pydantic names the member of a union it tried; people wrote no such key
        else:
            path = f"{path}.{part}" if path else part
    return path


def _fields(shape: Any) -> dict[str, Any]:
    return {(info.alias or name): info for name, info in shape.model_fields.items()}


def _models(annotation: Any) -> Iterable[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in getattr(annotation, "__args__", ()):
        yield from _models(inner)


def _around(location: tuple[int | str, ...], shape: type[BaseModel]) -> type[BaseModel]:
    for part in location[:-1]:
        fields = _fields(shape)
        if isinstance(part, str) and part in fields:
            shape = next(iter(_models(fields[part].annotation)), shape)
    return shape


def _unknown(location: tuple[int | str, ...], shape: type[BaseModel], path: str, line: int | None) -> InputError:
    key = str(location[-1])
    allowed = list(_fields(_around(location, shape)))
    where, _, _ = path.rpartition(".")
    id = "files.unknown_key" if where else "files.unknown_table"
    table = where if where.endswith("]") else f"[{where}]"
    values = {"key": key, "near": near(key, allowed), "allowed": ", ".join(allowed)}
    return InputError(id, field=path, line=line, **values, **({"table": table} if where else {}))


def _hint(location: tuple[int | str, ...], shape: type[BaseModel]) -> str:
    info = _fields(_around(location, shape)).get(str(location[-1]))
    return (info.description or "") if info is not None else ""


def _wanted(kind: str) -> str:
    for start, words in (
        ("bool", "true or false"),
        ("int", "a whole number"),
        ("float", "a number"),
        ("finite", "a finite number"),
        ("string_too_short", "a text that is not empty"),
        ("string", "a text in quotes"),
        ("list", "a list in brackets"),
        ("dict", "a table"),
        ("model", "a table"),
        ("date", "a date such as 2026-03-14"),
    ):
        if kind.startswith(start):
            return words
    return "something else"
