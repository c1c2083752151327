"""The published schemas and the reference page are what the shapes say, and leave room for keys to come."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pellicle.report.published import DOCUMENTS, FOLDER, file_name, reference_text, schema_text

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "json.md"


@pytest.mark.parametrize("schema", sorted(DOCUMENTS))
def test_the_file_is_what_the_shape_says(schema: str) -> None:
    assert (FOLDER / file_name(schema)).read_text("utf-8") == schema_text(schema), "run scripts/publish_schemas.py"


def test_no_file_is_left_over() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {file_name(schema) for schema in DOCUMENTS}


def test_the_reference_page_is_what_the_shapes_say() -> None:
    assert PAGE.read_text("utf-8") == reference_text(), "run scripts/publish_schemas.py"


@pytest.mark.parametrize("schema", sorted(DOCUMENTS))
def test_every_key_says_what_it_means(schema: str) -> None:
    made = json.loads(schema_text(schema))
    for part in (made, *made.get("$defs", {}).values()):
        assert part["description"]
        assert [key for key, field in part["properties"].items() if not field.get("description")] == []


@pytest.mark.parametrize("schema", sorted(DOCUMENTS))
def test_keys_may_be_added_under_the_same_number(schema: str) -> None:
    assert '"additionalProperties": false' not in schema_text(schema)


@pytest.mark.parametrize("schema", sorted(DOCUMENTS))
def test_the_schema_key_is_fixed_and_needed(schema: str) -> None:
    made = json.loads(schema_text(schema))
    assert made["properties"]["schema"]["const"] == schema
    assert "schema" in made["required"]
