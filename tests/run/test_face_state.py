"""What stands at a face at the end: indicators with their numbers."""

from __future__ import annotations

import pytest

from pellicle.run.face_state import face_state, profile
from pellicle.run.setup import move
from pellicle.run.simulate import simulate
from pieces_to_run import DRY, held, pork

pytestmark = pytest.mark.slow


def test_a_wet_piece_has_nothing_to_say_of_its_face() -> None:
    state = face_state(simulate(pork(steps=(held("warm", 45.0, 20, 0.7),))))
    assert state.remarks == ()
    assert state.salts == pytest.approx(state.salts_mean, rel=0.05)


def test_a_dry_face_tells_which_solute_is_over_what_dissolves() -> None:
    state = face_state(simulate(pork(steps=DRY)))
    salt = next(entry for entry in state.solutes if entry.name == "salt")
    assert salt.held > salt.dissolves_cooled == pytest.approx(0.359, abs=0.001)
    assert any("salt" in str(remark) for remark in state.remarks)


def test_dragged_sugar_glazes_the_face() -> None:
    state = face_state(simulate(pork(steps=DRY, move=move({"solute_drag": 1.0}))))
    assert state.sugars > 2.0 * state.sugars_mean
    assert any("glaze" in str(remark) for remark in state.remarks)


def test_a_profile_ends_in_the_faces_of_the_trace() -> None:
    run = simulate(pork(steps=DRY, whole=True))
    across = profile(run)
    assert across.aw[-1] == pytest.approx(run.trace.face_aw[-1, 1], abs=1e-9)
    assert across.temperature_c[0] == pytest.approx(run.trace.face_c[-1, 0], abs=1e-9)
    assert across.share[0] == 0.0
    assert across.share[-1] == pytest.approx(1.0)
