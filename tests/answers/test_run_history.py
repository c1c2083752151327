"""A passage over time: the stretches that counted, why not the others, and the state across the piece."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from pellicle.answers.run import run
from pellicle.answers.run_answer import Counted, RunAnswer
from pellicle.answers.run_history import counted_in, why_uncounted
from pellicle.errors import InputError
from pellicle.files.product_file import read_product
from pellicle.measured.series import Origin, Series

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = date(2026, 11, 25)


@cache
def pepper() -> RunAnswer:
    return run(read_product(EXAMPLES / "plain-pepper-strips.toml"), on=DAY, profiles=(0.0, 90.0))


def faces(*aw: tuple[float, float], open_below: bool = True) -> Series:
    time_s = 600.0 * np.arange(len(aw))
    warm = np.full((len(aw), 2), 60.0)
    return Series(
        time_s, core_c=warm[:, 0], face_c=warm, face_aw=np.array(aw), open_faces=(open_below, True),
        origin=Origin.SIMULATED,
    )  # fmt: skip


def test_heat_counts_until_the_drier_face_falls_below_0_95():
    # half way from 0.96 to 0.94 the face is at 0.95: 5 of 10 minutes (own arithmetic)
    found = counted_in(faces((0.97, 0.97), (0.96, 0.97), (0.94, 0.97), (0.90, 0.96)))

    assert [(one.from_minutes, one.to_minutes) for one in found] == [(0.0, pytest.approx(15.0))]


def test_a_face_on_a_tray_does_not_stop_the_count():
    assert counted_in(faces((0.5, 0.97), (0.5, 0.96), open_below=False)) == (Counted(0.0, 10.0),)


def test_a_surface_wetted_again_counts_again():
    found = counted_in(faces((0.97, 0.97), (0.90, 0.90), (0.90, 0.90), (0.97, 0.97)))

    assert len(found) == 2
    assert found[1].to_minutes == 30.0


def test_the_words_say_never_always_or_when():
    assert str(why_uncounted((), 60.0)).startswith("No heat counted")
    assert str(why_uncounted((Counted(0.0, 60.0),), 60.0)).startswith("Heat counted all the time")
    assert "0 to 15; 40 to 60" in str(why_uncounted((Counted(0.0, 15.0), Counted(40.0, 60.0)), 60.0))


def test_credit_grows_only_while_it_counts():
    answer = pepper()
    minutes, credit = np.array(answer.history.minutes), np.array(answer.history.lethality_wet)
    inside = np.zeros(minutes.size, dtype=bool)
    for one in answer.counted:
        inside |= (minutes >= one.from_minutes) & (minutes <= one.to_minutes)

    between = ~inside[:-1] & ~inside[1:]
    assert answer.counted
    # the step in which counting stops is drawn as one straight line, a little past the stop
    assert np.diff(credit)[between].sum() < 0.01 * credit[-1]


def test_a_profile_runs_from_the_middle_to_the_face_and_dries_towards_it():
    start, later = pepper().profiles

    assert later.depth_m[-1] == 0.0
    assert list(later.depth_m) == sorted(later.depth_m, reverse=True)
    # hung and symmetric: half of the 6.5 mm of the file, at the start
    assert start.depth_m[0] == pytest.approx(6.5e-3 / 2, rel=0.02)
    assert later.aw[-1] <= later.aw[0]


def test_a_profile_past_the_end_says_when_the_end_is():
    with pytest.raises(InputError, match="past the end"):
        run(read_product(EXAMPLES / "plain-pepper-strips.toml"), on=DAY, profiles=(6000.0,))
