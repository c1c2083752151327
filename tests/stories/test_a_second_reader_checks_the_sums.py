"""What a second reader found by doing the sums again: each gave a better answer than the evidence allowed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from pellicle.answers.plan import plan
from pellicle.answers.plan_answer import PlanAnswer
from pellicle.answers.working import work_out
from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text
from pellicle.product import Product

DAY = date(2026, 11, 25)
BASE = """\
format = 1
{top}
[product]
name = "Test strips"
species = "beef"
jurisdiction = "us"
{product}
[meat]
ingredient = "{meat}"
raw = "100 lb"
[[formula]]
ingredient = "water"
amount = "{water}"
[[formula]]
ingredient = "salt"
amount = "2 % of raw"
[[formula]]
ingredient = "sucrose"
amount = "4 % of raw"
[[formula]]
ingredient = "curing salt"
amount = "{cure}"
nitrite = "6.25 %"
{more}
"""
TUMBLED = '[cure]\nmethod = "tumbled"\n'
LOT = '[[reading]]\nlot = "A"\nraw = "100 lb"\nout = "{out}"\naw = {aw}\nstandard_checked = true\n'


def product(folder: Path = Path("."), **parts: str) -> Product:
    given = {"top": "", "product": "", "meat": "beef top round", "water": "10 % of raw", "cure": "0.25 % of raw"}
    return product_from_text(BASE.format(**{**given, "more": TUMBLED, **parts}), "strips.toml", folder)


def planned(folder: Path = Path("."), **parts: str) -> PlanAnswer:
    return plan(product(folder, **parts), on=DAY)


def verdict(answer: PlanAnswer, id: str) -> str:
    return str(next(check.verdict for check in answer.checks if check.id == id))


@pytest.mark.parametrize("aw", ["0.05", "0.50", "[0.58, 0.58, 0.58]"])
def test_an_absurd_reading_does_not_move_the_pull_weight(aw: str) -> None:
    bare = planned(more=TUMBLED + '[uptake]\ntaken_up = "100 %"\n')
    read = planned(more=TUMBLED + '[uptake]\ntaken_up = "100 %"\n' + LOT.format(out="47 lb", aw=aw))
    assert read.pull.kg == pytest.approx(bare.pull.kg)
    assert any("Lot A was left out" in str(text) for text in read.assumptions)


def test_readings_of_wet_lots_do_not_let_a_dry_one_be_pulled_heavier() -> None:
    lots = "".join(LOT.replace('"A"', f'"{name}"').format(out="116 lb", aw="0.95") for name in "ABC")
    bare, read = (planned(more=TUMBLED + '[uptake]\ntaken_up = "100 %"\n' + more) for more in ("", lots))
    assert read.pull.kg <= bare.pull.kg * (1 + 1e-9)


def test_an_immersion_without_a_pickup_is_refused_where_the_whole_sum_is_far_over() -> None:
    """10 % of cure in a pickle half as heavy as the meat is 6,250 ppm at the most and 3,765 over meat and pickle."""
    with pytest.raises(InputError, match="more than twice"):
        planned(water="50 % of raw", cure="10 % of raw", more='[cure]\nmethod = "immersion-pickup"\n')


def test_an_immersion_without_a_pickup_is_not_met_by_half_of_the_evidence() -> None:
    """179.8 ppm over meat and pickle is within 200; with everything taken up it would be 281."""
    whole = '[cure]\nmethod = "immersion-whole"\n'
    less = planned(water="50 % of raw", cure="0.45 % of raw", more=whole)
    assert verdict(less, "cure.nitrite") == "cannot tell"


@pytest.mark.parametrize(
    "what",
    ["Nitrite in the finished product", "nitrite left at release", "nitrite plus nitrate", "sodium nitrite purity"],
)
def test_an_own_limit_on_another_basis_is_not_met_by_what_goes_in(what: str) -> None:
    answer = planned(more=TUMBLED + f'[[limit]]\nwhat = "{what}"\nvalue = "at most 200 ppm"\n')
    assert verdict(answer, "own.1") == "cannot tell"


def test_an_own_limit_on_ingoing_nitrite_is_still_judged() -> None:
    answer = planned(more=TUMBLED + '[[limit]]\nwhat = "ingoing nitrite"\nvalue = "at most 160 ppm"\n')
    assert verdict(answer, "own.1") == "met"


def test_ground_meat_is_not_planned_as_whole_muscle() -> None:
    with pytest.raises(InputError, match="Ground and formed meat has stricter cure limits"):
        planned(meat="ground beef 95 % lean")


def test_an_unstated_method_is_judged_at_the_lowest_nitrate_limit() -> None:
    """The lowest of the three is 700 ppm (solution); 1,718.75 (comminuted) was taken."""
    nitrate = BASE.replace('nitrite = "6.25 %"', 'nitrite = "0.5 %"\nnitrate = "6 %"')
    nitrate = nitrate.replace('"curing salt"', '"curing salt with nitrate"')
    text = nitrate.format(top="", product="", meat="beef top round", water="10 % of raw", cure="2 % of raw", more="")
    answer = plan(product_from_text(text, "strips.toml", Path(".")), on=DAY)
    check = next(check for check in answer.checks if check.id == "cure.nitrate")
    assert (check.limit, str(check.verdict)) == (700, "not met")


@pytest.mark.parametrize("pickup", ["150 ppm nitrite of raw", "10 % of total", "2 % of solution"])
def test_a_pickup_on_another_basis_is_refused(pickup: str) -> None:
    with pytest.raises(InputError, match="no share of raw and no weight"):
        planned(more=TUMBLED + f'[uptake]\npickup = "{pickup}"\n')


def test_a_pickup_given_as_a_weight_is_divided_by_the_meat() -> None:
    answer = planned(more=TUMBLED + '[uptake]\npickup = "12 lb"\n')
    assert answer.marinated_kg == pytest.approx(112 * 0.45359237)


def test_erythorbate_in_a_pickle_is_judged_by_what_is_picked_up() -> None:
    """0.2 % of raw in the pickle is 2,000 ppm at the most; of the whole pickle 10 % of raw is picked up."""
    line = '[[formula]]\ningredient = "sodium erythorbate"\namount = "0.2 % of raw"\n'
    more = line + '[cure]\nmethod = "immersion-pickup"\n[uptake]\npickup = "10 % of raw"\n'
    answer = planned(water="50 % of raw", cure="0.45 % of raw", more=more)
    check = next(check for check in answer.checks if check.id.startswith("restricted.accelerator"))
    # pickle per raw: 50 + 2 + 4 + 0.45 + 0.2 = 56.65 %; 2000 x 10 / 56.65 = 353 ppm, own arithmetic
    assert check.value == pytest.approx(353.05, abs=0.1)
    assert str(check.verdict) == "met"


def test_propylene_glycol_that_may_leave_is_not_counted_on() -> None:
    line = '[[formula]]\ningredient = "propylene glycol"\namount = "6 % of raw"\n'
    bare, with_it = (planned(more=more + TUMBLED) for more in ("", line))
    assert with_it.pull.kg <= bare.pull.kg * 1.01


def test_a_syrup_of_unsure_make_up_widens_the_doubt() -> None:
    """A syrup's 0.01 of aw is 0.072 of ln(-ln aw) at 0.85 (0.01 / 0.138), on top of the 0.17 of a sweet product."""
    line = '[[formula]]\ningredient = "{}"\namount = "20 % of raw"\n'
    doubt = {
        name: work_out(product(more=line.format(name) + TUMBLED)).priors["correction"].spread
        for name in ("glucose", "glucose syrup 42 DE")
    }
    assert doubt["glucose"] == pytest.approx(0.17)
    assert 0.17 < doubt["glucose syrup 42 DE"] < (0.17**2 + 0.0725**2) ** 0.5


def test_a_pull_far_below_what_the_model_was_compared_with_says_so() -> None:
    answer = planned(product="aw_limit = 0.75")
    assert any("hardly ever compared" in str(text) for text in answer.facts)


def test_an_own_ingredient_that_names_nitrite_is_not_taken_to_be_free_of_it(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(
        'format = 1\n[ingredient."pink mix"]\nlabel = "salt, sodium nitrite"\nper_100g = { salt = 94, water = 6 }\n'
    )
    line = '[[formula]]\ningredient = "pink mix"\namount = "1 % of raw"\n'
    answer = planned(tmp_path, top='ingredients = "mine.toml"', more=line + TUMBLED)
    assert verdict(answer, "cure.nitrite") == "cannot tell"
    assert next(check.value for check in answer.checks if check.id == "cure.nitrite") is None


@pytest.mark.parametrize("cure", ["150 ppm of raw", "0.0025 % of raw"])
def test_an_amount_of_cure_that_would_do_nothing_is_questioned(cure: str) -> None:
    with pytest.raises(InputError, match="would bring only"):
        planned(cure=cure)


def test_a_rack_lighter_with_its_load_than_without_is_refused() -> None:
    with pytest.raises(InputError, match="no more than the empty rack"):
        planned(more=TUMBLED + '[[rack]]\nname = "1"\ntare = "20 lb"\nloaded = "10 lb"\n')


def test_the_limit_that_governs_is_the_one_shown() -> None:
    answer = planned(product='aw_limit = 0.90\npack = "vacuum"')
    check = next(check for check in answer.checks if check.id == "aw.limit")
    assert check.limit == 0.85
