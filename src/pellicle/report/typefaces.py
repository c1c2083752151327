"""The typefaces of sheets and charts: Source Sans Pro and Source Serif Pro, open fonts that come as Python packages."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path

SANS, SERIF = "Source Sans Pro", "Source Serif Pro"
_PACKAGES = ("font_source_sans_pro", "font_source_serif_pro")


@cache
def folders() -> tuple[Path, ...]:
    """Return the folders of font files that are installed; empty where the packages are missing."""
    found = []
    for package in _PACKAGES:
        try:
            folder = Path(str(files(package) / "files"))
        except ModuleNotFoundError:
            continue
        if folder.is_dir():
            found.append(folder)
    return tuple(found)


def file_of(name: str) -> Path | None:
    """Return the file of a face by its name (``SourceSansPro-Semibold``), or None where it is not installed."""
    paths = (folder / f"{name}.ttf" for folder in folders())
    return next((path for path in paths if path.is_file()), None)
