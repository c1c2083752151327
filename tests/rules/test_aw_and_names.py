"""Water activity, moisture to protein and the comparisons: what a plan may and may not say of them."""

from __future__ import annotations

from datetime import date

import pytest
from plain_products import a_cure, a_situation, one

from pellicle.product import AwTarget, Pack
from pellicle.rules.aw_check import aw_check, missing_support
from pellicle.rules.figures import PlanQuantities
from pellicle.rules.mpr_check import mpr_checks
from pellicle.rules.names import name_row
from pellicle.rules.other_checks import comparison_checks, lethality_check
from pellicle.rules.verdict import Group, Verdict

AT_PULL = PlanQuantities(
    pull_known=True, aw_at_pull=0.83, aw_low=0.81, aw_high=0.848, mpr_at_pull=1.05, salt_share=0.05, brine_share=0.115
)


def test_a_prediction_well_below_the_limit_is_still_no_reading() -> None:
    check = aw_check(a_situation(), AwTarget(), AT_PULL)
    assert check.verdict is Verdict.CANNOT_TELL
    assert check.blocking
    assert "0.81 to 0.85" in str(check.why)
    assert check.margin == pytest.approx(0.02)


def test_the_limit_is_said_to_be_none_for_mould() -> None:
    for pack in (Pack.AIR, Pack.VACUUM):
        assert "no limit for mould" in str(aw_check(a_situation(pack=pack), AwTarget(), AT_PULL).why)


def test_above_085_everything_that_is_missing_is_named() -> None:
    check = aw_check(a_situation(pack=Pack.AIR), AwTarget(limit=0.88), AT_PULL)
    for gap in ("supporting document", "residual oxygen", "after opening", "pack without air"):
        assert gap in str(check.why)
    assert check.verdict is Verdict.CANNOT_TELL


def test_a_vacuum_pack_alone_does_not_raise_the_limit() -> None:
    gaps = missing_support(AwTarget(limit=0.91), Pack.VACUUM)
    assert len(gaps) == 3


def test_full_support_carries_a_higher_limit_but_still_waits_for_readings() -> None:
    target = AwTarget(limit=0.88, support="Study A", oxygen_evidence="each lot", opening_plan="single serving")
    check = aw_check(a_situation(pack=Pack.ABSORBER), target, AT_PULL)
    assert missing_support(target, Pack.ABSORBER) == ()
    assert check.verdict is Verdict.CANNOT_TELL
    assert "Study A" in str(check.why)


def test_without_a_pull_nothing_is_predicted() -> None:
    assert "No weight to pull at" in str(aw_check(a_situation(), AwTarget(), PlanQuantities()).why)


class TestMoistureToProtein:
    """Identity by name, dated, and never a limit of keeping."""

    def found(self, name: str, on: date, mpr: float | None):
        return mpr_checks(a_situation(on=on), name, PlanQuantities(pull_known=True, mpr_at_pull=mpr))

    def test_jerky_stood_for_075_to_the_end_of_2025(self) -> None:
        before = one(self.found("beef jerky", date(2025, 12, 31), 1.05), "mpr.name")
        assert (before.verdict, before.limit, before.group) == (Verdict.NOT_MET, 0.75, Group.INFORMATION)
        after = one(self.found("beef jerky", date(2026, 1, 1), 1.05), "mpr.name")
        assert (after.verdict, after.limit) == (Verdict.CANNOT_TELL, None)
        assert "2025-12-31" in str(after.why)

    def test_it_never_blocks(self) -> None:
        found = [*self.found("jerky", date(2025, 1, 1), 2.0), *self.found("", date(2025, 1, 1), 1.0)]
        assert found
        assert not any(check.blocking for check in found)

    def test_a_prediction_within_the_ratio_waits_for_a_laboratory(self) -> None:
        check = one(self.found("Kippered beef", date(2026, 1, 1), 1.9), "mpr.name")
        assert (check.verdict, check.limit) == (Verdict.CANNOT_TELL, 2.03)

    def test_other_names_are_offered_when_the_ratio_is_over_its_own(self) -> None:
        hint = one(self.found("jerky", date(2025, 1, 1), 1.9), "mpr.names")
        assert "kippered beef (2.03)" in str(hint.why)
        assert "jerky" not in str(hint.why)

    def test_a_name_that_says_beef_is_not_offered_for_venison(self) -> None:
        situation, at_pull = a_situation(species="venison"), PlanQuantities(pull_known=True, mpr_at_pull=1.0)
        assert mpr_checks(situation, "", at_pull) == ()

    def test_nothing_is_said_of_a_name_without_a_row(self) -> None:
        assert name_row("Snack strips", "us") is None
        assert self.found("Snack strips", date(2026, 1, 1), None) == ()


def test_lethality_waits_for_a_run() -> None:
    meat, poultry = lethality_check(a_situation(), poultry=False), lethality_check(a_situation(), poultry=True)
    assert meat.verdict is poultry.verdict is Verdict.CANNOT_TELL
    assert meat.blocking
    assert "poultry" in str(poultry.why)
    assert "poultry" not in str(meat.why)


def test_an_uncured_product_is_compared_by_brine_and_water_activity_and_a_cured_one_by_salt() -> None:
    uncured = {check.id for check in comparison_checks(a_situation(species="pork"), AT_PULL)}
    assert uncured == {"comparison.brine", "comparison.aw"}
    cured = PlanQuantities(cure=a_cure(150.0), pull_known=True, salt_share=0.05)
    (check,) = comparison_checks(a_situation(species="pork"), cured)
    assert (check.id, check.limit, check.blocking) == ("comparison.salt", 4.0, False)
    assert check.value == pytest.approx(5.0)
