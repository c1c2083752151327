"""The application of the audit; it puts the guards back after every change of the tables."""

from __future__ import annotations

from typing import Any

from django.apps import AppConfig
from django.db.models.signals import post_migrate


class AuditConfig(AppConfig):
    """The chain, its guards and its page."""

    name = "pellicle.plant.audit"
    label = "audit"

    def ready(self) -> None:
        """Ask to be told of every migration: rebuilding a table drops its triggers without a word."""
        post_migrate.connect(_put_guards_back, sender=self)


def _put_guards_back(using: str, **told: Any) -> None:
    from django.db import connections

    from pellicle.plant.audit.guards import install

    install(connections[using])
