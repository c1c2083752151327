"""The shape of the JSON document on air; conventions as in ``document_model``."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pellicle.report.shapes import Number, Shape, SourceDocument, Text


class AirDocument(Shape):
    """What `pellicle air --json` prints."""

    schema_id: Literal["pellicle.air/1"] = Field(
        "pellicle.air/1", alias="schema", description="Name and number of this shape."
    )
    dry_bulb_c: float = Field(description="Temperature of the air, C.")
    wet_bulb_c: float = Field(description="Thermodynamic wet bulb, C; below 0 C of a frozen sock.")
    rh_percent: float = Field(description="Relative humidity over liquid water, %.")
    dew_point_c: Number = Field(description="Dew point over liquid water, C; null in air without vapour.")
    humidity_ratio: float = Field(description="Water per dry air, kg per kg.")
    vapour_pressure_pa: float = Field(description="Pressure of the vapour, Pa.")
    pressure_pa: float = Field(description="Pressure of the air, Pa.")
    boiling_point_c: float = Field(description="Where water boils at that pressure, C.")
    wet_surface_low_c: float = Field(description="What a wet surface holds that sees no warm wall, C.")
    wet_surface_high_c: float = Field(description="What it holds in a single open layer in slow air, C.")
    hint: Text = Field(description="The two in words.")
    sources: list[SourceDocument] = Field(description="Every source the answer rests on.")
