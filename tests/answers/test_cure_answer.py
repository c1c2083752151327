"""``cure``: a few weights, the official sum, the limit of a place and a day."""

from __future__ import annotations

from datetime import date

import pytest

from pellicle.answers.cure import cure_answer
from pellicle.errors import InputError
from pellicle.product import CureMethod, Form, Storage

M = CureMethod
POUND_KG = 0.45359237
ON = date(2026, 3, 14)


def answer(method: CureMethod | None, pounds: float, ounces: float, share: float = 0.0625, **more):
    return cure_answer(method, pounds * POUND_KG, ounces * POUND_KG / 16, share, on=ON, **more)


def test_the_handbook_s_four_ounces_in_a_hundred_pounds_meet_even_the_lowest_limit() -> None:
    for method, form in ((None, Form.WHOLE_MUSCLE), (M.GROUND, Form.GROUND), (M.TUMBLED, Form.FORMED)):
        found = answer(method, 100, 4, form=form)
        assert found.ingoing_ppm == pytest.approx(156.25)
        assert (found.limit_ppm, found.verdict) == (156.25, "met")


def test_a_little_more_does_not() -> None:
    found = answer(M.GROUND, 100, 4.001, form=Form.GROUND)
    assert found.verdict == "not met"
    assert found.largest_lawful_kg == pytest.approx(4 * POUND_KG / 16)


def test_immersion_shows_both_sums_and_the_worst_case() -> None:
    found = answer(M.IMMERSION_WHOLE, 100, 4, pickle_kg=50 * POUND_KG, pickup_share=0.08)
    assert found.ingoing_ppm == pytest.approx(104.1667, abs=1e-3)
    assert found.other_official_ppm == pytest.approx(25.0, abs=1e-3)
    assert found.worst_case_ppm == pytest.approx(156.25)


def test_in_europe_the_figure_and_the_limit_are_counted_as_the_ion() -> None:
    found = answer(M.TUMBLED, 100, 4, jurisdiction="eu")
    assert (found.limit_ppm, found.verdict) == (80.0, "not met")
    assert found.as_weighed_ppm == pytest.approx(156.25)
    assert found.ingoing_ppm == pytest.approx(156.25 * 46.0055 / 68.9953, rel=1e-4)
    assert "NO2" in str(found.basis)
    assert any("NO2" in str(line) for line in found.arithmetic)


def test_the_worse_of_nitrite_and_nitrate_decides() -> None:
    found = answer(M.RUBBED, 100, 4, nitrate_share=0.04, storage=Storage.BACON)
    assert (found.agent, found.verdict, found.limit_ppm) == ("nitrate", "not met", 0.0)


def test_a_calculator_judges_far_over_the_limit_instead_of_refusing() -> None:
    found = answer(M.TUMBLED, 100, 64)
    assert found.ingoing_ppm == pytest.approx(2500.0)
    assert found.verdict == "not met"


def test_a_percentage_typed_as_a_whole_number_is_no_strength() -> None:
    with pytest.raises(InputError):
        answer(M.TUMBLED, 100, 4, share=6.25)


@pytest.mark.parametrize(
    ("method", "more", "field"),
    [
        (M.INJECTED, {}, "--pickle"),
        (M.IMMERSION_WHOLE, {}, "--pickle"),
        (M.IMMERSION_PICKUP, {"pickle_kg": 20.0}, "--pickup"),
        (M.INJECTED, {"pickle_kg": 20.0}, "--pickup"),
        (M.TUMBLED, {"pickup_share": 0.08}, "--pickle"),
        (M.GROUND, {"pickle_kg": 20.0}, "--pickle"),
        (M.IMMERSION_WHOLE, {"pickle_kg": 0.01}, "--pickle"),
    ],
)
def test_what_a_method_needs_and_cannot_have_is_named(method, more, field: str) -> None:
    with pytest.raises(InputError) as refused:
        answer(method, 100, 4, **more)
    assert refused.value.field == field
    assert str(refused.value)


def test_no_strength_at_all_is_refused() -> None:
    with pytest.raises(InputError) as refused:
        answer(M.TUMBLED, 100, 4, share=0.0)
    assert refused.value.field == "--nitrite"


def test_the_sources_of_every_check_are_cited() -> None:
    found = answer(M.TUMBLED, 100, 4)
    cited = {source.key for source in found.sources}
    assert {key for check in found.checks for key in check.sources} == cited != set()
