"""House rules for every published relation: source, worked example, units, range, and one body for all uses."""

from __future__ import annotations

import inspect
import re

import numpy as np
import pytest

from everything import import_everything
from pellicle.relation import RELATIONS, RESULT, Relation
from pellicle.source import sources

import_everything()
EVERY = [pytest.param(found, id=name.removeprefix("pellicle.")) for name, found in sorted(RELATIONS.items())]


def arguments(found: Relation) -> list[str]:
    return list(inspect.signature(found.function).parameters)


def unit_of(argument: str, others: set[str], text: str) -> str | None:
    """Return the unit in brackets behind an argument's name; of other arguments only those that share it come between.

    What stands in parentheses is a remark and does not count.
    """
    text = re.sub(r"\([^()\[\]]*\)", "", text)
    for name in re.finditer(rf"\b{re.escape(argument)}\b", text):
        between, bracket, rest = text[name.end() :].partition("[")
        words = set(re.findall(r"\w+", between))
        if bracket and "]" not in between and (not words & others or words <= others | {"and", "or"}):
            return rest.partition("]")[0]
    return None


def test_there_are_relations_to_check() -> None:
    assert EVERY


@pytest.mark.parametrize("found", EVERY)
def test_its_sources_are_registered(found: Relation) -> None:
    assert found.sources
    assert not set(found.sources) - set(sources())


@pytest.mark.parametrize("found", EVERY)
def test_it_has_a_worked_example_that_is_run(found: Relation) -> None:
    """The doctest run of ``src`` runs the example; here it only has to be there."""
    assert ">>>" in (found.function.__doc__ or "")


@pytest.mark.parametrize("found", EVERY)
def test_every_argument_names_its_unit(found: Relation) -> None:
    names = arguments(found)
    text = found.function.__doc__ or ""
    without = [name for name in names if unit_of(name, set(names) - {name}, text) is None]
    assert not without, f"no [unit] behind {', '.join(without)} in the docstring"


@pytest.mark.parametrize("found", EVERY)
def test_its_range_is_about_its_own_arguments(found: Relation) -> None:
    arithmetic = found.sources == ("own-arithmetic",)
    assert found.valid or arithmetic, "a relation says over which range its source holds"
    assert not set(found.valid) - {*arguments(found), RESULT}
    assert all(low < high for low, high in found.valid.values())


@pytest.mark.parametrize("found", EVERY)
def test_it_takes_plain_arguments_only(found: Relation) -> None:
    kinds = {parameter.kind for parameter in inspect.signature(found.function).parameters.values()}
    assert kinds <= {inspect.Parameter.POSITIONAL_OR_KEYWORD}, "the kernel calls relations by position"


def samples(found: Relation) -> list[tuple[float, ...]] | None:
    """Return points well inside the range, or None where an argument has no stated one."""
    names = arguments(found)
    if not set(names) <= set(found.valid):
        return None
    return [
        tuple(found.valid[name][0] + share * (found.valid[name][1] - found.valid[name][0]) for name in names)
        for share in (0.25, 0.5, 0.75)
    ]


RANGED = [entry for entry in EVERY if samples(entry.values[0]) is not None]


@pytest.mark.parametrize("found", RANGED)
def test_arrays_give_what_single_numbers_give(found: Relation) -> None:
    points = samples(found)
    assert points is not None
    one_by_one = [found.function(*point) for point in points]
    together = found.function(*(np.array(column) for column in zip(*points, strict=True)))
    np.testing.assert_allclose(together, one_by_one, rtol=1e-12)


@pytest.mark.slow
@pytest.mark.parametrize("found", RANGED)
def test_the_compiled_form_gives_what_the_plain_form_gives(found: Relation) -> None:
    numba = pytest.importorskip("numba")
    for other in RELATIONS.values():
        numba.extending.register_jitable(other.function)
    points = samples(found)
    assert points is not None
    compiled = numba.njit(found.function)
    for point in points:
        np.testing.assert_allclose(compiled(*point), found.function(*point), rtol=1e-12)
