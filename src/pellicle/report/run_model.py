"""The shape of the JSON document on a run; conventions as in ``document_model``."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pellicle.report.document_model import CautionDocument
from pellicle.report.lethality_model import GrowthDocument, LethalityNumbersDocument
from pellicle.report.shapes import CheckDocument, Number, Shape, SourceDocument, Text


class RunStepDocument(Shape):
    """One step as it went."""

    name: str = Field(description="The step's name.")
    minutes: float = Field(description="How long it took.")
    ended_by: str = Field(description="What ended it.")


class RunEndDocument(Shape):
    """The product at the end of the schedule."""

    hours: float = Field(description="Time since the start.")
    kg: float = Field(description="Weight of the batch, without crumbs and removed pieces.")
    percent_of_raw: float = Field(description="Weight on green weight, %.")
    percent_of_marinated: float = Field(description="Weight on marinated weight, %.")
    aw_mean: float = Field(description="Water activity once equalised.")
    aw_surface: float = Field(description="Water activity of the drier face.")
    core_c: float = Field(description="Temperature of the core, C.")
    moisture_percent: float = Field(description="Water on weight, %.")
    mpr: Number = Field(description="Moisture to protein; null without protein.")
    thickness_m: float = Field(description="Thickness of the piece, m.")


class RunHistoryDocument(Shape):
    """The passage on a grid of times."""

    minutes: list[float] = Field(description="Time since the start.")
    dry_bulb_c: list[float] = Field(description="Air, C.")
    wet_bulb_c: list[float] = Field(description="Wet bulb, C.")
    rh_percent: list[float] = Field(description="Relative humidity, %.")
    core_c: list[float] = Field(description="Core, C.")
    surface_c: list[float] = Field(description="Upper face, C.")
    weight_percent_of_raw: list[float] = Field(description="Weight on green weight, %.")
    aw_mean: list[float] = Field(description="Water activity of the mean composition.")
    aw_surface: list[float] = Field(description="Water activity of the drier face.")
    lethality_wet: list[Number] = Field(description="Credited while wet by then, log10; null where withheld.")


class RangeDocument(Shape):
    """Median and 90 % range."""

    middle: float = Field(description="Median.")
    low: float = Field(description="5 % point.")
    high: float = Field(description="95 % point.")


class SpreadDocument(Shape):
    """What differs between batches and pieces does to the passage."""

    batches: int = Field(description="Batches drawn.")
    pieces: int = Field(description="Pieces run.")
    failed: int = Field(description="Pieces whose run did not reach its end.")
    hours: RangeDocument = Field(description="Time to the end.")
    percent_of_raw: RangeDocument = Field(description="Weight of the batch on green weight, %.")
    aw_mean: RangeDocument = Field(description="Mean water activity of the batch.")
    aw_wettest: RangeDocument = Field(description="Water activity that 95 % of a batch's pieces do not exceed.")
    lethality_wet: RangeDocument | None = Field(description="Salmonella credited while wet in the least treated 5 %.")
    p_aw: float = Field(description="Share of batches whose wettest 5 % of pieces meet the limit.")
    p_lethality: Number = Field(description="Share of batches whose least treated 5 % reach the target.")


class RunDocument(Shape):
    """What `pellicle run --json` prints."""

    schema_id: Literal["pellicle.run/1"] = Field(
        "pellicle.run/1", alias="schema", description="Name and number of this shape."
    )
    product: str = Field(description="The product's name.")
    on: str = Field(description="The day whose rules hold.")
    sentence: Text = Field(description="The answer in a sentence.")
    steps: list[RunStepDocument] = Field(description="The steps as they went.")
    end: RunEndDocument = Field(description="The product at the end.")
    history: RunHistoryDocument = Field(description="The passage over time.")
    governing: str = Field(description="The organism that leads.")
    lethality: dict[str, LethalityNumbersDocument] = Field(description="Log reductions by organism.")
    growth: dict[str, GrowthDocument] = Field(description="Growth by organism, log10.")
    drip_percent_of_marinated: float = Field(description="What dripped, %.")
    salts_lost_percent: float = Field(description="Salts lost with the drip, %.")
    sugars_lost_percent: float = Field(description="Sugars lost with the drip, %.")
    pull_kg: float = Field(description="The pull weight with the drip of this passage.")
    pull_kg_without_run: float = Field(description="The plan's pull weight.")
    aw_limit: float = Field(description="The limit it is worked out for.")
    checks: list[CheckDocument] = Field(description="The findings.")
    cautions: list[CautionDocument] = Field(description="Cautions, each with the place it belongs to.")
    remarks: list[Text] = Field(description="What the schedule cannot do.")
    assumptions: list[Text] = Field(description="What was assumed.")
    flags: list[Text] = Field(description="What left the range of the model, and what acted in it.")
    problem: Text | None = Field(description="Why the run did not reach its end; null if it did.")
    spread: SpreadDocument | None = Field(description="The spread over pieces; null without --pieces.")
    balances: dict[str, float] = Field(description="By how much each balance misses, relative.")
    sources: list[SourceDocument] = Field(description="Every source the answer rests on.")
