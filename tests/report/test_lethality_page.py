"""The page of a log: the organism that leads first, what is withheld and why, nothing wider than the terminal."""

from __future__ import annotations

from datetime import date

import pytest

from pellicle.answers.lethality import lethality_answer
from pellicle.answers.lethality_answer import LethalityAnswer
from pellicle.files.probe_log import log_from_text
from pellicle.report.document import lethality_document
from pellicle.report.lethality_page import lethality_page


def answer(columns: str = "wet bulb", species: str = "beef") -> LethalityAnswer:
    rows = "".join(f"{at},66,{min(20 + at, 60)},{min(15 + at, 59)}\n" for at in range(100))
    text = f"time (min),dry bulb (C),{columns} (C),core (C)\n{rows}"
    return lethality_answer(log_from_text(text, "house.csv"), species=species, on=date(2026, 3, 14))


@pytest.mark.parametrize("width", [80, 100])
def test_a_page_keeps_to_its_width_and_says_only_words(width: int) -> None:
    page = lethality_page(answer(), width)
    assert max(len(line) for line in page.splitlines()) <= width
    assert " None" not in page
    assert "Message(" not in page


def test_the_organism_that_leads_stands_first() -> None:
    found = answer()
    assert found.governing == "stec"  # in beef it stands worse against its target than Salmonella
    body = lethality_page(found).split("LOG REDUCTIONS")[1]
    assert body.index("E. coli") < body.index("Salmonella")


def test_what_is_withheld_says_why() -> None:
    page = lethality_page(answer(columns="spare channel"))
    assert "cannot tell" in page
    assert "no evidence that the surface was wet" in " ".join(page.split())


def test_the_word_likely_comes_with_not_for_release() -> None:
    assert "not for release" in " ".join(lethality_page(answer()).split())


def test_the_document_is_what_the_page_shows() -> None:
    found = answer()
    made = lethality_document(found)
    assert made["lethality"]["salmonella"]["wet"] == found.lethality["salmonella"].wet
    assert made["history"]["lethality_wet"][-1] == pytest.approx(found.lethality["stec"].wet)
    assert len(made["history"]["minutes"]) <= 400
