"""What a log shows as a terminal page: the organism that leads, what is credited and why not the rest, findings."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from pellicle.report.columns import Align, Column, heading, table, wrapped
from pellicle.report.ink import Paint, painter
from pellicle.report.numerals import number, plain, word
from pellicle.report.plan_rows import check_rows
from pellicle.report.process_texts import process_texts
from pellicle.report.terminal_checks import checks_section, sources_line
from pellicle.rules.words import logs

if TYPE_CHECKING:
    from pellicle.answers.lethality_answer import LethalityAnswer, OrganismLethality

TEXT_INDENT, NOTE_INDENT = 2, 4
NUMBERS = ("wet", "wet_lower", "local", "expected", "table", "table_ramp")


def lethality_page(answer: LethalityAnswer, width: int = 100, colour: bool = False) -> str:
    """Return the page of a log: sentence, numbers by organism, minutes, growth, what was wrong, findings, cautions."""
    paint = painter(colour)
    lines = [paint("bold", line) for line in wrapped(str(answer.sentence), width)]
    lines += wrapped(_about(answer), width)
    lines += ["", *_numbers(answer, width)]
    lines += _minutes(answer, width, paint)
    lines += _growth(answer, width, paint)
    faults = [plain(str(one.text)) for one in answer.log_flags] + [plain(str(one)) for one in answer.remarks]
    if faults:
        lines += ["", paint("bold", word("lethality_log").upper()), *_paragraphs(faults, width)]
    lines += ["", *checks_section(check_rows(answer.checks), width, paint), ""]
    for caution in answer.cautions:
        lines += wrapped(word("caution", text=plain(str(caution.text))), width, TEXT_INDENT, NOTE_INDENT)
    return "\n".join([*lines, "", *sources_line(answer.sources, width, paint)])


def _about(answer: LethalityAnswer) -> str:
    unknown = word("lethality_no_column")
    columns = answer.columns
    return word(
        "lethality_about",
        log=plain(answer.log),
        minutes=number(answer.minutes, 0),
        readings=answer.readings,
        species=plain(answer.species) or unknown,
        core=plain(", ".join(columns.core)) or unknown,
        dry=plain(columns.dry_bulb) or unknown,
        wet=plain(columns.wet_bulb or columns.humidity) or unknown,
    )


def _numbers(answer: LethalityAnswer, width: int) -> list[str]:
    columns = [Column("", Align.LEFT)]
    columns += [Column(word(f"lethality_{name}"), Align.RIGHT, 8) for name in NUMBERS]
    ordered = sorted(answer.lethality.items(), key=lambda pair: pair[0] != answer.governing)
    rows = [_cells(one) for _, one in ordered]
    printed = [line for row in table(columns, rows, width) for line in row]
    leads = answer.lethality[answer.governing]
    reasons = dict.fromkeys(plain(str(text)) for text in leads.why_withheld.values())
    notes = [word("lethality_legend"), *reasons]
    return [heading(word("lethality_log10").upper(), columns, width), *printed, *_paragraphs(notes, width)]


def _cells(one: OrganismLethality) -> tuple[str, ...]:
    return (plain(one.label), *(_logs(getattr(one, name)) for name in NUMBERS))


def _logs(value: float | None) -> str:
    return number(None, 1) if value is None else logs(value)


def _minutes(answer: LethalityAnswer, width: int, paint: Paint) -> list[str]:
    texts = process_texts(answer.process)
    return ["", paint("bold", word("lethality_process").upper()), *_paragraphs(texts, width)] if texts else []


def _growth(answer: LethalityAnswer, width: int, paint: Paint) -> list[str]:
    texts = [
        word("lethality_growth_one", label=one.label, log=number(one.log, 1), hours=number(one.hours, 1))
        if one.log is not None
        else word("lethality_growth_none", label=one.label, why=plain(str(one.why or "")))
        for one in answer.growth.values()
    ]
    if answer.mould is not None:
        texts.append(word("lethality_mould", aw=number(answer.mould.aw, 2), note=plain(str(answer.mould.note))))
    return ["", paint("bold", word("lethality_growth").upper()), *_paragraphs(texts, width)]


def _paragraphs(texts: Iterable[str], width: int) -> list[str]:
    return [line for text in texts if text for line in wrapped(text, width, TEXT_INDENT)]
