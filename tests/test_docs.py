"""What the guide says about the tree is true of the tree."""

from __future__ import annotations

import re

from everything import PACKAGE, TOP

ROOM = re.compile(r"^\| ((?:`[a-z_]+`,? ?)+)\| .+ \| (here|waiting) \|$", re.MULTILINE)
ARCHITECTURE = (TOP / "docs" / "architecture.md").read_text("utf-8")


def test_the_rooms_said_to_be_here_are_the_rooms_that_are() -> None:
    said = {name for names, when in ROOM.findall(ARCHITECTURE) if when == "here" for name in re.findall(r"\w+", names)}
    assert said == {path.parent.name for path in PACKAGE.glob("*/__init__.py")} - {"units"}


def test_the_ground_is_named_in_full() -> None:
    (ground,) = re.findall(r"^\| the ground \| (.+) \| here \|$", ARCHITECTURE, re.MULTILINE)
    modules = {path.stem for path in PACKAGE.glob("*.py")} - {"__init__", "__main__"}
    assert set(re.findall(r"\w+", ground)) == modules | {"units"}


def test_every_file_the_guide_points_to_exists() -> None:
    pages = [*(TOP / "docs").rglob("*.md"), TOP / "README.md", TOP / "CONTRIBUTING.md"]
    for page in pages:
        text = page.read_text("utf-8")
        links = [link for link in re.findall(r"\]\(([^)#]+)\)", text) if "://" not in link]
        links = [str((page.parent / link).relative_to(TOP)) for link in links]
        links += re.findall(r"`((?:docs|scripts|examples|benchmarks)/[\w./-]*)`", text)
        assert not [link for link in links if not (TOP / link).exists()], page.name


def test_no_field_ends_in_a_unit_that_is_converted_at_the_edges() -> None:
    """Inside, everything is SI and degrees Celsius; ``docs/words.md`` lists the endings."""
    endings = set(re.findall(r"`_(\w+)`", (TOP / "docs" / "words.md").read_text("utf-8")))
    never = {"g", "lb", "oz", "f", "mm", "cm", "in", "min", "h", "grams", "pct", "frac", "degc", "degf", "bar", "kpa"}
    assert not endings & never
    fields = {
        name
        for path in PACKAGE.rglob("*.py")
        if "units" not in path.parts and "report" not in path.parts
        for name in re.findall(r"^    (\w+): (?:float|Quantity)\b", path.read_text("utf-8"), re.MULTILINE)
    }
    assert not {name for name in fields if name.rsplit("_", 1)[-1] in never and "_" in name}
