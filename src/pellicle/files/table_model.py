"""What every table of a file has in common: unknown keys are refused, and values stay as they were typed."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Typed = str | int | float
Text = Annotated[str, Field(min_length=1)]


class Table(BaseModel):
    """A table of a file: unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=False)
