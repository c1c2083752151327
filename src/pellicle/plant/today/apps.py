"""The application of the first screen; it has no tables."""

from __future__ import annotations

from django.apps import AppConfig


class TodayConfig(AppConfig):
    """The first screen."""

    name = "pellicle.plant.today"
    label = "today"
