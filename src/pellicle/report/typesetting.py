"""From data to paper: texts made fit to print, and the templates beside this module compiled with them by typst."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from pellicle.report.numerals import glued, plain
from pellicle.report.typefaces import folders

if TYPE_CHECKING:
    from typst import Compiler

FOLDER = Path(__file__).parent
# What a terminal marks as typed with grave accents; on paper they would look like dirt.
COMMAND = re.compile(r"`([^`]*)`")

Data = Mapping[str, Any]


def tidied(value: Any) -> Any:
    """Return data whose texts carry no control characters, glue numbers to their units and quote commands."""
    if isinstance(value, str):
        return glued(COMMAND.sub("\u201c\\1\u201d", plain(value)))
    if isinstance(value, Mapping):
        return {name: tidied(item) for name, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [tidied(item) for item in value]
    return value


def fitting(template: str, data: Data, settings: Sequence[Data], label: str, most: int) -> Data:
    """Return the data with the first of the settings under which ``label`` counts at most so many pages, else with the
    last."""
    for setting in settings:
        handed = {**data, **setting}
        if int(_compiler(template, handed).query(f"<{label}>", field="value", one=True)) <= most:
            break
    return handed


def printed(template: str, data: Data, form: Literal["pdf", "png"] = "pdf", ppi: float | None = None) -> list[bytes]:
    """Return the PDF, or one picture for each page."""
    made = _compiler(template, data).compile(format=form, ppi=ppi)
    return [bytes(one) for one in made] if isinstance(made, list) else [bytes(made or b"")]


def _compiler(template: str, data: Data) -> Compiler:
    import typst

    return typst.Compiler(
        str(FOLDER / template),
        root=str(FOLDER),
        font_paths=[str(folder) for folder in folders()],
        ignore_system_fonts=True,
        sys_inputs={"sheet": json.dumps(data, ensure_ascii=False, allow_nan=False)},
    )
