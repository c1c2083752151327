"""The shape of the JSON document on a run; conventions as in ``document_model``."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pellicle.report.document_model import CautionDocument, RackDocument, ScheduleDocument
from pellicle.report.lethality_model import (
    GrowthDocument,
    LethalityNumbersDocument,
    MouldDocument,
    ProcessMinutesDocument,
)
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


class CountedDocument(Shape):
    """A stretch of time in which heat was credited."""

    from_minutes: float = Field(description="From, since the start.")
    to_minutes: float = Field(description="To, since the start.")


class ProfileDocument(Shape):
    """One moment across the piece, from the lower face (the middle, of a symmetric one) to the upper."""

    minutes: float = Field(description="Time since the start.")
    depth_m: list[float] = Field(description="Below the upper face, m, in the piece as thick as it is then.")
    temperature_c: list[float] = Field(description="Temperature, C.")
    water_percent: list[float] = Field(description="Water on the weight there, %.")
    salts_percent: list[float] = Field(description="Salts and other small solutes, %.")
    sugars_percent: list[float] = Field(description="Sugars and polyols, %.")
    aw: list[float] = Field(description="Water activity.")


class FaceSoluteDocument(Shape):
    """One solute at the upper face, kg per kg of the water that dissolves."""

    name: str = Field(description="The solute.")
    sugar: bool = Field(description="Whether it is a sugar or polyol.")
    held: float = Field(description="What the face holds.")
    dissolves_hot: float = Field(description="The most that dissolves at the face's temperature.")
    dissolves_cooled: float = Field(description="The most that dissolves at 20 C.")


class FaceDocument(Shape):
    """The upper face at the end: indicators of a tacky, glazed or blooming surface, no score of quality."""

    temperature_c: float = Field(description="Temperature, C.")
    salts: float = Field(description="Salts and other small solutes, kg per kg of matrix.")
    salts_mean: float = Field(description="The same in the mean of the piece.")
    sugars: float = Field(description="Sugars and polyols, kg per kg of matrix.")
    sugars_mean: float = Field(description="The same in the mean of the piece.")
    solutes: list[FaceSoluteDocument] = Field(description="Those whose solubility is known.")
    remarks: list[Text] = Field(description="What follows, with its reasons.")


class RestDocument(Shape):
    """The sealed rest a thick piece needs before its water activity is read."""

    hours: Number = Field(description="Hours; null where the most that was tried is not enough.")
    most_hours: float = Field(description="The longest rest tried, h.")
    gap: float = Field(description="By how much two places may still differ in water activity.")
    at_c: float = Field(description="Temperature of the rest, C.")
    thickness_m: float = Field(description="Thickness of that piece, m: one in twenty is thicker.")


class LeftDocument(Shape):
    """What left the piece, % of the marinated weight, and heat per kg of it."""

    vapour_percent: float = Field(description="Evaporated.")
    drip_water_percent: float = Field(description="Dripped: water.")
    drip_salts_percent: float = Field(description="Dripped: salts and other small solutes.")
    drip_sugars_percent: float = Field(description="Dripped: sugars and polyols.")
    heat_received_kj_kg: float = Field(description="Heat from air and walls, kJ/kg.")
    heat_left_kj_kg: float = Field(description="Heat gone with vapour and drip, kJ/kg.")


class PlaceDocument(Shape):
    """The middle piece of one place the house states."""

    name: str = Field(description="The place.")
    percent_of_raw: float = Field(description="Weight on green weight, %.")
    aw_mean: float = Field(description="Water activity once equalised.")
    lethality_wet: Number = Field(description="Credited while wet; null where withheld.")


class RangeDocument(Shape):
    """Median and 90 % range."""

    middle: float = Field(description="Median.")
    low: float = Field(description="5 % point.")
    high: float = Field(description="95 % point.")


class SpreadDocument(Shape):
    """What differs between batches and pieces does to the passage."""

    organism: str = Field(description="The organism whose credit is followed.")
    batches: int = Field(description="Batches drawn.")
    pieces: int = Field(description="Pieces run.")
    failed: int = Field(description="Pieces whose run did not reach its end.")
    hours: RangeDocument = Field(description="Time to the end.")
    percent_of_raw: RangeDocument = Field(description="Weight of the batch on green weight, %.")
    aw_mean: RangeDocument = Field(description="Mean water activity of the batch.")
    aw_wettest: RangeDocument = Field(description="Water activity that 95 % of a batch's pieces do not exceed.")
    lethality_wet: RangeDocument | None = Field(description="Credited while wet in the least treated 5 %.")
    p_aw: float = Field(description="Share of batches whose wettest 5 % of pieces meet the limit.")
    p_lethality: Number = Field(description="Share of batches whose least treated 5 % reach the target.")
    p_both: Number = Field(description="Share of batches that meet both.")
    aim_aw: Number = Field(
        description="Water activity of the whole batch when its wettest 5 % are at the limit, nothing evened out."
    )
    pull_kg: float = Field(description="The pull weight for that.")
    pull_enough: bool = Field(description="False where even that is not dry enough for batches that count.")
    places: list[PlaceDocument] = Field(description="The places the house states, one by one.")


class RunDocument(Shape):
    """What `pellicle run --json` prints."""

    schema_id: Literal["pellicle.run/1"] = Field(
        "pellicle.run/1", alias="schema", description="Name and number of this shape."
    )
    product: str = Field(description="The product's name.")
    on: str = Field(description="The day whose rules hold.")
    sentence: Text = Field(description="The answer in a sentence.")
    raw_kg: float = Field(description="Green weight, kg.")
    schedule: list[ScheduleDocument] = Field(description="The steps as the product states them.")
    steps: list[RunStepDocument] = Field(description="The steps as they went.")
    end: RunEndDocument = Field(description="The product at the end.")
    history: RunHistoryDocument = Field(description="The passage over time.")
    governing: str = Field(description="The organism that leads.")
    lethality: dict[str, LethalityNumbersDocument] = Field(description="Log reductions by organism.")
    counted: list[CountedDocument] = Field(description="When heat was credited: the drier open face was wet enough.")
    uncounted: Text = Field(description="Why it was not credited at other times.")
    process: ProcessMinutesDocument = Field(description="Minutes at humidities and wet bulbs, and warming up.")
    growth: dict[str, GrowthDocument] = Field(description="Growth by organism, log10.")
    mould: MouldDocument | None = Field(description="Keeping in air, as an order of magnitude.")
    left: LeftDocument = Field(description="What left the piece, and the heat of it.")
    drip_percent_of_marinated: float = Field(description="What dripped, %.")
    salts_lost_percent: float = Field(description="Salts lost with the drip, %.")
    sugars_lost_percent: float = Field(description="Sugars lost with the drip, %.")
    face: FaceDocument = Field(description="The upper face at the end.")
    rest: RestDocument | None = Field(description="The rest before a reading; null where the run did not end.")
    pull_kg: float = Field(description="The pull weight with the drip of this passage.")
    pull_low_kg: float = Field(description="5 % point of that over what differs between batches.")
    pull_high_kg: float = Field(description="95 % point of that over what differs between batches.")
    pull_kg_without_run: float = Field(description="The plan's pull weight.")
    pull_lightest_kg: float = Field(description="The lightest of these and of the spread's: the weight to pull at.")
    racks: list[RackDocument] = Field(description="The scale reading of each rack for it.")
    aw_limit: float = Field(description="The limit it is worked out for.")
    checks: list[CheckDocument] = Field(description="The findings.")
    cautions: list[CautionDocument] = Field(description="Cautions, each with the place it belongs to.")
    remarks: list[Text] = Field(description="What the schedule cannot do.")
    assumptions: list[Text] = Field(description="What was assumed.")
    flags: list[Text] = Field(description="What left the range of the model, and what acted in it.")
    problem: Text | None = Field(description="Why the run did not reach its end; null if it did.")
    spread: SpreadDocument | None = Field(description="The spread over pieces; null without --pieces.")
    profiles: list[ProfileDocument] = Field(description="Across the piece, at the times of --profile.")
    balances: dict[str, float] = Field(description="By how much each balance misses, relative.")
    sources: list[SourceDocument] = Field(description="Every source the answer rests on.")
