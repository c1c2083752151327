"""The plan as one readable terminal page: the sentence first, then the order of the work, in plain characters."""

from __future__ import annotations

from pellicle.answers.plan_answer import CureAnswer, PlanAnswer
from pellicle.report import plan_rows
from pellicle.report.columns import Align, Column, heading, table, wrapped
from pellicle.report.ink import Paint, painter
from pellicle.report.like_section import like_section
from pellicle.report.numerals import plain, word
from pellicle.report.placing import Section, placed
from pellicle.report.plan_texts import (
    about_text,
    allergens_text,
    cure_texts,
    lawful_text,
    pull_texts,
    worth_text,
    yields_text,
)
from pellicle.report.step_rows import step_rows
from pellicle.report.terminal_checks import checks_section, sources_line
from pellicle.report.withheld import withheld
from pellicle.rules.words import cut_mass

NARROWEST = 80
TEXT_INDENT = 2


def plan_page(answer: PlanAnswer, width: int = 100, colour: bool = False, units: str = "both") -> str:
    """Return the plan as text, no line longer than ``width`` characters (80 at the least).

    ``units`` is ``metric``, ``us`` or ``both``. Colour codes appear only if ``colour``. A plan that is refused shows
    its finding, the largest lawful amount of its cure and its checks, and no amount to weigh.
    """
    paint, width, answer = painter(colour), max(width, NARROWEST), withheld(answer)
    sections = [_opening(answer, width, paint)]
    if answer.refused is not None:
        sections += [_refusal(answer, width, paint)]
    else:
        sections += [_formula(answer, width, paint, units) + _caution_lines(answer, Section.FORMULA, width, paint)]
    sections += [_cure(answer.cure, answer, width, paint)]
    sections += [_house(answer, width, paint)]
    if answer.refused is None:
        sections += [
            _weights(answer, width, paint, units),
            _pull(answer, width, paint, units) + _caution_lines(answer, Section.PULL, width, paint),
            _yields(answer, width, paint),
            like_section(answer.like, width, paint) if answer.like else [],
        ]
    sections += [
        checks_section(plan_rows.check_rows(answer.checks), width, paint),
        _caution_lines(answer, Section.CHECKS, width, paint),
        _assumptions(answer, width, paint),
        sources_line(answer.sources, width, paint),
    ]
    return "\n\n".join("\n".join(section) for section in sections if section)


def _opening(answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    lines = [paint("bold", line) for line in wrapped(str(answer.sentence), width)]
    return [*lines, *wrapped(about_text(answer), width)]


def _refusal(answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    repeated = str(answer.refused) == str(answer.sentence)
    lines = [] if repeated else [paint("rust bold", line) for line in wrapped(str(answer.refused), width)]
    if answer.cure is not None and not _says_the_amount(answer):
        lines += wrapped(lawful_text(answer.cure), width)
    return lines


def _says_the_amount(answer: PlanAnswer) -> bool:
    lawful = answer.cure.largest_lawful_kg if answer.cure is not None else None
    return lawful is not None and cut_mass(lawful) in str(answer.refused)


def _formula(answer: PlanAnswer, width: int, paint: Paint, units: str) -> list[str]:
    columns = [
        Column("", Align.LEFT),
        Column(word("percent_of_raw"), Align.POINT, 8),
        Column(word("percent_finished"), Align.POINT, 9),
    ]
    if units != "us":
        columns.append(Column(word("metric"), Align.RIGHT, 10))
    if units != "metric":
        columns.append(Column("US", Align.RIGHT, 10))
    columns.append(Column("", Align.LEFT, 22))
    rows, sums = plan_rows.weigh_rows(answer), plan_rows.total_rows(answer)
    cells = [_weigh_cells(row, units) for row in rows + sums]
    printed = table(columns, cells, width)
    lines = [_head("formula", columns, width, paint)]
    lines += [line for row in printed[: len(rows)] for line in row]
    lines += [" " * TEXT_INDENT + "-" * (width - TEXT_INDENT)]
    lines += [line for row in printed[len(rows) :] for line in row]
    for fact in answer.facts:
        lines += wrapped(str(fact), width, TEXT_INDENT)
    lines += wrapped(allergens_text(answer), width, TEXT_INDENT)
    return lines


def _head(name: str, columns: list[Column], width: int, paint: Paint) -> str:
    title = word(name).upper()
    return paint("bold", title) + heading(title, columns, width).removeprefix(title)


def _weigh_cells(row: plan_rows.WeighRow, units: str) -> tuple[str, ...]:
    amounts = {"metric": (row.metric,), "us": (row.us,)}.get(units, (row.metric, row.us))
    return (row.name, row.percent, row.finished, *amounts, row.carries)


def _cure(cure: CureAnswer | None, answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    name = paint("bold", word("cure").upper())
    if cure is None:
        lines = [name, *wrapped(word("no_cure"), width, TEXT_INDENT)]
    else:
        lines = [f"{name}, {plain(cure.method)}" if cure.method else name]
        for text in cure_texts(cure):
            lines += wrapped(text, width, TEXT_INDENT)
    return [*lines, *_caution_lines(answer, Section.CURE, width, paint)]


def _house(answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    cautions = _caution_lines(answer, Section.HOUSE, width, paint)
    if answer.schedule:
        return [*_schedule(answer, width, paint), *cautions]
    return [paint("bold", word("house").upper()), *cautions] if cautions else []


def _schedule(answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    columns = [
        Column("", Align.LEFT, 12),
        Column(word("dry_bulb_c"), Align.POINT, 6),
        Column(word("dry_bulb_f"), Align.POINT, 6),
        Column(word("humidity"), Align.LEFT),
        Column(word("smoke"), Align.LEFT, 5),
        Column(word("ends"), Align.LEFT, 28),
    ]
    rows = step_rows(answer.schedule)
    cells = [(row.name, row.celsius, row.fahrenheit, row.humidity, row.smoke, row.ends) for row in rows]
    return [_head("house", columns, width, paint), *(line for row in table(columns, cells, width) for line in row)]


def _weights(answer: PlanAnswer, width: int, paint: Paint, units: str) -> list[str]:
    rows = plan_rows.weight_rows(answer)
    if not rows:
        return []
    columns = [Column("", Align.LEFT)]
    columns += [Column("kg", Align.POINT, 8)] if units != "us" else []
    columns += [Column("lb", Align.POINT, 8)] if units != "metric" else []
    columns += [Column(word("of_green"), width=10), Column(word("aw_pieces"), width=16)]
    columns += [Column("MPR", width=7), Column(word("salt_percent"), width=7), Column(word("sugar_percent"), width=7)]
    cells = []
    for row in rows:
        weights = {"metric": (row.kg,), "us": (row.lb,)}.get(units, (row.kg, row.lb))
        cells.append((row.mark, *weights, row.of_green, row.aw, row.mpr, row.salt, row.sugar))
    lines = [_head("weight", columns, width, paint)]
    for row, printed in zip(rows, table(columns, cells, width), strict=True):
        lines += [paint("bold", line) if row.is_pull else line for line in printed]
    return lines


def _pull(answer: PlanAnswer, width: int, paint: Paint, units: str) -> list[str]:
    lines = [paint("bold", word("pull_head").upper())]
    for text in pull_texts(answer.pull, plan_rows.pull_digits(answer)):
        lines += wrapped(text, width, TEXT_INDENT)
    if answer.pull.racks:
        lines += _racks(answer, width, units)
    if answer.pull.worth:
        lines += wrapped(worth_text(answer.pull), width, TEXT_INDENT)
    return lines


def _racks(answer: PlanAnswer, width: int, units: str) -> list[str]:
    both = [Column(word("pull_at_kg"), Align.POINT, 12)] if units != "us" else []
    both += [Column(word("pull_at_lb"), Align.POINT, 12)] if units != "metric" else []
    columns = [
        Column("", Align.LEFT),
        Column(word("tare_kg"), Align.POINT, 9),
        Column(word("loaded_kg"), Align.POINT, 12),
    ]
    columns += [*both, Column(word("of_load"), width=12)]
    cells = []
    for row in plan_rows.rack_rows(answer):
        pulls = {"metric": (row.pull,), "us": (row.pull_us,)}.get(units, (row.pull, row.pull_us))
        name = word("marked_rack", name=row.name) if row.marked else row.name
        cells.append((name, row.tare, row.loaded or word("not_weighed"), *(pull or "-" for pull in pulls), row.percent))
    lines = ["", heading("  " + word("racks"), columns, width)]
    lines += [line for row_lines in table(columns, cells, width) for line in row_lines]
    return [*lines, *wrapped(word("racks_note"), width, TEXT_INDENT), ""]


def _yields(answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    if not answer.yields:
        return []
    name = word("yields").upper()
    first, *rest = wrapped(f"{name}: {yields_text(answer)}.", width, 0, TEXT_INDENT)
    return [paint("bold", name) + first.removeprefix(name), *rest]


def _caution_lines(answer: PlanAnswer, section: Section, width: int, paint: Paint) -> list[str]:
    lines: list[str] = []
    for text in placed(answer.cautions, section):
        first, *rest = wrapped(word("caution", text=text), width, TEXT_INDENT, TEXT_INDENT + 2)
        lines += [paint("ochre", line) for line in (first, *rest)]
    return lines


def _assumptions(answer: PlanAnswer, width: int, paint: Paint) -> list[str]:
    if not answer.assumptions:
        return []
    lines = [paint("bold", word("assumed").upper())]
    for text in answer.assumptions:
        lines += wrapped(str(text), width, TEXT_INDENT, TEXT_INDENT + 2)
    return lines
