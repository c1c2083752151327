"""Nitrite and nitrate against their limits: which class, which side, and when nothing can be told."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_products import a_cure, a_situation, one, with_a_silent_bag

from pellicle.errors import InputError
from pellicle.formula.cure_figures import CureSource, from_numbers
from pellicle.product import CureMethod, Form, Maker, Storage
from pellicle.rules.cure_check import cure_checks, ingoing_findings, refuse_cure_over_twice
from pellicle.rules.verdict import Verdict

M = CureMethod


def verdict(ppm: float, method: CureMethod | None = M.TUMBLED, **situation: object) -> tuple[Verdict, float | None]:
    check = one(cure_checks(a_situation(method, **situation), a_cure(ppm, method)), "cure.nitrite")
    return check.verdict, check.limit


@pytest.mark.parametrize(
    ("method", "situation", "limit"),
    [
        (M.TUMBLED, {}, 200.0),
        (M.TUMBLED, {"form": Form.TENDERISED}, 200.0),
        (M.RUBBED, {}, 625.0),
        (M.RUBBED, {"added_liquid": True}, 200.0),
        (M.GROUND, {}, 156.25),
        (M.TUMBLED, {"form": Form.FORMED}, 156.25),
        (M.TUMBLED, {"form": Form.GROUND}, 156.25),
        (M.RUBBED, {"form": Form.GROUND}, 156.25),
        (None, {}, 156.25),
        (M.TUMBLED, {"storage": Storage.BACON}, 120.0),
        (M.RUBBED, {"storage": Storage.BACON}, 200.0),
        (M.RUBBED, {"storage": Storage.BACON, "added_liquid": True}, 120.0),
        (None, {"storage": Storage.BACON}, 120.0),
    ],
)
def test_each_way_of_curing_has_its_own_limit_and_reaching_it_meets_it(method, situation, limit) -> None:
    assert verdict(limit, method, **situation) == (Verdict.MET, limit)
    assert verdict(limit + 0.0001, method, **situation) == (Verdict.NOT_MET, limit)


def test_a_hair_over_the_limit_is_printed_as_over() -> None:
    check = one(cure_checks(a_situation(), a_cure(200.0001)), "cure.nitrite")
    assert "200.0001 ppm go in; at most 200 ppm" in str(check.why)


def test_rubbed_meat_with_liquid_says_why_it_is_judged_lower() -> None:
    check = one(cure_checks(a_situation(M.RUBBED, added_liquid=True), a_cure(487.5, M.RUBBED)), "cure.nitrite")
    assert check.verdict is Verdict.NOT_MET
    assert "liquid is added" in str(check.why)


def test_a_method_that_is_not_stated_is_said_to_be_judged_at_the_lowest_limit() -> None:
    check = one(cure_checks(a_situation(None), a_cure(180.0, None)), "cure.nitrite")
    assert check.verdict is Verdict.NOT_MET
    assert "not stated" in str(check.why)


@given(st.floats(0.02, 0.2), st.floats(20.0, 5000.0), st.floats(1.01, 50.0))
def test_the_largest_lawful_amount_reaches_the_limit_and_no_more(strength: float, meat_kg: float, times: float) -> None:
    """A round trip: put the amount named with the finding back in, and the limit is met exactly."""
    situation = a_situation()
    over = from_numbers(M.TUMBLED, meat_kg, times * 200e-6 * meat_kg / strength, strength)
    lawful_kg = ingoing_findings(situation, over)[0].largest_lawful_kg
    assert lawful_kg is not None
    again = ingoing_findings(situation, from_numbers(M.TUMBLED, meat_kg, lawful_kg, strength))[0]
    assert again.check.verdict is Verdict.MET
    assert again.ppm == pytest.approx(200.0, rel=1e-9)


def test_the_lawful_amount_counts_that_less_cure_makes_less_pickle() -> None:
    """A share of the cure taken out leaves a lighter pickle, so scaling the amount by the ppm would still be over."""
    cure = from_numbers(M.INJECTED, 100.0, 4.0, 0.0625, pickle_kg=50.0, pickup_share=0.10)
    finding = ingoing_findings(a_situation(M.INJECTED), cure)[0]
    scaled_kg = 4.0 * 200.0 / finding.ppm
    lighter = from_numbers(
        M.INJECTED,
        100.0,
        finding.largest_lawful_kg,
        0.0625,
        pickle_kg=46.0 + finding.largest_lawful_kg,
        pickup_share=0.10,
    )
    assert finding.check.verdict is Verdict.NOT_MET
    assert finding.largest_lawful_kg < scaled_kg
    assert lighter.nitrite.ingoing_ppm == pytest.approx(200.0, rel=1e-9)


class TestImmersion:
    """Two official sums: by the pickup, and over meat and pickle together."""

    def found(self, method: CureMethod, cure_kg: float):
        cure = from_numbers(method, 100.0, cure_kg, 0.0625, pickle_kg=50.0, pickup_share=0.08)
        return ingoing_findings(a_situation(method), cure)[0]

    def test_both_within_is_met(self) -> None:
        finding = self.found(M.IMMERSION_PICKUP, 0.4)
        assert finding.check.verdict is Verdict.MET
        assert finding.ppm < finding.other_official_ppm < 200 < finding.worst_case_ppm

    def test_only_the_stated_sum_within_cannot_be_told(self) -> None:
        finding = self.found(M.IMMERSION_PICKUP, 1.0)
        assert finding.check.verdict is Verdict.CANNOT_TELL
        assert finding.ppm < 200 < finding.other_official_ppm
        assert "disagree" in str(finding.check.why)

    def test_the_stated_sum_over_is_not_met_whatever_the_other_says(self) -> None:
        finding = self.found(M.IMMERSION_WHOLE, 1.0)
        assert finding.check.verdict is Verdict.NOT_MET
        assert finding.ppm > 200 > finding.other_official_ppm

    def test_the_lawful_amount_keeps_to_both_sums(self) -> None:
        for method in (M.IMMERSION_PICKUP, M.IMMERSION_WHOLE):
            lawful_kg = self.found(method, 1.0).largest_lawful_kg
            again = self.found(method, lawful_kg * 0.999)
            assert again.check.verdict is Verdict.MET

    def test_without_a_pickup_the_sum_by_pickup_cannot_be_done(self) -> None:
        cure = from_numbers(M.IMMERSION_PICKUP, 100.0, 0.4, 0.0625, pickle_kg=50.0)
        finding = ingoing_findings(a_situation(M.IMMERSION_PICKUP), cure)[0]
        assert finding.check.verdict is Verdict.CANNOT_TELL
        assert finding.ppm is None


class TestEurope:
    """The limit changed its level and what it is written in on 9 October 2025."""

    BEFORE, AFTER = date(2025, 10, 8), date(2025, 10, 9)

    def at(self, ppm: float, on: date, potassium: bool = False):
        situation = a_situation(jurisdiction="eu", on=on)
        return ingoing_findings(situation, a_cure(ppm, potassium=potassium))[0]

    def test_the_day_before_150_of_sodium_nitrite_meet_it_and_the_day_after_not(self) -> None:
        assert self.at(150.0, self.BEFORE).check.verdict is Verdict.MET
        assert self.at(150.0, self.AFTER).check.verdict is Verdict.NOT_MET

    def test_from_then_on_the_ion_is_counted(self) -> None:
        """80 mg/kg of ion is 119.98 of sodium nitrite by molar masses; 120 is just over."""
        assert self.at(119.97, self.AFTER).check.verdict is Verdict.MET
        over = self.at(120.0, self.AFTER)
        assert over.check.verdict is Verdict.NOT_MET
        assert over.ppm == pytest.approx(120 * 46.0055 / 68.9953, abs=0.01)
        assert "NO2" in str(over.basis)

    def test_potassium_nitrite_weighs_more_for_the_same_ion(self) -> None:
        assert self.at(147.0, self.AFTER, potassium=True).check.verdict is Verdict.MET
        assert self.at(147.0, self.AFTER).check.verdict is Verdict.NOT_MET

    def test_what_is_left_waits_for_an_analysis(self) -> None:
        found = cure_checks(a_situation(jurisdiction="eu", on=self.AFTER), a_cure(50.0))
        residual = one(found, "cure.nitrite_residual")
        assert residual.verdict is Verdict.CANNOT_TELL
        assert "memory" in str(residual.why)
        assert not residual.blocking

    def test_nitrate_within_its_limit_depends_on_heat(self) -> None:
        cure = from_numbers(M.RUBBED, 100.0, 0.2, 0.0, 0.04)
        check = one(cure_checks(a_situation(M.RUBBED, jurisdiction="eu"), cure), "cure.nitrate")
        assert check.verdict is Verdict.CANNOT_TELL
        assert "not heat-treated" in str(check.why)


class TestOtherPlaces:
    """Only what stands in the table is judged."""

    def test_canada_has_a_least_and_a_most(self) -> None:
        low = cure_checks(a_situation(jurisdiction="ca"), a_cure(99.0))
        assert one(low, "cure.nitrite").verdict is Verdict.MET
        assert one(low, "cure.nitrite_minimum").verdict is Verdict.NOT_MET
        high = cure_checks(a_situation(jurisdiction="CA"), a_cure(201.0))
        assert one(high, "cure.nitrite").verdict is Verdict.NOT_MET
        assert one(high, "cure.nitrite_minimum").verdict is Verdict.MET

    def test_canadian_side_bacon_has_its_own(self) -> None:
        situation = a_situation(jurisdiction="ca", storage=Storage.BACON)
        assert one(cure_checks(situation, a_cure(150.0)), "cure.nitrite").limit == 120

    def test_codex_limits_what_is_left_and_a_plan_cannot_tell(self) -> None:
        found = cure_checks(a_situation(jurisdiction="codex"), a_cure(10.0))
        assert {check.verdict for check in found} == {Verdict.CANNOT_TELL}
        assert one(found, "cure.nitrite_residual").limit == 80
        assert one(found, "cure.nitrite_residual").blocking

    @pytest.mark.parametrize("place", ["gb", "br", "anz", "jp", "somewhere"])
    def test_other_places_are_accepted_and_cannot_be_told(self, place: str) -> None:
        check = one(cure_checks(a_situation(jurisdiction=place), a_cure(10.0)), "cure.nitrite")
        assert check.verdict is Verdict.CANNOT_TELL
        assert check.limit is None
        assert place in str(check.why)

    def test_fish_is_not_covered(self) -> None:
        found = cure_checks(a_situation(species="fish"), a_cure(10.0))
        assert [check.verdict for check in found] == [Verdict.CANNOT_TELL]


class TestUnitedStatesBesides:
    """Least amounts, the finished product, potassium, nitrate, home."""

    def finished(self, ppm: float, yield_share: float, nitrate_ppm: float = 0.0):
        cure = from_numbers(M.TUMBLED, 100.0, 0.25, ppm * 100 / 0.25 / 1e6, nitrate_ppm * 100 / 0.25 / 1e6)
        nitrite, nitrate = (
            replace(agent, finished_ppm=agent.ingoing_ppm / yield_share) for agent in (cure.nitrite, cure.nitrate)
        )
        found = cure_checks(a_situation(), replace(cure, nitrite=nitrite, nitrate=nitrate))
        return one(found, "cure.nitrite_finished")

    def test_a_finished_bound_within_200_is_met(self) -> None:
        assert self.finished(100.0, 0.5).verdict is Verdict.MET

    def test_a_finished_bound_over_200_cannot_be_told_and_does_not_block(self) -> None:
        """Nothing says how much is used up: the bound over the limit is not a breach."""
        check = self.finished(156.9, 0.4499)
        assert check.verdict is Verdict.CANNOT_TELL
        assert check.value == pytest.approx(348.7, abs=0.1)
        assert not check.blocking

    def test_the_bound_counts_nitrate_as_the_nitrite_it_can_become(self) -> None:
        check = self.finished(100.0, 1.0, nitrate_ppm=100.0)
        assert check.value == pytest.approx(100.0 + 100.0 * 68.995 / 84.994, abs=0.01)
        assert check.verdict is Verdict.MET
        assert self.finished(100.0, 1.0, nitrate_ppm=200.0).verdict is Verdict.CANNOT_TELL

    def test_bacon_is_exempt_from_the_finished_limit(self) -> None:
        found = cure_checks(a_situation(storage=Storage.BACON), a_cure(100.0))
        assert not [check for check in found if check.id == "cure.nitrite_finished"]

    def test_only_refrigerated_products_have_a_least_amount(self) -> None:
        kept_cold = cure_checks(a_situation(storage=Storage.REFRIGERATED), a_cure(100.0))
        assert one(kept_cold, "cure.nitrite_minimum").verdict is Verdict.NOT_MET
        shelf = cure_checks(a_situation(), a_cure(100.0))
        assert not [check for check in shelf if check.id == "cure.nitrite_minimum"]

    def test_potassium_nitrite_counts_by_its_own_weight_but_bacon_has_a_row_for_it(self) -> None:
        assert ingoing_findings(a_situation(), a_cure(210.0, potassium=True))[0].check.verdict is Verdict.NOT_MET
        bacon = a_situation(storage=Storage.BACON)
        assert ingoing_findings(bacon, a_cure(148.0, potassium=True))[0].check.verdict is Verdict.MET
        assert ingoing_findings(bacon, a_cure(148.0))[0].check.verdict is Verdict.NOT_MET

    def test_bacon_takes_no_nitrate(self) -> None:
        cure = from_numbers(M.RUBBED, 100.0, 0.1, 0.0625, 0.04)
        check = one(cure_checks(a_situation(M.RUBBED, storage=Storage.BACON), cure), "cure.nitrate")
        assert check.verdict is Verdict.NOT_MET
        assert check.limit == 0

    def test_home_is_judged_by_the_trade_s_figures_and_told_so(self) -> None:
        check = one(cure_checks(a_situation(maker=Maker.HOME), a_cure(250.0)), "cure.nitrite")
        assert check.verdict is Verdict.NOT_MET
        assert "home kitchen" in str(check.why)


def test_a_silent_label_cannot_be_told_however_little_the_others_bring() -> None:
    check = one(cure_checks(a_situation(), with_a_silent_bag(10.0)), "cure.nitrite")
    assert check.verdict is Verdict.CANNOT_TELL
    assert check.blocking


def test_what_the_other_labels_bring_can_be_over_by_itself() -> None:
    assert one(cure_checks(a_situation(), with_a_silent_bag(210.0)), "cure.nitrite").verdict is Verdict.NOT_MET


def test_no_cure_at_all_is_said_as_information() -> None:
    (check,) = cure_checks(a_situation(), None)
    assert (check.id, check.blocking) == ("cure.none", False)


def test_up_to_twice_the_limit_is_a_finding_and_above_it_a_refusal() -> None:
    refuse_cure_over_twice(a_situation(), a_cure(400.0))
    with pytest.raises(InputError) as refused:
        refuse_cure_over_twice(a_situation(), a_cure(400.1), field="formula[3].amount")
    assert refused.value.field == "formula[3].amount"
    assert "400.1 ppm, more than twice the 200 ppm" in str(refused.value)
    assert "the most of cure here is 320.00 g" in str(refused.value)


def test_where_no_limit_is_known_the_refusal_takes_the_united_states() -> None:
    refuse_cure_over_twice(a_situation(jurisdiction="jp"), a_cure(400.0))
    with pytest.raises(InputError):
        refuse_cure_over_twice(a_situation(jurisdiction="jp"), a_cure(401.0))


def test_a_label_silent_on_nitrate_leaves_nitrate_open_and_nitrite_judged() -> None:
    cure = a_cure(150.0)
    bag = CureSource("seasoning bag", 2.0, {}, silent_on=("nitrate",))

    checks = cure_checks(a_situation(), replace(cure, sources=(*cure.sources, bag)))

    assert one(checks, "cure.nitrite").verdict is Verdict.MET
    assert one(checks, "cure.nitrate").verdict is Verdict.CANNOT_TELL
