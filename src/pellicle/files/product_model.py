"""The shape of a product file: its tables and keys, each with what it means. The published JSON Schema is made from
this.

Values stay as they were typed; ``product_file`` turns them into SI. A value with a unit is a text ("40 lb"); where a
bare number stands instead, the sentence that refuses it shows how to write it.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from pydantic import Field

from pellicle.files.house_model import HouseTable, PieceTable, StepTable
from pellicle.files.table_model import Table, Text, Typed


class ProductTable(Table):
    """What is wanted and under which rules."""

    name: Text = Field(description="The product's name, as it stands on the sheet.")
    species: Text = Field(description="beef, pork, chicken, turkey, duck, venison, elk, bison, lamb, goat, fish, ...")
    form: Text = Field("whole muscle", description="whole muscle, tenderised (needled or bladed), formed, or ground.")
    product_class: str | list[str] = Field(
        "shelf-stable",
        alias="class",
        description="shelf-stable, refrigerated or bacon; inspected, retail-exempt or home. One, or a list.",
    )
    jurisdiction: Text = Field(
        "us", description="Whose cure limits hold: us, eu, ca, codex; others give 'cannot tell'."
    )
    pack: Text = Field("air", description="air, vacuum, gas-flushed or oxygen absorber.")
    aw_limit: Typed = Field(0.85, description="The water activity the wettest pieces must reach, such as 0.85.")
    confidence: Typed = Field(
        "95 %", description="How surely the wettest pieces are to be at the limit at the pull weight."
    )
    aw_support: str = Field("", description="The named document that allows a limit above 0.85.")
    oxygen_evidence: str = Field(
        "", description="How the residual oxygen in the pack is shown, for a limit above 0.85."
    )
    opening_plan: str = Field("", description="What keeps an opened pack in order, for a limit above 0.85.")
    name_class: str = Field("", description="The kind of name it is sold under, such as jerky or kippered.")
    storage_temperature: Typed = Field(
        "20 C", description="Where it is kept: sugar and salt can crystallise when it is cooler."
    )


class MeatTable(Table):
    """The meat: a catalogue name or a composition, and its weights. raw is the green weight, the legal base."""

    ingredient: str = Field("", description="A cut from `pellicle ingredients meat`.")
    name: str = Field("", description="A name for a composition given inline.")
    per_100g: dict[str, float] | None = Field(None, description="g per 100 g: water, protein, fat, ash.")
    raw: Typed | None = Field(None, description="Green weight: raw and trimmed, before any solution.")
    purchased: Typed | None = Field(None, description="Weight as bought, for the yield on purchased weight.")
    sliced: Typed | None = Field(None, description="Weight after slicing.")


class LineTable(Table):
    """One line of the formula."""

    ingredient: Text = Field(description="An ingredient, a mixture or a bag by name.")
    amount: Typed = Field(
        description="'9 % of raw', '3 % of total', '6 g/kg', '4 oz per 100 lb', '150 ppm nitrite of raw', '2 kg'."
    )
    nitrite: Typed | None = Field(None, description="The nitrite share on the cure's label, such as '6.25 %'.")
    nitrate: Typed | None = Field(None, description="The nitrate share on the cure's label.")
    potassium: bool = Field(False, description="True if the label says potassium nitrite or nitrate.")
    spoon: str = Field("", description="The volume a cook would use, such as '2 tsp', for a cross-check.")


class MixtureLineTable(Table):
    """One ingredient of a mixture, where more than its share is to be said."""

    share: Typed = Field(description="Share of the mixture, such as '40 %'.")
    nitrite: Typed | None = None
    nitrate: Typed | None = None
    potassium: bool = False


class BagTable(Table):
    """A unit bag of undisclosed seasoning, from its label."""

    weight: Typed | None = Field(None, description="What the bag weighs.")
    for_meat: Typed | None = Field(None, description="How much meat one bag is for.")
    nitrite: Typed | None = Field(
        None, description="Declared nitrite, such as '0.8 %'; 'none' if the label declares none."
    )
    nitrate: Typed | None = Field(None, description="Declared nitrate, or 'none'.")
    order: list[str] = Field(default_factory=list, description="Its ingredient list, from the most to the least.")
    per_100g: dict[str, float] = Field(default_factory=dict, description="Its nutrition panel in g per 100 g.")


class CureTable(Table):
    """How the cure reaches the meat."""

    method: Text = Field(description="rubbed, tumbled, injected, immersion-pickup, immersion-whole or ground.")


class UptakeTable(Table):
    """What the meat took up: one of marinated, pickup, taken_up; none if unknown."""

    marinated: Typed | None = Field(None, description="Weight after the hold or tumble, or '112 % of raw'.")
    pickup: Typed | None = Field(None, description="Solution taken up as share of raw, such as '10 % of raw'.")
    taken_up: Typed | None = Field(None, description="Share of the solution that went in, such as '95 %'.")
    how: str = Field("", description="hold or tumble.")
    time: Typed | None = None
    temperature: Typed | None = None
    equalised: bool | None = None


class PlanTable(Table):
    """The plant's own plan."""

    version: str = ""
    support: str = Field("", description="The document that supports the plan.")
    humidity_option: str = Field("", description="Its humidity option, such as '2021 option 3'.")
    wet_bulb_hold: str = Field("", description="Its validated hold at a wet bulb, such as '57.2 C for 30 min'.")
    as_studied: bool = Field(False, description="True if your record shows what that hold was tried with.")


class LimitTable(Table):
    """A critical limit of the plant's own plan."""

    what: Text = Field(description="Such as 'ingoing nitrite', 'water activity', 'wet bulb'.")
    value: Typed = Field(description="Such as 'at most 156 ppm', 'at least 60 C for 40 min'.")
    where: str = Field("", description="Where it is measured.")
    how_often: str = ""


class RackTable(Table):
    """A rack, screen or truck."""

    name: Text
    tare: Typed = Field(description="Its empty weight.")
    loaded: Typed | None = Field(None, description="Its weight with the load on it, before the house.")
    marked: bool = Field(False, description="True for the one rack in the slowest place that is watched.")


class ReadingTable(Table):
    """Water activity read on one lot of this very product, with its weights."""

    lot: Text
    raw: Typed
    out: Typed
    aw: float | list[float]
    standard_checked: bool = Field(False, description="True if the meter was checked on a standard that day.")
    observed: date | None = None
    same_humectants: bool = Field(True, description="False if sugars, salt or polyols were changed since.")


class ScaleTable(Table):
    """The scale used for weighing out."""

    division: Typed = Field(description="Its smallest division, such as '5 g'.")


class ProductFile(Table):
    """A product file, format 1."""

    format: int = Field(description="1")
    ingredients: str = Field("", description="A file beside this one with ingredients of your own.")
    product: ProductTable
    meat: MeatTable
    formula: list[LineTable] = Field(default_factory=list)
    mixture: dict[str, dict[str, Typed | MixtureLineTable]] = Field(default_factory=dict)
    bag: dict[str, BagTable] = Field(default_factory=dict)
    cure: CureTable | None = None
    uptake: UptakeTable = Field(default_factory=lambda: UptakeTable.model_validate({}))
    piece: PieceTable = Field(default_factory=lambda: PieceTable.model_validate({}))
    house: HouseTable = Field(default_factory=lambda: HouseTable.model_validate({}))
    step: list[StepTable] = Field(default_factory=list)
    plan: PlanTable = Field(default_factory=lambda: PlanTable.model_validate({}))
    limit: list[LimitTable] = Field(default_factory=list)
    rack: list[RackTable] = Field(default_factory=list)
    reading: list[ReadingTable] = Field(default_factory=list)
    scale: ScaleTable | None = None
    model: dict[str, float] = Field(default_factory=dict, description="Any row of the parameter list by name.")


class OwnIngredientTable(Table):
    """An ingredient added or overridden."""

    per_100g: dict[str, float] = Field(description="g per 100 g by constituent and solute; what is left is water.")
    label: str = ""
    group: str = "own"
    allergens: list[str] = Field(default_factory=list)
    density: Typed | None = Field(None, description="Such as '1.2 g/ml'.")
    source: str = Field("", description="Where the figures come from, such as 'label of the bag, 2026'.")


class IngredientFile(Table):
    """A file of ingredients of one's own, format 1."""

    format: int
    ingredient: dict[str, OwnIngredientTable]


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a product file, as published."""
    found = ProductFile.model_json_schema(by_alias=True)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Pellicle product file, format 1",
        **{key: value for key, value in found.items() if key != "title"},
    }
