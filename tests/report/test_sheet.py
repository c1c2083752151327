"""The paper sheet: at most two pages, the same bytes each time, user text as text, nothing over a cure limit."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from collections.abc import Iterator
from typing import Any

import matplotlib.image
import plans_to_show
import pytest

from pellicle.errors import InputError
from pellicle.report.sheet import plan_pdf, plan_pictures, sheet_data

SHOWN = sorted(set(plans_to_show.ALL) - {"refused", "crowded"})
MM_PER_INCH = 25.4


def texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for name, item in value.items():
            if name != "chart":
                yield from texts(item)
    elif isinstance(value, list):
        for item in value:
            yield from texts(item)


def read_back(pdf: bytes) -> str:
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext reads the sheet back; it comes with poppler-utils")
    made = subprocess.run(["pdftotext", "-layout", "-", "-"], input=pdf, capture_output=True, check=True)
    return made.stdout.decode().replace("\u00a0", " ")


@pytest.mark.slow
@pytest.mark.parametrize("name", SHOWN)
def test_takes_one_or_two_pages(name: str) -> None:
    assert 1 <= len(plan_pictures(plans_to_show.ALL[name](), ppi=20)) <= 2


@pytest.mark.slow
def test_holds_on_a4_too() -> None:
    assert len(plan_pictures(plans_to_show.with_racks(), "a4", ppi=20)) <= 2


def test_is_a_pdf_and_the_same_each_time() -> None:
    first, second = plan_pdf(plans_to_show.beef_strips()), plan_pdf(plans_to_show.beef_strips())
    assert first.startswith(b"%PDF-")
    assert first == second


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_leaves_the_top_free_for_clip_and_holes(paper: str) -> None:
    ppi = 60
    for picture in plan_pictures(plans_to_show.beef_strips(), paper, ppi=ppi):
        top = matplotlib.image.imread(io.BytesIO(picture))[: int(24 / MM_PER_INCH * ppi), :, :3]
        assert top.min() == 1.0


def test_refused_makes_no_sheet() -> None:
    with pytest.raises(InputError, match="its cure is over the limit, so no amount to weigh may stand on paper"):
        plan_pdf(plans_to_show.refused())


def test_an_unknown_paper_is_named_with_those_allowed() -> None:
    with pytest.raises(InputError, match="--paper is legal; allowed are letter, a4"):
        plan_pdf(plans_to_show.beef_strips(), "legal")


def test_names_that_look_like_markup_stay_names() -> None:
    said = read_back(plan_pdf(plans_to_show.hostile()))
    for name in (
        '#text(size: 90pt)[BIG] #panic("x")',
        "*bold* _it_ $x^2$ \\ @ref <label>",
        "<script>alert(1)</script>",
    ):
        assert name in said
    assert '#eval("1+1") = Heading $a$ \\' in said


def test_names_that_look_like_markup_are_not_evaluated() -> None:
    assert plan_pdf(plans_to_show.hostile()).startswith(b"%PDF-")  # an evaluated #panic would have stopped the making


def test_shows_metric_and_us_side_by_side() -> None:
    said = read_back(plan_pdf(plans_to_show.beef_strips()))
    assert re.search(r"curing salt, 6.25 % nitrite\s+150 ppm nitrite\s+202 g\s+7.13 oz", said)
    assert re.search(r"beef top round, green weight\s+84.00 kg\s+185.19 lb", said)


def test_commands_stand_in_quotation_marks_on_paper() -> None:
    said = list(texts(sheet_data(plans_to_show.ALL["beef_strips"](), "letter")))
    assert not any("`" in text for text in said)
    assert any("\u201cpellicle sources\u201d" in text for text in said)


def test_numbers_its_pages() -> None:
    said = read_back(plan_pdf(plans_to_show.beef_strips()))
    assert "page 1 of 2" in said
    assert "page 2 of 2" in said


def test_says_each_verdict_in_words() -> None:
    said = read_back(plan_pdf(plans_to_show.beef_strips()))
    assert re.search(r"not met\s+Moisture to protein", said)
    assert re.search(r"cannot tell\s+Lethality", said)


@pytest.mark.parametrize("name", SHOWN)
def test_no_number_can_part_from_its_unit(name: str) -> None:
    loose = re.compile(r"\d (kg|g|lb|oz|ppm|%)(\s|$)")
    assert [text for text in texts(sheet_data(plans_to_show.ALL[name](), "letter")) if loose.search(text)] == []


def test_control_characters_do_not_reach_the_template() -> None:
    data = sheet_data(plans_to_show.hostile(), "letter")
    assert [text for text in texts(data) if "\x1b" in text] == []


@pytest.mark.slow
def test_the_most_crowded_sheet_keeps_its_amounts_and_cautions() -> None:
    plan = plans_to_show.crowded()
    said = " ".join(read_back(plan_pdf(plan)).split())
    assert said.count("What is said here takes about one line") == len(plan.cautions)
    assert said.count("252 g") == 12
