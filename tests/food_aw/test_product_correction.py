"""What lots teach: the update counts lots, leaves out what proves nothing, and is not stretched."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from agreement import agrees
from pellicle.errors import InputError
from pellicle.food.correction import Klass, LotResult, applied, learn, new_lot_sd, posterior_sd, prior

PER_Z = 0.138  # change of aw per unit of z at 0.85; the review of models, section 8
LOT_SD, READING_SD = 0.05, 0.04
PAGE = Path(__file__).resolve().parents[2] / "docs" / "water_activity.md"
LINE = re.compile(r"^\| (\d+) \| (0\.\d+) \| (0\.\d+) \| (0\.\d+) \| (0\.\d+) \|$", re.MULTILINE)


def lot(name: str, model_aw: float, *readings: float, checked: bool = True, same: bool = True) -> LotResult:
    return LotResult(name, model_aw, readings, checked, same)


# The review, section 8: sd in aw at 0.85 of the mean and of a new lot, after n readings, each of sd 0.04.
@pytest.mark.parametrize(
    ("count", "mean", "new"),
    [
        (0, ".0207", ".0225"),
        (1, ".0053", ".0103"),
        (3, ".0032", ".0094"),
        (6, ".0022", ".0091"),
        (12, ".0016", ".0090"),
    ],
)
def test_the_reviews_table_counts_readings(count: int, mean: str, new: str) -> None:
    """Its new lot adds lot scatter and one reading, but its mean leaves the scatter of lots out of the evidence."""
    sd = float(posterior_sd(0.15, READING_SD, count))
    assert agrees(PER_Z * sd, mean, within=0.00006)
    assert agrees(PER_Z * math.sqrt(sd**2 + LOT_SD**2 + READING_SD**2), new, within=0.00006)


def test_ours_counts_lots_and_the_page_says_what_comes_of_it() -> None:
    lines = LINE.findall(PAGE.read_text("utf-8"))
    assert [int(count) for count, *_ in lines] == [0, 1, 3, 6, 12]
    for count, mean, new, by_readings, new_by_readings in lines:
        known = learn(prior(Klass.SALTED), [lot(str(at), 0.85, 0.85) for at in range(int(count))])
        assert agrees(PER_Z * known.sd, mean)
        assert agrees(PER_Z * new_lot_sd(known, LOT_SD, READING_SD), new)
        assert agrees(PER_Z * float(posterior_sd(0.15, READING_SD, int(count))), by_readings, within=0.00006)
        sd = math.hypot(float(posterior_sd(0.15, READING_SD, int(count))), LOT_SD, READING_SD)
        assert agrees(PER_Z * sd, new_by_readings, within=0.00006)


def test_the_update_is_the_textbook_one() -> None:
    """Normal mean with known variance: precision adds, the mean is weighted by precision."""
    after = learn(prior(Klass.SALTED), [lot("A", 0.85, 0.84)])
    z = math.log(math.log(0.84) / math.log(0.85))
    evidence = LOT_SD**2 + READING_SD**2
    assert after.mean == pytest.approx(z * 0.15**2 / (0.15**2 + evidence))
    assert after.sd == pytest.approx(math.sqrt(0.15**2 * evidence / (0.15**2 + evidence)))


def test_lots_one_after_the_other_teach_what_they_teach_together() -> None:
    first, second = lot("A", 0.85, 0.86), lot("B", 0.84, 0.855, 0.857)
    together = learn(prior(Klass.SWEET), [first, second])
    in_turn = learn(learn(prior(Klass.SWEET), [first]), [second])
    assert (in_turn.mean, in_turn.sd, in_turn.lots) == pytest.approx((together.mean, together.sd, together.lots))
    assert (in_turn.low, in_turn.high) == (together.low, together.high) == (0.84, 0.85)


def test_many_readings_of_one_lot_are_worth_less_than_as_many_lots() -> None:
    one_lot = learn(prior(Klass.SALTED), [lot("A", 0.85, *[0.86] * 10)])
    ten_lots = learn(prior(Klass.SALTED), [lot(str(at), 0.85, 0.86) for at in range(10)])
    assert one_lot.sd > 2.0 * ten_lots.sd
    assert one_lot.sd > PER_Z * LOT_SD


def test_a_sweet_product_is_expected_wetter_until_its_lots_say_otherwise() -> None:
    known = prior(Klass.SWEET)
    assert (known.mean, known.sd) == (-0.10, 0.17)
    exact = learn(known, [lot(str(at), 0.80, 0.80) for at in range(6)])
    assert -0.01 < exact.mean < 0.0


def test_a_reading_without_the_days_standard_check_teaches_nothing_and_is_named() -> None:
    before = prior(Klass.SALTED)
    after = learn(before, [lot("17", 0.85, 0.90, checked=False), lot("18", 0.85)])
    assert (after.mean, after.sd, after.lots) == (before.mean, before.sd, 0)
    assert "Lot 17 is left out: no standard was read" in str(after.remarks[0])
    assert "Lot 18 has no water activity reading" in str(after.remarks[1])


def test_a_lot_with_other_humectants_is_left_out_where_there_is_a_better_one() -> None:
    after = learn(prior(Klass.SALTED), [lot("old", 0.85, 0.80, same=False), lot("new", 0.85, 0.86)])
    assert after.lots == 1
    assert after.same_humectants
    assert "Lot old is left out" in str(after.remarks[0])


def test_lots_that_all_had_other_humectants_are_believed_half_and_only_where_they_read_wetter() -> None:
    after = learn(prior(Klass.SALTED), [lot(str(at), 0.85, 0.87, same=False) for at in range(6)])
    here = applied(after, 0.85)
    assert here.mean == pytest.approx(after.mean / 2.0)
    assert here.sd == pytest.approx(0.15)  # the class prior's, of the review's section 8
    assert "other salts, sugars or polyols" in str(here.remarks[0])


@pytest.mark.parametrize(("model_aw", "believed"), [(0.79, False), (0.81, True), (0.89, True), (0.91, False)])
def test_a_correction_is_not_stretched_beyond_its_readings(model_aw: float, believed: bool) -> None:
    """The review, section 8: not beyond 0.05 aw of the readings, here 0.85 and 0.85."""
    after = learn(prior(Klass.SALTED), [lot(str(at), 0.85, 0.87) for at in range(6)])
    here = applied(after, model_aw)
    assert (here.sd == after.sd) is believed
    assert bool(here.remarks) is not believed
    if not believed:
        assert here.sd == pytest.approx(0.15)  # the class prior's, of the review's section 8
        assert "learnt where the model computes 0.850 to 0.850" in str(here.remarks[0])


def test_before_any_lot_there_is_nothing_to_stretch() -> None:
    assert applied(prior(Klass.SWEET), 0.6).remarks == ()


@pytest.mark.parametrize("reading", [0.0, 1.0, 85.2, -0.1, float("nan")])
def test_a_reading_that_cannot_be_is_refused(reading: float) -> None:
    with pytest.raises(InputError, match=r"readings of lot A are .* must lie between 0 and 1"):
        learn(prior(Klass.SALTED), [lot("A", 0.85, reading)])


@pytest.mark.parametrize("read", [0.80, 0.83, 0.85, 0.88])
@pytest.mark.parametrize("klass", [Klass.SALTED, Klass.SWEET])
def test_far_from_its_readings_a_product_is_never_taken_drier_than_without_any(read: float, klass: Klass) -> None:
    """Wet lots that read a little dry once let a dry product be pulled 5 % heavier."""
    bare = prior(klass)
    stretched = applied(learn(bare, [lot(str(at), 0.95, read + 0.08) for at in range(4)]), 0.83)
    assert stretched.mean <= bare.mean
    assert stretched.sd >= bare.sd


@pytest.mark.parametrize("read", [0.05, 0.50, 0.58])
def test_a_reading_no_product_has_given_teaches_nothing_and_is_named(read: float) -> None:
    """A meter that read 0.50 where 0.83 is computed once raised the pull weight by a sixth."""
    bare = prior(Klass.SALTED)
    after = learn(bare, [lot("A", 0.83, read)])
    assert (after.mean, after.sd, after.lots) == (bare.mean, bare.sd, 0)
    assert "Lot A was left out" in str(after.remarks[0])


@pytest.mark.parametrize("model_aw", [0.02, 0.30, 0.995])
def test_a_lot_computed_where_the_model_was_never_compared_teaches_nothing(model_aw: float) -> None:
    after = learn(prior(Klass.SALTED), [lot("A", model_aw, model_aw)])
    assert after.lots == 0
    assert "outside 0.65 to 0.99" in str(after.remarks[0])


def test_a_meters_own_doubt_counts_for_more_in_wet_product() -> None:
    """At 0.97 a reading sd of 0.0055 in aw is 0.19 of ln(-ln aw), not 0.04: own arithmetic, 0.0055 / (0.97 x
    0.0305)."""
    wet, dry = (learn(prior(Klass.SALTED), [lot("A", aw, aw)]).sd for aw in (0.97, 0.83))
    assert wet > 1.3 * dry
