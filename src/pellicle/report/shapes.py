"""The parts that JSON documents share: how a number, a text and a verdict are written, sources, figures and checks."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from pellicle.message import Message


def _known(value: object) -> object:
    return None if isinstance(value, float) and not math.isfinite(value) else value


def _said(value: object) -> object:
    return str(value) if isinstance(value, Message) else value


Number = Annotated[float | None, BeforeValidator(_known)]
Text = Annotated[str, BeforeValidator(_said)]
Verdict = Literal["met", "not met", "cannot tell"]


class Shape(BaseModel):
    """What all shapes share: filled from an answer's fields of the same names, no other keys, no NaN."""

    model_config = ConfigDict(
        from_attributes=True,
        extra="forbid",
        frozen=True,
        populate_by_name=True,
        allow_inf_nan=False,
        json_schema_serialization_defaults_required=True,
    )


class SourceDocument(Shape):
    """One source and how well it is known."""

    key: str = Field(description="The name under which figures and checks refer to it.")
    title: str = Field(description="What to look up.")
    known: Literal["seen", "secondary", "memory", "common practice", "computed"] = Field(
        description="How it is known: its text seen, quoted by another, remembered, common practice, or computed here."
    )
    note: str = Field(description="What else is known of it.")
    to_verify: bool = Field(description="True where it rests on memory or on nobody's text and is yet to be verified.")


class InputDocument(Shape):
    """One input of a figure."""

    name: str = Field(description="What went in, in words.")
    value: str = Field(description="Its value with its unit, as text.")


class FigureDocument(Shape):
    """The range and origin of a number elsewhere in the document."""

    value: Number = Field(description="The number.")
    unit: str = Field(description="Its unit; empty for a pure number.")
    low: Number = Field(description="The low end of its range, or null.")
    high: Number = Field(description="The high end of its range, or null.")
    level: float = Field(description="The share of cases the range is meant to hold, such as 0.9.")
    kind: Literal["measured", "computed", "bound", "assumed"] = Field(description="How it came about.")
    digits: int = Field(description="The decimals its uncertainty bears.")
    how: Text | None = Field(description="The rule it follows, in words.")
    inputs: list[InputDocument] = Field(description="What it was computed from.")
    sources: list[str] = Field(description="Keys into sources.")
    flags: list[str] = Field(description="What was out of range or clipped on the way to it.")


class CheckDocument(Shape):
    """A limit applied to a value."""

    id: str = Field(description="The check's name; stays the same from version to version.")
    title: Text = Field(description="What it asks.")
    group: Literal["own limits", "rules", "product", "information"] = Field(description="What it belongs to.")
    verdict: Verdict = Field(description="The verdict.")
    value: Number = Field(description="The value judged, in unit; null if there is none.")
    limit: Number = Field(description="The limit, in unit; null if there is none.")
    unit: str = Field(description="The unit of value, limit and margin.")
    direction: str = Field(description="Whether the limit is an `at most` or an `at least`.")
    margin: Number = Field(description="How far the value stands inside the limit, in unit; negative outside.")
    why: Text = Field(description="The reason in words.")
    source: str = Field(description="Where the limit stands: its clause, else its first source.")
    sources: list[str] = Field(description="Keys into sources.")
    blocking: bool = Field(description="False for a check that informs and never stops a release.")
