from __future__ import annotations

import numpy as np
import pytest

from pellicle.errors import InputError
from pellicle.measured.series import Origin, Series


def test_a_column_that_was_not_measured_stays_unknown() -> None:
    series = Series(np.array([0.0, 60.0]), core_c=np.array([5.0, 12.0]))
    assert series.columns == ("core_c",)
    assert series.wet_bulb_c is None
    assert not series.simulated


def test_times_that_run_backwards_are_refused() -> None:
    with pytest.raises(InputError, match="backwards"):
        Series(np.array([0.0, 60.0, 30.0]))


def test_two_rows_of_one_time_mark_a_jump_and_are_allowed() -> None:
    assert Series(np.array([0.0, 60.0, 60.0]), origin=Origin.SIMULATED).duration_s == 60.0


def test_a_column_of_another_length_is_refused() -> None:
    with pytest.raises(InputError, match="core_c"):
        Series(np.array([0.0, 60.0]), core_c=np.array([5.0]))


def test_faces_come_in_pairs() -> None:
    with pytest.raises(InputError, match="lower face and the upper face"):
        Series(np.array([0.0, 60.0]), face_c=np.array([[5.0], [6.0]]))


def test_the_outer_millimetre_agrees_on_its_nodes() -> None:
    with pytest.raises(InputError, match="same number of nodes"):
        Series(np.array([0.0, 60.0]), outer_c=np.zeros((2, 3)), outer_weight=np.ones(2) / 2)
