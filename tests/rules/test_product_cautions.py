"""Cautions by product: each where its hazard is, and none where there is no such hazard."""

from __future__ import annotations

import pytest
from plain_products import a_cure, a_product, with_a_silent_bag

from pellicle.product import Bag, CureMethod, Form, Maker, Pack, Storage
from pellicle.rules.cautions import Where, cautions
from pellicle.rules.figures import PlanQuantities

CURED = PlanQuantities(cure=a_cure(150.0))


def ids(product, quantities: PlanQuantities = CURED) -> list[str]:
    return [caution.text.id.removeprefix("cautions.") for caution in cautions(product, quantities)]


@pytest.mark.parametrize(
    ("species", "id", "words"),
    [("beef", "home_heat_first", "71 °C (160 °F)"), ("turkey", "home_heat_first_poultry", "74 °C (165 °F)")],
)
def test_home_always_begins_with_the_heat_first_step(species: str, id: str, words: str) -> None:
    first = cautions(a_product(maker=Maker.HOME, species=species), CURED)[0]
    assert first.text.id == f"cautions.{id}"
    assert words in str(first.text)
    assert first.where is Where.HOUSE


def test_a_plant_is_not_told_the_home_step() -> None:
    assert not [id for id in ids(a_product()) if id.startswith("home")]


@pytest.mark.parametrize(
    ("form", "wanted"), [(Form.GROUND, "ground"), (Form.FORMED, "ground"), (Form.TENDERISED, "tenderised")]
)
def test_what_is_not_whole_muscle_has_its_statements_withheld(form: Form, wanted: str) -> None:
    found = cautions(a_product(form=form), CURED)
    (caution,) = [each for each in found if each.text.id == f"cautions.{wanted}"]
    assert "withheld" in str(caution.text)
    assert "inside" not in ids(a_product(form=form))


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ({"cure_method": CureMethod.TUMBLED}, "inside"),
        ({"cure_method": CureMethod.INJECTED}, "inside"),
        ({"species": "pork"}, "parasites_pork"),
        ({"species": "venison"}, "parasites_game"),
        ({"species": "wild boar"}, "parasites_game"),
        ({"species": "fish"}, "fish"),
        ({"species": "duck"}, "poultry"),
        ({"maker": Maker.RETAIL_EXEMPT}, "retail"),
        ({"storage": Storage.BACON}, "bacon"),
        ({"storage": Storage.REFRIGERATED}, "keep_cold"),
        ({"pack": Pack.AIR}, "mould"),
        ({"pack": Pack.VACUUM}, "opened"),
        ({"bags": {"b": Bag("b", 1.0, 25.0, None, None, {}, ())}}, "bag"),
    ],
)
def test_a_hazard_brings_its_caution_and_its_absence_does_not(changes, id: str) -> None:
    assert id in ids(a_product(**changes))
    plain = a_product(cure_method=CureMethod.RUBBED, pack=Pack.GAS if id == "mould" else Pack.AIR)
    assert id not in ids(plain)


def test_cure_brings_label_and_scale_and_its_absence_the_uncured_words() -> None:
    assert {"cure_label", "cure_spoon"} <= set(ids(a_product()))
    without = ids(a_product(), PlanQuantities())
    assert "uncured" in without
    assert "cure_label" not in without


def test_a_silent_label_is_cautioned_at_the_cure() -> None:
    assert "cure_unknown" in ids(a_product(), PlanQuantities(cure=with_a_silent_bag(0.1)))


def test_every_page_ends_with_readings_and_the_process_authority() -> None:
    for product in (a_product(), a_product(maker=Maker.HOME), a_product(species="turkey")):
        assert ids(product)[-1] == "authority"
        assert "few_readings" in ids(product)


def test_after_the_home_step_cautions_follow_the_work() -> None:
    order = list(Where)
    places = [order.index(each.where) for each in cautions(a_product(maker=Maker.HOME, species="pork"), CURED)[1:]]
    assert places == sorted(places)
