"""The shape of the JSON documents of the calculators and lists; conventions as in ``document_model``."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pellicle.report.shapes import CheckDocument, Number, Shape, SourceDocument, Text, Verdict


class AwDocument(Shape):
    """What `pellicle aw --json` prints."""

    schema_id: Literal["pellicle.aw/1"] = Field(
        "pellicle.aw/1", alias="schema", description="Name and number of this shape."
    )
    aw: float = Field(description="Water activity at 25 C, as a meter would read it.")
    aw_low: float = Field(description="Low end of its range.")
    aw_high: float = Field(description="High end of its range.")
    level: float = Field(description="The share of cases the range is meant to hold.")
    sd: float = Field(description="Its standard deviation.")
    bias: float = Field(description="What was added to the bare model because products of this class read differently.")
    model_aw: float = Field(description="The bare model.")
    alternative_aw: Number = Field(description="The bare model under the other mixing rule.")
    klass: str = Field(
        alias="class", description="What kind of product the range was taken for: solution, salted or sweet."
    )
    shares: dict[str, float] = Field(description="Each group's part of what lowers the water activity; they add to 1.")
    warnings: list[Text] = Field(description="What to be warned of.")
    sources: list[SourceDocument] = Field(description="Every source the answer rests on.")


class CureCalculationDocument(Shape):
    """What `pellicle cure --json` prints."""

    schema_id: Literal["pellicle.cure/1"] = Field(
        "pellicle.cure/1", alias="schema", description="Name and number of this shape."
    )
    agent: str = Field(description="The agent judged: nitrite or nitrate.")
    method: str = Field(description="How it reaches the meat; empty if not stated.")
    jurisdiction: str = Field(description="Whose rules were applied.")
    on: str = Field(description="The date whose rules were applied, YYYY-MM-DD.")
    ingoing_ppm: Number = Field(
        description="Ingoing agent by the method's official arithmetic, counted as the limit counts, ppm."
    )
    as_weighed_ppm: Number = Field(description="The same of the salts as they were weighed, ppm.")
    basis: Text = Field(description="What the ppm are counted on.")
    limit_ppm: Number = Field(description="The limit, ppm; null where none is known.")
    verdict: Verdict = Field(description="The verdict on the ingoing amount.")
    worst_case_ppm: Number = Field(description="With all of the cure in the meat, ppm.")
    other_official_ppm: Number = Field(
        description="The answer of the other official arithmetic, where there are two, ppm."
    )
    finished_undepleted_ppm: Number = Field(description="Counted on the finished weight, where that is known, ppm.")
    largest_lawful_kg: Number = Field(description="The most of this cure that stays inside the limit, kg.")
    arithmetic: list[Text] = Field(description="The sums in words.")
    checks: list[CheckDocument] = Field(description="Every check made.")
    sources: list[SourceDocument] = Field(description="Every source the answer rests on.")


class IngredientDocument(Shape):
    """One ingredient of the catalogue."""

    name: str = Field(description="Its name in product files.")
    label: str = Field(description="Its name as a label has it.")
    aliases: list[str] = Field(description="Other names it is found under.")
    group: str = Field(description="What it belongs to.")
    species: str = Field(description="The species of a meat; empty otherwise.")
    allergens: list[str] = Field(description="Its allergens.")
    water: float = Field(description="kg per kg.")
    protein: float = Field(description="kg per kg.")
    fat: float = Field(description="kg per kg.")
    ash: float = Field(description="kg per kg, without the salts under solutes.")
    carbohydrate: float = Field(description="kg per kg, without what stands under solutes.")
    solutes: dict[str, float] = Field(description="kg per kg, by name.")
    density_kg_m3: Number = Field(description="As spooned or poured, kg/m3; null if not known.")
    water_sd: float = Field(
        description="Standard deviation of its water between lots, kg per kg; 0 where nothing is known."
    )
    remarks: list[Text] = Field(description="What to know of it.")
    note: str = Field(description="What else its row says.")
    locator: str = Field(description="Where in the source.")
    checked: str = Field(description="When the row was checked against its source, or no.")
    sources: list[str] = Field(description="Keys of its sources: `pellicle sources`.")


class IngredientsDocument(Shape):
    """What `pellicle ingredients --json` prints."""

    schema_id: Literal["pellicle.ingredients/1"] = Field(
        "pellicle.ingredients/1", alias="schema", description="Name and number of this shape."
    )
    ingredients: list[IngredientDocument] = Field(description="The ingredients that match.")


class RuleDocument(Shape):
    """One limit."""

    id: str = Field(description="The row's name; stays the same from version to version.")
    jurisdiction: str = Field(description="Whose rule it is.")
    topic: str = Field(description="What it is about: cure, accelerator, phosphate, aw, mpr, ...")
    product: str = Field(description="What product it is for.")
    agent: str = Field(description="What it limits; empty where the product itself is meant.")
    basis: str = Field(description="What it is counted on.")
    counted_as: str = Field(description="The substance it is written in.")
    bound: Literal["at most", "at least"] = Field(description="Which side a value has to be on.")
    limit: Number = Field(description="The limit in unit; null where the row states a duty without a figure.")
    unit: str = Field(description="Its unit.")
    use: Literal["blocks", "informs", "listed"] = Field(
        description="Whether it stops a release, informs, or is only listed."
    )
    condition: str = Field(description="When it holds; empty if always.")
    since: str = Field(description="First day it stands, YYYY-MM-DD; empty where open.")
    until: str = Field(description="Last day it stands; empty where open.")
    clause: str = Field(description="Where it is written.")
    as_printed: str = Field(description="What the clause itself says.")
    note: str = Field(description="What else is known of it.")
    to_verify: bool = Field(description="True where the row is yet to be verified.")
    sources: list[str] = Field(description="Keys into sources.")


class RulesDocument(Shape):
    """What `pellicle rules --json` prints."""

    schema_id: Literal["pellicle.rules/1"] = Field(
        "pellicle.rules/1", alias="schema", description="Name and number of this shape."
    )
    on: str = Field(description="The date the limits stand on, YYYY-MM-DD.")
    jurisdiction: str = Field(description="Whose limits are listed; empty for all.")
    rules: list[RuleDocument] = Field(description="The limits, in the order of the table.")
    sources: list[SourceDocument] = Field(description="Every source they rest on.")


class SourcesDocument(Shape):
    """What `pellicle sources --json` prints."""

    schema_id: Literal["pellicle.sources/1"] = Field(
        "pellicle.sources/1", alias="schema", description="Name and number of this shape."
    )
    sources: list[SourceDocument] = Field(description="Every source.")
