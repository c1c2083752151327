"""The application of what all pages share; it has no tables."""

from __future__ import annotations

from django.apps import AppConfig


class PageConfig(AppConfig):
    """Frame, look and words."""

    name = "pellicle.plant.page"
    label = "page"
