"""The application of people."""

from __future__ import annotations

from django.apps import AppConfig


class PeopleConfig(AppConfig):
    """Accounts, sessions and the first page."""

    name = "pellicle.plant.people"
    label = "people"
