"""Taste per bite: shares of the finished weight, and the factors that match another product."""

from __future__ import annotations

import pytest

from invented import line, product
from pellicle.food.ingredients import catalogue
from pellicle.formula.finished import Finished, Taste, finished_shares, like, new_amounts
from pellicle.formula.resolve import resolve
from pellicle.product import Line


def finished(*lines: Line, kg: float, taken: float = 1.0) -> Finished:
    return Finished(resolve(product(*lines), catalogue()), taken, kg)


def test_a_share_of_raw_is_a_larger_share_of_the_finished_weight() -> None:
    (share,) = finished_shares(finished(line("black pepper", "1 %"), kg=4.0))
    assert share == pytest.approx(0.1 / 4.0)


def test_a_heavier_product_needs_more_of_everything() -> None:
    lines = (line("black pepper", "1 %"), line("sucrose", "6 %"), line("salt", "2 %"))
    found = like(finished(*lines, kg=6.0), finished(*lines, kg=4.0))
    assert {row.ingredient: row.factor for row in found.lines} == pytest.approx(
        {"black pepper": 1.5, "sucrose": 1.5, "salt": 1.5}
    )


def test_a_product_matches_itself() -> None:
    lines = (line("soy sauce", "8 %"), line("brown sugar", "6 %"), line("salt", "1 %"), line("glycerol", "3 %"))
    found = like(finished(*lines, kg=5.0), finished(*lines, kg=5.0))
    assert [row.factor for row in found.lines] == pytest.approx([1.0] * 4)


def test_salt_is_matched_by_all_the_salt_there_is() -> None:
    this = finished(line("soy sauce", "10 %"), line("salt", "1 %"), kg=5.0)
    other = finished(line("salt", "3 %"), kg=5.0)
    (salt,) = [row for row in like(this, other).lines if row.taste is Taste.SALT]
    soy = this.formula.parts[0].composition.solute("salt")
    assert salt.new_kg + soy == pytest.approx(0.3, rel=1e-3)


def test_sweeteners_are_matched_by_their_class() -> None:
    # crystals hold a trace of water, so the classes' masses differ from the lines' by a thousandth
    this = finished(line("sucrose", "4 %"), line("glucose", "2 %"), kg=5.0)
    other = finished(line("fructose", "9 %"), kg=5.0)
    assert [row.factor for row in like(this, other).lines] == pytest.approx([1.5, 1.5], rel=0.002)


def test_cure_and_water_keep_their_amounts() -> None:
    lines = (line("water", "10 %"), line("curing salt", "0.25 %", nitrite="6.25 %"))
    assert not like(finished(*lines, kg=6.0), finished(*lines, kg=4.0)).lines


def test_what_is_missing_is_named() -> None:
    found = like(finished(line("salt", "2 %"), kg=5.0), finished(line("salt", "2 %"), line("paprika", "1 %"), kg=5.0))
    assert [str(each) for each in found.missing] == [
        "The other product has paprika, this one has none. To match it, add a line."
    ]


def test_the_changed_product_tastes_the_same() -> None:
    lines = (line("soy sauce", "8 %"), line("black pepper", "1 %"), line("sucrose", "6 %"), line("salt", "1.5 %"))
    this, other = finished(*lines, kg=6.0), finished(*lines, kg=4.5)
    changed = product(*lines).replace(new_amounts(like(this, other), this.formula))
    after = Finished(resolve(changed, catalogue()), 1.0, 6.0)
    assert after.share(after.formula.salt_kg) == pytest.approx(other.share(other.formula.salt_kg))
    assert finished_shares(after)[1:3] == pytest.approx(finished_shares(other)[1:3])
