"""The calculators and lists as terminal pages: water activity, cure, ingredients, rules, sources."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from pellicle.food.solutes import solute
from pellicle.report.columns import Align, Column, heading, table, wrapped
from pellicle.report.ink import painter
from pellicle.report.numerals import number, plain, span, word
from pellicle.report.plan_rows import check_rows
from pellicle.report.plan_texts import cure_texts, lawful_text
from pellicle.report.terminal_checks import check_lines, sources_line
from pellicle.source import Known, Source, cited

if TYPE_CHECKING:
    from pellicle.answers.cure import CureCalcAnswer
    from pellicle.answers.rules import RuleRow, RulesAnswer
    from pellicle.food.ingredient import Ingredient
    from pellicle.food.water_activity import WaterActivity

PERCENT = 100
# Shares of what lowers water activity that would print as nought are left out, %.
LEAST_SHARE = 0.05
TEXT_INDENT = 2
NOTE_INDENT = 4


def aw_page(answer: WaterActivity, width: int = 100, colour: bool = False) -> str:
    """Return the water activity of a mixture: value and range, what lowers it, what to be warned of."""
    paint = painter(colour)
    sentence = word("aw_sentence", aw=number(answer.aw, 3), span=span(answer.low, answer.high, 3))
    lines = [paint("bold", line) for line in wrapped(sentence, width)]
    columns = [Column("", Align.LEFT, 30), Column(word("share"), Align.POINT, 12)]
    shares = sorted(answer.shares.items(), key=lambda pair: -pair[1])
    shown = [(name, PERCENT * share) for name, share in shares if PERCENT * share >= LEAST_SHARE]
    rows = [(word(f"share_{name}"), number(percent, 1)) for name, percent in shown]
    if rows:
        lines += ["", heading(word("lowers").upper(), columns, width)]
        lines += [line for row in table(columns, rows, width) for line in row]
    bare, other = number(answer.model_aw, 3), number(answer.alternative_aw, 3)
    notes = [word("aw_bare", aw=bare, other=other)] if bare != other else []
    notes += [word(f"aw_class_{answer.klass}", bias=f"{answer.bias:+.3f}")]
    lines += ["", *_paragraphs(notes, width)]
    lines += [paint("ochre", line) for flag in answer.flags for line in _caution(str(flag), width)]
    return "\n".join([*lines, "", *sources_line(cited(answer.sources), width, paint)])


def cure_page(answer: CureCalcAnswer, width: int = 100, colour: bool = False) -> str:
    """Return the ingoing cure against its limit, the sum it comes from, and the most that keeps to the limit."""
    paint = painter(colour)
    sentence, *rest = cure_texts(answer)
    lines = [paint("bold", line) for line in wrapped(sentence, width)]
    about = word(
        "cure_about",
        method=answer.method or word("no_method"),
        jurisdiction=plain(answer.jurisdiction).upper(),
        on=answer.on,
    )
    lines += wrapped(about, width)
    lines += ["", *_paragraphs([*rest, lawful_text(answer)], width), "", paint("bold", word("checks").upper())]
    for row in check_rows(answer.checks):
        lines += check_lines(row, width, paint)
    return "\n".join([*lines, "", *sources_line(answer.sources, width, paint)])


def ingredients_page(ingredients: Sequence[Ingredient], width: int = 100, colour: bool = False) -> str:
    """Return ingredients by group: percent of water, protein, fat, salt and sugars by weight, and allergens."""
    paint = painter(colour)
    columns = [Column("", Align.LEFT)]
    columns += [Column(word(name), Align.POINT, 8) for name in ("water", "protein", "fat", "salt", "sugars")]
    columns += [Column(word("allergens_head"), Align.LEFT, 18)]
    lines = [paint("bold", word("ingredients_sentence", count=len(ingredients)))]
    ordered = sorted(ingredients, key=lambda one: (one.group, one.name))
    for group, members in groupby(ordered, key=lambda one: one.group):
        printed = table(columns, [_ingredient_cells(one) for one in members], width)
        lines += ["", heading(plain(group).upper(), columns, width), *(line for row in printed for line in row)]
    if len(ingredients) == 1:
        lines += ["", *_ingredient_notes(ingredients[0], width)]
    return "\n".join(lines)


def rules_page(answer: RulesAnswer, width: int = 100, colour: bool = False) -> str:
    """Return the limits in force by jurisdiction and topic: the limit as compared, its clause, what the clause says."""
    paint = painter(colour)
    lines = [paint("bold", word("rules_sentence", count=len(answer.rows), on=answer.on))]
    for place, rows in groupby(answer.rows, key=lambda row: (row.jurisdiction, row.topic)):
        lines += ["", paint("bold", word("rules_place", jurisdiction=place[0].upper(), topic=place[1]))]
        lines += [line for row in rows for line in _rule_lines(row, width)]
    return "\n".join([*lines, "", *sources_line(answer.sources, width, paint)])


def sources_page(sources: Sequence[Source], width: int = 100, colour: bool = False) -> str:
    """Return every source by how well it is known, those yet to be verified first."""
    paint = painter(colour)
    unverified = sum(source.to_verify for source in sources)
    sentence = word("sources_sentence", count=len(sources), unverified=unverified)
    lines = [paint("bold", line) for line in wrapped(sentence, width)]
    for known in (Known.MEMORY, Known.PRACTICE, Known.SECONDARY, Known.SEEN, Known.COMPUTED):
        members = sorted((source for source in sources if source.known is known), key=lambda source: source.key)
        if members:
            lines += [
                "",
                paint("ochre bold" if members[0].to_verify else "bold", word(f"known_{known.name.lower()}").upper()),
            ]
        for source in members:
            text = (
                f"{source.key}: {source.title}." if not source.note else f"{source.key}: {source.title}. {source.note}"
            )
            lines += wrapped(text, width, TEXT_INDENT, NOTE_INDENT)
    return "\n".join(lines)


def _paragraphs(texts: Iterable[str], width: int) -> list[str]:
    return [line for text in texts if text for line in wrapped(text, width, TEXT_INDENT)]


def _caution(text: str, width: int) -> list[str]:
    return wrapped(word("caution", text=text), width, TEXT_INDENT, NOTE_INDENT)


def _ingredient_cells(one: Ingredient) -> tuple[str, ...]:
    made = one.composition
    sweet = sum(float(mass) for name, mass in made.solutes.items() if solute(name).sweet)
    shares = (made.water, made.protein, made.fat, made.solute("salt"), sweet)
    return (plain(one.name), *(number(PERCENT * float(share), 1) for share in shares), plain(", ".join(one.allergens)))


def _ingredient_notes(one: Ingredient, width: int) -> list[str]:
    texts = [
        str(one.normalised) if one.normalised is not None else "",
        *(str(remark) for remark in one.remarks),
        one.note,
    ]
    if one.density_kg_m3 is not None:
        texts.append(word("density", density=number(one.density_kg_m3, 0)))
    if one.aliases:
        texts.append(word("aliases", names=", ".join(one.aliases)))
    found = "; ".join(source.title for source in cited(one.sources))
    texts.append(word("from_source", sources=found, locator=one.locator or "-", checked=one.checked))
    return _paragraphs(texts, width)


def _rule_lines(row: RuleRow, width: int) -> list[str]:
    columns = [Column("", Align.LEFT), Column("", Align.RIGHT, 22)]
    about = ", ".join(part for part in (row.agent, row.product, row.basis, row.counted_as, row.condition) if part)
    limit = (
        ""
        if row.limit is None
        else f"{word(row.bound.replace(' ', '_'), value=f'{row.limit:.10g}')} {row.unit}".strip()
    )
    (lines,) = table(columns, [(plain(about), limit)], width)
    printed = ": ".join(part for part in (row.clause, row.as_printed) if part) + "."
    times = " ".join(
        word(name, day=day) for name, day in (("in_force_from", row.since), ("in_force_until", row.until)) if day
    )
    use = "" if row.use == "blocks" else word(f"use_{row.use}")
    verify = word("verify") if row.to_verify else ""
    said = " ".join(part for part in (printed, times, use, verify) if part)
    return [*lines, *wrapped(said, width, NOTE_INDENT + TEXT_INDENT)]
