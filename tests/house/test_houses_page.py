"""``docs/houses.md`` lists every kind of house as the data have it, and its examples stand as files."""

from __future__ import annotations

import runpy

import pytest

from everything import TOP
from pellicle.files.product_file import read_product
from pellicle.house.chamber import resolve_house
from pellicle.house.reach import reach_remarks
from pellicle.house.schedule import resolve_schedule
from pellicle.house.until import Weights

PAGE = TOP / "docs" / "houses.md"
EXAMPLES = sorted((TOP / "examples").glob("*-strips.toml"))


def test_the_page_lists_the_kinds_as_the_data_have_them() -> None:
    kept = PAGE.read_text("utf-8")
    made = runpy.run_path(str(TOP / "scripts" / "houses_page.py"))
    assert made["page"](kept) == kept, "run scripts/houses_page.py"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_can_go_through_its_house_and_is_named_on_the_page(path) -> None:
    product = read_product(path)
    raw = product.meat.raw_kg
    steps = resolve_schedule(product, Weights(raw, 1.1 * raw, 0.3 * raw))

    assert steps
    assert f"`examples/{path.name}`" in PAGE.read_text("utf-8")


def test_only_the_lamb_example_waits_for_a_core_its_surface_cannot_give() -> None:
    waiting = []
    for path in EXAMPLES:
        product = read_product(path)
        raw = product.meat.raw_kg
        steps = resolve_schedule(product, Weights(raw, 1.1 * raw, 0.3 * raw))
        waiting += [path.stem for _ in reach_remarks(steps, resolve_house(product))]

    assert waiting == ["heather-lamb-strips"]
