"""What a build of the wheel adds: the charts and fonts of the pages, unless they are there already.

A build without npm still succeeds; its pages have the system's fonts and no charts, and the build says so. An editable
install builds nothing: ``pellicle serve`` does, when somebody wants a page.
"""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class AssetsHook(BuildHookInterface):  # type: ignore[type-arg]
    """Runs the one build there is, from the file: the package itself needs more than a build has."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build what is missing or of another lock."""
        if self.target_name != "wheel" or version == "editable":
            return
        place = Path(self.root, "src", "pellicle", "plant", "assets.py")
        spec = importlib.util.spec_from_file_location("pellicle_assets", place)
        assert spec is not None
        assert spec.loader is not None
        assets = importlib.util.module_from_spec(spec)
        sys.modules[spec.name] = assets
        spec.loader.exec_module(assets)
        if assets.wanted():
            try:
                assets.build(tell=self.app.display_info)
            except assets.AssetsError as error:
                self.app.display_warning(f"This wheel has no charts and fonts for its pages: {error}.")
