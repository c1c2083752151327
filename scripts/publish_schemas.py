"""Write the published JSON Schemas and their reference page anew, after the shape of a document has changed."""

from __future__ import annotations

from pathlib import Path

from pellicle.report.published import DOCUMENTS, FOLDER, file_name, reference_text, schema_text

if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for schema in DOCUMENTS:
        (FOLDER / file_name(schema)).write_text(schema_text(schema), "utf-8")
    (Path(__file__).parents[1] / "docs" / "reference" / "json.md").write_text(reference_text(), "utf-8")
