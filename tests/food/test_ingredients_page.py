"""The page of the documentation lists the catalogue as it is."""

from __future__ import annotations

import runpy
from pathlib import Path

SCRIPT = Path(__file__).resolve().parents[2] / "scripts" / "ingredients_page.py"


def test_the_page_is_up_to_date() -> None:
    made = runpy.run_path(str(SCRIPT))
    kept = made["PAGE"].read_text("utf-8")
    assert made["page"](kept) == kept, "run scripts/ingredients_page.py"
