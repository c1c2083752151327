"""What the commands share: a date as typed, one JSON document, a page, a file written whole or not at all."""

from __future__ import annotations

import json
import os
import sys
from datetime import date
from pathlib import Path
from typing import Annotated, Any

import typer

from pellicle.errors import InputError

JsonFlag = Annotated[bool, typer.Option("--json", help="Print one JSON document and nothing else.")]


def day(text: str | None, field: str) -> date | None:
    """Return a date typed as 2026-03-14, or None where nothing was typed; InputError otherwise."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError("cli.date", field=field, read=text) from None


def located(error: InputError, path: Path) -> InputError:
    """Return the error with the product file and the line of its field, unless it came from elsewhere."""
    from pellicle.files.text import line_of, lines_by_path

    # A sentence about the file as a whole names it itself.
    if error.file or error.field.startswith("--") or not (error.field or error.line):
        return error
    error.file = path.name
    if error.line is None:
        error.line = line_of(lines_by_path(path.read_text("utf-8", errors="replace")), error.field)
    return error


def print_json(document: dict[str, Any]) -> None:
    """Print one document; a number that is not finite is a fault of ours and fails loudly rather than print NaN."""
    typer.echo(json.dumps(document, ensure_ascii=False, allow_nan=False, indent=2))


def finish(page: str) -> None:
    """Print a page for people."""
    typer.echo(page)


def in_colour() -> bool:
    """Return whether colour helps: a terminal that did not ask for none (NO_COLOR convention)."""
    return sys.stdout.isatty() and "NO_COLOR" not in os.environ


def write_bytes(path: Path, content: bytes, field: str) -> None:
    """Write a file beside its place first and move it there, so that a failure leaves what was there before."""
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        os.replace(part, path)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise InputError(
            "files.cannot_write", field=field, file=str(path), reason=error.strerror or "unknown"
        ) from None


def write_new(path: Path, text: str, field: str) -> None:
    """Write a text file that must not exist yet; InputError if it does or cannot be written."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise InputError("files.exists", field=field, file=str(path)) from None
    except OSError as error:
        raise InputError(
            "files.cannot_write", field=field, file=str(path), reason=error.strerror or "unknown"
        ) from None
