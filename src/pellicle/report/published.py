"""The JSON Schemas as they are published: one file beside this module for each document, written from its shape.

``scripts/publish_schemas.py`` writes the files and the reference page anew after a shape has changed.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pydantic import TypeAdapter

from pellicle.report.air_model import AirDocument
from pellicle.report.calculator_model import (
    AwDocument,
    CureCalculationDocument,
    IngredientsDocument,
    RulesDocument,
    SourcesDocument,
)
from pellicle.report.document_model import PlanDocument
from pellicle.report.lethality_model import LethalityDocument
from pellicle.report.run_model import RunDocument
from pellicle.report.shapes import Shape

FOLDER = Path(__file__).parent / "schemas"
DIALECT = "https://json-schema.org/draft/2020-12/schema"

DOCUMENTS: Mapping[str, type[Shape]] = MappingProxyType(
    {
        shape.model_fields["schema_id"].default: shape
        for shape in (
            PlanDocument,
            RunDocument,
            AwDocument,
            AirDocument,
            CureCalculationDocument,
            LethalityDocument,
            IngredientsDocument,
            RulesDocument,
            SourcesDocument,
        )
    }
)


def file_name(schema: str) -> str:
    """Return the name of the file a schema is published in.

    >>> file_name("pellicle.plan/1")
    'pellicle.plan.1.json'
    """
    return f"{schema.replace('/', '.')}.json"


def schema_text(schema: str) -> str:
    """Return the text of the published JSON Schema of a document by its name, such as ``pellicle.plan/1``."""
    made = _open(TypeAdapter(DOCUMENTS[schema]).json_schema(by_alias=True, mode="serialization"))
    return json.dumps({"$schema": DIALECT, **made}, indent=1, ensure_ascii=False) + "\n"


def _open(part: Any) -> Any:
    """Return a schema that lets further keys in: a later version may add some under the same number."""
    if isinstance(part, dict):
        return {key: _open(value) for key, value in part.items() if (key, value) != ("additionalProperties", False)}
    return [_open(value) for value in part] if isinstance(part, list) else part


def reference_text() -> str:
    """Return the reference page: every key of every document, as its shape says."""
    parts = [_OPENING]
    for schema, shape in DOCUMENTS.items():
        parts.append(f"## `{schema}`\n\n{shape.__doc__}\n")
        seen: set[str] = set()
        parts += list(_sections(TypeAdapter(shape).json_schema(by_alias=True, mode="serialization"), seen))
    return "\n".join(parts)


_OPENING = """# JSON documents

Every command with `--json` prints one document and nothing else on standard output. This page is written from the same
shapes as the published schemas (`src/pellicle/report/schemas`), by `scripts/publish_schemas.py`.

- The first key, `schema`, names the document and its number. A key may be added under the same number; a key that
  goes or changes its meaning raises it.
- A key is a plain number in the unit of its name (`_kg`, `_ppm`, `_percent`; `aw` has none). Unknown is `null`, never
  NaN.
- Verdicts are always `met`, `not met` or `cannot tell`, in every language.
- Ranges and origins of numbers stand in `figures`, by JSON pointer to the number (`/pull/kg`).
- When `refused` is set, the cure is over its limit: no amount to weigh, no curve and no pull weight is given.
- Exit status: 0 done; 1 done, and some check is `not met`; 2 bad input, with the message on standard error.
"""


def _sections(made: dict[str, Any], seen: set[str]) -> Iterator[str]:
    yield _table(made)
    for name, part in made.get("$defs", {}).items():
        if name not in seen:
            seen.add(name)
            yield f"### {name.removesuffix('Document').lower()}\n\n{part.get('description', '')}\n"
            yield _table(part)


def _table(part: dict[str, Any]) -> str:
    rows = [
        f"| `{key}` | {_kind(field)} | {field.get('description', '')} |" for key, field in part["properties"].items()
    ]
    return "\n".join(["| key | type | meaning |", "|---|---|---|", *rows, ""])


def _kind(field: dict[str, Any]) -> str:
    if "anyOf" in field:
        return " or ".join(_kind(choice) for choice in field["anyOf"])
    if "$ref" in field:
        return str(field["$ref"]).rsplit("/", 1)[-1].removesuffix("Document").lower()
    if "enum" in field or "const" in field:
        return ", ".join(f"`{value}`" for value in field.get("enum", [field.get("const")]))
    if field.get("type") == "array":
        return f"list of {_kind(field['items'])}"
    if "additionalProperties" in field and isinstance(field["additionalProperties"], dict):
        return f"object of {_kind(field['additionalProperties'])}"
    return str(field.get("type", "any"))
