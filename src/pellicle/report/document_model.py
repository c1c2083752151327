"""The shape of a plan as JSON: every key with its unit and meaning. The published schema is generated from it.

Keys are plain numbers in the unit of their name; unknown is null. A key may be added under the same schema number; a
key that goes or changes its meaning raises it.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pellicle.report.shapes import CheckDocument, FigureDocument, Number, Shape, SourceDocument, Text, Verdict


class LineDocument(Shape):
    """One line to weigh."""

    ingredient: str = Field(description="The ingredient's name in the catalogue or the product file.")
    label: str = Field(description="Its name as a label has it.")
    kg: Number = Field(description="What to weigh, kg, rounded to the scale's division; null when the plan is refused.")
    exact_kg: Number = Field(description="The same before rounding, kg.")
    percent_of_raw: float = Field(description="% of green weight.")
    percent_of_total: float = Field(description="% of all lines together.")
    percent_of_finished: Number = Field(description="% of the weight at the pull.")
    is_meat: bool = Field(description="True for the meat.")
    is_cure: bool = Field(description="True for a line that brings nitrite or nitrate.")
    allergens: list[str] = Field(description="Allergens of this line.")
    carries: list[Text] = Field(description="Remarks that stand beside the line.")


class CureDocument(Shape):
    """The cure against its limit."""

    agent: str = Field(description="The agent counted, such as sodium nitrite.")
    method: str = Field(description="How it reaches the meat; the arithmetic follows from it.")
    ingoing_ppm: Number = Field(description="Ingoing agent by the method's official arithmetic, ppm (mg/kg) of basis.")
    basis: str = Field(description="What the ppm are counted on.")
    limit_ppm: Number = Field(description="The limit in this jurisdiction on this date, ppm; null where none is known.")
    verdict: Verdict = Field(description="The verdict on the ingoing amount.")
    worst_case_ppm: Number = Field(description="The worst case where the amount taken up is not known, ppm.")
    other_official_ppm: Number = Field(
        description="The answer of the other official arithmetic, where there are two, ppm."
    )
    finished_undepleted_ppm: Number = Field(description="Ingoing agent counted on the finished weight, ppm.")
    largest_lawful_kg: Number = Field(description="The most of this cure that stays inside the limit, kg.")
    arithmetic: list[Text] = Field(description="The sums in words; empty when the plan is refused.")
    sources: list[str] = Field(description="Keys into sources.")


class RackDocument(Shape):
    """One rack, screen or truck."""

    name: str = Field(description="Its name.")
    tare_kg: float = Field(description="Empty, kg.")
    loaded_kg: Number = Field(description="Loaded, tare included, kg; null if not weighed.")
    pull_kg: Number = Field(description="The scale reading to pull at, tare included, kg.")
    percent_of_loaded: float = Field(description="The pull weight as % of the loaded weight, both without the tare.")
    marked: bool = Field(description="True for the rack that is weighed for all.")


class WorthDocument(Shape):
    """What a piece of evidence would do to the pull weight."""

    evidence: Text = Field(description="The evidence, in words.")
    kg_per_100_raw: float = Field(description="How far it would move the pull weight, kg per 100 kg of green weight.")


class PullDocument(Shape):
    """The weight to pull at."""

    aw: float = Field(description="The water activity that the wettest pieces are to reach.")
    confidence: float = Field(description="The confidence with which they do.")
    kg: Number = Field(description="The weight to pull at, kg; null if none can be named.")
    percent_of_raw: Number = Field(description="The same as % of green weight.")
    percent_of_marinated: Number = Field(description="The same as % of the weight on the rack.")
    low_kg: Number = Field(
        description="The low end of how far this weight would move if the batch were known better, kg."
    )
    high_kg: Number = Field(description="The high end, kg.")
    likely_kg: Number = Field(description="Where the wettest pieces most likely meet the limit, kg.")
    batch_mean_aw: Number = Field(description="The batch mean to aim for.")
    reading_at_most: Number = Field(description="What a reading of the equalised batch should not exceed.")
    piece_sd: float = Field(description="Standard deviation of aw between pieces.")
    why_not: Text | None = Field(description="Why no weight can be named, or null.")
    racks: list[RackDocument] = Field(description="The scale reading of each rack.")
    worth: list[WorthDocument] = Field(description="What further evidence would be worth.")


class PointDocument(Shape):
    """The product at one weight on the way down."""

    kg: float = Field(description="Weight, kg.")
    percent_of_raw: Number = Field(description="% of green weight.")
    percent_of_marinated: float = Field(description="% of the weight on the rack.")
    water_kg: float = Field(description="Water left, kg.")
    aw: Number = Field(description="Batch mean water activity.")
    aw_low: Number = Field(description="Low end over the pieces.")
    aw_high: Number = Field(description="High end over the pieces.")
    mpr: Number = Field(description="Moisture to protein; null without protein.")
    salt_percent: Number = Field(description="Salt, % of the weight.")
    sugar_percent: Number = Field(description="Sugars and polyols, % of the weight.")
    brine_percent: Number = Field(description="Salt, % of salt and water.")
    inside: bool = Field(description="True where the wettest pieces are inside the limit at the stated confidence.")
    mark: Text | None = Field(description="What this weight means, or null.")


class YieldDocument(Shape):
    """A yield with its base."""

    base: str = Field(description="What the yield is counted on.")
    base_kg: float = Field(description="The weight of that base, kg.")
    percent: float = Field(description="The pull weight as % of it.")


class ScheduleDocument(Shape):
    """One step of the schedule, as the product states it."""

    name: str = Field(description="The step's name.")
    dry_bulb_c: Number = Field(description="Set point of the air, C; null if not stated.")
    humidity: Text = Field(description="How its humidity is held, in words.")
    ramp: Text | None = Field(description="How the air gets there, in words; null where it is set at once.")
    smoke: bool = Field(description="True where it is smoked.")
    ends: Text = Field(description="What ends it, in words.")
    at_most: Text | None = Field(description="When it ends in any case, in words; null where nothing is stated.")


class LikeLineDocument(Shape):
    """One seasoning beside the other product's."""

    ingredient: str = Field(description="The ingredient.")
    percent_of_finished: float = Field(description="% of the finished weight, here.")
    other_percent_of_finished: float = Field(description="% of the finished weight, in the other product.")
    factor: float = Field(description="What to multiply this line by for the same taste per bite.")
    percent_of_raw: float = Field(description="% of green weight, before.")
    new_percent_of_raw: float = Field(description="% of green weight, after.")


class LikeDocument(Shape):
    """Matching another product's taste per bite."""

    other: str = Field(description="The other product.")
    lines: list[LikeLineDocument] = Field(description="Each seasoning.")
    pull_kg_before: Number = Field(description="Pull weight before, kg.")
    pull_kg_after: Number = Field(description="Pull weight after, kg.")
    aw_before: Number = Field(description="Batch mean water activity before.")
    aw_after: Number = Field(description="Batch mean water activity after.")
    nitrite_ppm_before: Number = Field(description="Ingoing nitrite before, ppm.")
    nitrite_ppm_after: Number = Field(description="Ingoing nitrite after, ppm.")
    notes: list[Text] = Field(description="Remarks.")


class CautionDocument(Shape):
    """What to beware of, and where."""

    where: Literal["meat", "formula", "cure", "house", "pull", "pack", "release"] = Field(
        description="The part of the work it belongs to."
    )
    text: str = Field(description="What it says.")


class PlanDocument(Shape):
    """What `pellicle plan --json` prints."""

    schema_id: Literal["pellicle.plan/1"] = Field(
        "pellicle.plan/1", alias="schema", description="Name and number of this shape."
    )
    product: str = Field(description="The product's name.")
    jurisdiction: str = Field(description="Whose rules were applied.")
    on: str = Field(description="The date whose rules were applied, YYYY-MM-DD.")
    sentence: Text = Field(description="The answer in one sentence.")
    refused: Text | None = Field(
        description="Why no amounts are given, or null. When set, every amount to weigh is null."
    )
    raw_kg: float = Field(description="Green weight, kg.")
    total_kg: Number = Field(description="All lines together, kg.")
    marinated_kg: Number = Field(description="On the rack after uptake, kg.")
    marinated_low_kg: Number = Field(description="Low end of that, kg.")
    marinated_high_kg: Number = Field(description="High end of that, kg.")
    scale_division_kg: Number = Field(
        description="The division of the scale the lines were rounded to, kg; null if not stated."
    )
    lines: list[LineDocument] = Field(description="What to weigh.")
    schedule: list[ScheduleDocument] = Field(
        description="The steps in the house as stated; empty without a schedule, and when the plan is refused."
    )
    cure: CureDocument | None = Field(description="The cure, or null if there is none.")
    pull: PullDocument = Field(description="The weight to pull at, with its range.")
    curve: list[PointDocument] = Field(description="The product at each weight on the way down.")
    yields: list[YieldDocument] = Field(description="Yields at the pull, each with its base.")
    like: LikeDocument | None = Field(description="The comparison with another product, or null.")
    checks: list[CheckDocument] = Field(description="The checks, own limits first.")
    cautions: list[CautionDocument] = Field(description="Cautions, in the order of the work.")
    assumptions: list[Text] = Field(description="What was assumed for want of evidence.")
    facts: list[Text] = Field(description="Remarks on the formula.")
    flags: list[str] = Field(description="What was out of range or clipped.")
    sources: list[SourceDocument] = Field(description="Every source the document rests on.")
    figures: dict[str, FigureDocument] = Field(
        description="Ranges and origins, by JSON pointer to the number they belong to."
    )
