"""A passage through the house as a terminal page: sentence, steps, a compact chart, end, lethality, spread,
findings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pellicle.report.columns import Align, Column, heading, table, wrapped
from pellicle.report.ink import Paint, painter
from pellicle.report.numerals import batch_digits, number, plain, span, word
from pellicle.report.plan_rows import check_rows
from pellicle.report.terminal_checks import checks_section, sources_line
from pellicle.rules.words import logs
from pellicle.units import show_duration, show_mass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pellicle.answers.run_answer import Profile, Range, Rest, RunAnswer

TEXT_INDENT, NOTE_INDENT = 2, 4
CHART_COLUMNS, CHART_ROWS = 72, 10
WAYS = ("wet", "wet_lower", "local", "expected", "table")


def run_page(answer: RunAnswer, width: int = 100, colour: bool = False) -> str:
    """Return the page of a run, at most ``width`` columns wide."""
    paint = painter(colour)
    lines = [paint("bold", line) for line in wrapped(str(answer.sentence), width)]
    lines += wrapped(word("run_about", product=plain(answer.product), on=answer.on), width)
    lines += ["", *_steps(answer, width, paint), "", *_chart(answer, paint), "", *_end(answer, width, paint)]
    lines += ["", *_lethality(answer, width), *_after(answer, width, paint)]
    lines += [line for one in answer.profiles for line in _profile(one, width)]
    lines += _spread(answer, width, paint)
    lines += ["", *checks_section(check_rows(answer.checks), width, paint), ""]
    for caution in answer.cautions:
        lines += wrapped(word("caution", text=plain(str(caution.text))), width, TEXT_INDENT, NOTE_INDENT)
    lines += ["", paint("bold", word("assumed").upper())]
    for text in (*answer.assumptions, *answer.flags):
        lines += wrapped(plain(str(text)), width, TEXT_INDENT, NOTE_INDENT)
    return "\n".join([*lines, "", *sources_line(answer.sources, width, paint)])


def _steps(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    columns = [Column("", Align.LEFT), Column(word("run_minutes"), Align.RIGHT, 10), Column("", Align.LEFT, 50)]
    cells = [
        (plain(step.name), number(step.minutes, 0), word("run_ended_by", by=plain(step.ended_by)))
        for step in answer.steps
    ]
    title = word("run_house").upper()
    lines = [paint("bold", title) + heading(title, columns, width).removeprefix(title)]
    lines += [line for row in table(columns, cells, width) for line in row]
    for remark in (*answer.remarks, *([] if answer.problem is None else [answer.problem])):
        lines += wrapped(word("caution", text=plain(str(remark))), width, TEXT_INDENT, NOTE_INDENT)
    return lines


def _chart(answer: RunAnswer, paint: Paint) -> list[str]:
    """Air, wet bulb and core over time, as signs on a grid; each column one moment, the last sign drawn wins."""
    seen = answer.history
    series = (("-", seen.dry_bulb_c), ("~", seen.wet_bulb_c), ("o", seen.core_c))
    low = min(min(values) for _, values in series)
    high = max(max(values) for _, values in series)
    grid = [[" "] * CHART_COLUMNS for _ in range(CHART_ROWS)]
    for sign, values in series:
        for column in range(CHART_COLUMNS):
            value = values[round(column * (len(values) - 1) / (CHART_COLUMNS - 1))]
            row = round((high - value) / max(high - low, 1.0) * (CHART_ROWS - 1))
            grid[row][column] = sign
    labels = [number(high - (high - low) * row / (CHART_ROWS - 1), 0) for row in range(CHART_ROWS)]
    lines = [paint("bold", word("run_chart").upper()) + "  " + word("run_chart_signs")]
    lines += [f"{label:>7} |{''.join(cells)}" for label, cells in zip(labels, grid, strict=True)]
    end = word("run_hours", hours=number(answer.end.hours, 1))
    return [*lines, f"{'C':>7} +{'-' * CHART_COLUMNS}", " " * 9 + "0" + end.rjust(CHART_COLUMNS - 1)]


def _end(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    end = answer.end
    texts = [
        word(
            "run_end",
            kg=show_mass(end.kg),
            lb=show_mass(end.kg, "us"),
            raw=number(end.percent_of_raw, 1),
            marinated=number(end.percent_of_marinated, 1),
            aw=number(end.aw_mean, 2),
            surface=number(end.aw_surface, 2),
            core=number(end.core_c, 1),
            moisture=number(end.moisture_percent, 1),
            mpr=number(end.mpr, 2),
            thickness=number(1000 * end.thickness_m, 1),
        ),
        word(
            "run_drip",
            drip=number(answer.drip_percent_of_marinated, 1),
            salts=number(answer.salts_lost_percent, 1),
            sugars=number(answer.sugars_lost_percent, 1),
        ),
        word("run_left", vapour=number(answer.left.vapour_percent, 1), heat=number(answer.left.heat_received_kj_kg, 0)),
        word(
            "run_pull",
            use=show_mass(answer.pull_lightest_kg),
            kg=show_mass(answer.pull_kg),
            span=span(answer.pull_low_kg, answer.pull_high_kg, batch_digits(answer.pull_kg)),
            before=show_mass(answer.pull_kg_without_run),
        ),
    ]
    return [
        paint("bold", word("run_at_end").upper()),
        *(line for text in texts for line in wrapped(text, width, TEXT_INDENT)),
    ]


def _lethality(answer: RunAnswer, width: int) -> list[str]:
    columns = [Column("", Align.LEFT), *(Column(word(f"lethality_{name}"), Align.RIGHT, 12) for name in WAYS)]
    columns.append(Column(word("run_target"), Align.RIGHT, 8))
    order = sorted(answer.lethality, key=lambda name: name != answer.governing)
    cells = []
    for name in order:
        one = answer.lethality[name]
        numbers = [getattr(one, way) for way in WAYS]
        shown = [word("unknown") if value is None else logs(value) for value in numbers]
        cells.append((plain(one.label), *shown, "" if one.target is None else logs(one.target)))
    lines = [heading(word("run_lethality").upper(), columns, width)]
    lines += [line for row in table(columns, cells, width) for line in row]
    lines += wrapped(str(answer.uncounted), width, TEXT_INDENT, NOTE_INDENT)
    for grown in answer.growth.values():
        if grown.log is not None:
            text = word("run_growth", organism=plain(grown.label), log=number(grown.log, 2))
            lines += wrapped(text, width, TEXT_INDENT, NOTE_INDENT)
    return lines


def _after(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    """What comes after: rest before a reading, what the face may do, mould."""
    texts = [str(remark) for remark in answer.face.remarks]
    if answer.rest is not None:
        texts = [rest_text(answer.rest), *texts]
    if answer.mould is not None:
        texts.append(word("run_keeping", aw=number(answer.mould.aw, 2), note=str(answer.mould.note)))
    lines = [line for text in texts for line in wrapped(plain(text), width, TEXT_INDENT, NOTE_INDENT)]
    return ["", paint("bold", word("run_afterwards").upper()), *lines] if lines else []


def rest_text(rest: Rest) -> str:
    """Return in words which rest a reading needs."""
    values = {
        "thickness": number(1000 * rest.thickness_m, 1), "at": number(rest.at_c, 0), "gap": number(rest.gap, 2),
        "most": show_duration(3600 * rest.most_hours),
    }  # fmt: skip
    if rest.hours is None:
        return word("run_rest_long", **values)
    if rest.hours * 60 < 1:
        return word("run_rest_none", **values)
    # to quarters of an hour, never less than computed
    hours = math.ceil(rest.hours * 4 - 1e-9) / 4
    return word("run_rest", hours=show_duration(3600 * hours), **values)


def _profile(one: Profile, width: int) -> list[str]:
    names = ("depth_m", "temperature_c", "water_percent", "salts_percent", "sugars_percent", "aw")
    heads = ("depth", "temperature", "water", "salts", "sugars", "aw")
    columns = [Column("", Align.LEFT), *(Column(word(f"run_profile_{head}"), Align.RIGHT, 12) for head in heads)]
    digits = (2, 1, 1, 2, 2, 3)
    cells = [
        ("", *(number(value, places) for value, places in zip((1000 * depth, *others), digits, strict=True)))
        for depth, *others in zip(*(getattr(one, name) for name in names), strict=True)
    ]
    title = word("run_profile", minutes=number(one.minutes, 0)).upper()
    return ["", heading(title, columns, width), *(line for row in table(columns, cells, width) for line in row)]


def _spread(answer: RunAnswer, width: int, paint: Paint) -> list[str]:
    found = answer.spread
    if found is None:
        return []
    texts: Sequence[str] = [
        word("run_spread_of", pieces=str(found.pieces), batches=str(found.batches), failed=str(found.failed)),
        word("run_spread_hours", span=_span(found.hours, 1), middle=number(found.hours.middle, 1)),
        word("run_spread_weight", span=_span(found.percent_of_raw, 1), middle=number(found.percent_of_raw.middle, 1)),
        word("run_spread_aw", span=_span(found.aw_wettest, 2), share=number(100 * found.p_aw, 0)),
    ]
    if found.pull_kg is None or found.aim_aw is None:
        texts = [*texts, word("run_spread_no_pull")]
    else:
        kg, lb = show_mass(found.pull_kg), show_mass(found.pull_kg, "us")
        texts = [*texts, word("run_spread_pull", aw=number(found.aim_aw, 2), kg=kg, lb=lb)]
    if found.lethality_wet is not None and found.p_lethality is not None:
        share = number(100 * found.p_lethality, 0)
        least = found.lethality_wet
        texts = [
            *texts,
            word(
                "run_spread_lethality",
                organism=answer.lethality[found.organism].label,
                span=word("span", low=logs(least.low), high=logs(least.high)),
                share=share,
            ),
            word("run_spread_both", share=number(None if found.p_both is None else 100 * found.p_both, 0)),
        ]
    for place in found.places:
        log = word("unknown") if place.lethality_wet is None else logs(place.lethality_wet)
        raw, aw = number(place.percent_of_raw, 1), number(place.aw_mean, 2)
        texts = [*texts, word("run_place", name=plain(place.name), raw=raw, aw=aw, log=log)]
    return [
        "",
        paint("bold", word("run_spread").upper()),
        *(line for text in texts for line in wrapped(text, width, 2)),
    ]


def _span(found: Range, digits: int) -> str:
    return span(found.low, found.high, digits)
