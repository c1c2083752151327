"""The shape of what a log shows as JSON; conventions as in ``document_model``."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pellicle.report.document_model import CautionDocument
from pellicle.report.shapes import CheckDocument, Number, Shape, SourceDocument, Text, Verdict


class LethalityNumbersDocument(Shape):
    """The numbers of one organism, in log10 reductions; null is withheld."""

    label: str = Field(description="Its name.")
    wet: Number = Field(description="Credited while the surface was wet, by the line for decisions.")
    wet_lower: Number = Field(description="What nine in ten draws about the published mean exceed.")
    credited_minutes: Number = Field(description="For how long heat was credited, min.")
    local: Number = Field(description="Survivors' mean over the outer millimetre, by its own temperature and wetness.")
    local_face: Number = Field(description="The same at the worst face itself.")
    expected: Number = Field(description="With what drying does: likely, not for release.")
    expected_low: Number = Field(description="Low end of its wide band.")
    expected_high: Number = Field(description="High end of its wide band.")
    table: Number = Field(description="The logs of the printed column if a row was held without a break, else 0.")
    table_ramp: Number = Field(description="The exact integral of the table's own line on the core.")
    target: Number = Field(description="The reduction needed; null where there is none.")
    verdict: Verdict = Field(description="Our estimate against the target.")
    why_withheld: dict[str, Text] = Field(description="Why a number is null, by its name.")


class RowHeldDocument(Shape):
    """The printed row met, or the one that came nearest."""

    temperature_c: float = Field(description="Its temperature, C.")
    fahrenheit: float = Field(description="Its temperature as printed, F.")
    needed_minutes: float = Field(description="How long it has to be held, min; 0 is at once.")
    held_minutes: float = Field(description="How long the coldest core held it without a break, min.")
    log: float = Field(description="The reduction of its column.")
    met: bool = Field(description="True if it was held for as long as printed.")


class GrowthDocument(Shape):
    """Growth of one organism without any lag."""

    label: str = Field(description="Its name.")
    log: Number = Field(description="log10 growth; null where it does not apply or is not known.")
    hours: Number = Field(description="For how long it could grow, h.")
    applies: bool = Field(description="False where it cannot grow in such a product.")
    why: Text | None = Field(description="Why there is no number, or null.")


class ProcessMinutesDocument(Shape):
    """Minutes of the process; null where the column it needs is missing."""

    at_humidity: dict[str, Number] = Field(description="Minutes at or above a humidity, by %.")
    at_wet_bulb: dict[str, Number] = Field(description="Minutes with the wet bulb at or above a temperature, by C.")
    come_up: Number = Field(description="From first 10 C to first 54.4 C in the core, min.")
    growth: Number = Field(
        description="All the time the core spent from 10 to 54.4 C, up to a printed row if one was reached, min."
    )
    reached_54_c: bool | None = Field(description="Whether the core reached 54.4 C.")
    cooled: Number = Field(description="Held at 32 to 45.5 C by evaporation while the air was hotter, min.")
    cool_wet: Number = Field(description="With a wet surface from 10 to 54.4 C, min.")


class ColumnsDocument(Shape):
    """The columns of the log that were taken for what; empty where none was."""

    core: list[str] = Field(description="Core probes; the coldest counts.")
    dry_bulb: str = Field(description="Dry bulb.")
    wet_bulb: str = Field(description="Wet bulb.")
    humidity: str = Field(description="Relative humidity.")


class LogFlagDocument(Shape):
    """One thing wrong with the log."""

    id: str = Field(
        description="dry_sock, sock_steam, over_dry, over_boiling, flat, pulled, gap, clock_jump or missing."
    )
    at_minutes: float = Field(description="When it began, min after the first row.")
    minutes: float = Field(description="For how long, min.")
    text: Text = Field(description="What it means.")


class LethalityHistoryDocument(Shape):
    """The log over time, thinned out; a list is empty where its column is missing."""

    minutes: list[float] = Field(description="Minutes after the first row.")
    dry_bulb_c: list[Number] = Field(description="Dry bulb, C.")
    wet_bulb_c: list[Number] = Field(description="Wet bulb, C.")
    core_c: list[Number] = Field(description="Coldest core, C.")
    lethality_wet: list[Number] = Field(description="Credited by then for the organism that leads, log10.")


class MouldDocument(Shape):
    """Days until mould shows in air, as an order of magnitude, at the product's limit of water activity."""

    aw: float = Field(description="The water activity.")
    low_days: Number = Field(description="Low end; null where none can be named.")
    high_days: Number = Field(description="High end; null where none can be named.")
    note: Text = Field(description="What to know of it.")


class LethalityDocument(Shape):
    """What `pellicle lethality --json` prints."""

    schema_id: Literal["pellicle.lethality/1"] = Field(
        "pellicle.lethality/1", alias="schema", description="Name and number of this shape."
    )
    log: str = Field(description="The file's name.")
    began: str = Field(description="When it began, as written in the log; empty if it has no date.")
    product: str = Field(description="The product's name; empty if none was given.")
    species: str = Field(description="The species; empty if it is not told.")
    on: str = Field(description="The day of the cook, YYYY-MM-DD.")
    minutes: float = Field(description="From the first reading to the last, min.")
    readings: int = Field(description="How many rows were read.")
    columns: ColumnsDocument = Field(description="What was taken for what.")
    sentence: Text = Field(description="The answer in one sentence.")
    governing: str = Field(description="The organism that leads: the one that stands worst against its target.")
    lethality: dict[str, LethalityNumbersDocument] = Field(
        description="By organism: salmonella, stec, listeria, aureus."
    )
    row: RowHeldDocument | None = Field(description="The printed row; null without a core.")
    process: ProcessMinutesDocument = Field(description="Minutes of the process.")
    growth: dict[str, GrowthDocument] = Field(description="By organism: aureus, salmonella, perfringens.")
    mould: MouldDocument | None = Field(description="Keeping in air; null without a product.")
    history: LethalityHistoryDocument = Field(description="The log over time.")
    checks: list[CheckDocument] = Field(description="The findings.")
    cautions: list[CautionDocument] = Field(description="Cautions.")
    log_flags: list[LogFlagDocument] = Field(description="What was wrong with the log.")
    remarks: list[Text] = Field(description="How the log was read.")
    sources: list[SourceDocument] = Field(description="Every source the document rests on.")
