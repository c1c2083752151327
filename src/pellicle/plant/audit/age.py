"""How long ago the last backup was made, as the audit tells."""

from __future__ import annotations

from datetime import datetime

from pellicle.plant.audit.models import Entry

OLD_DAYS = 7  # assumed: a week of work is what a small plant can bear to enter again from paper


def days_since_backup(now: datetime) -> int | None:
    """Return whole days since the last backup was made, or None where none ever was."""
    last = Entry.objects.filter(kind="backup_made").order_by("-seq").values_list("at", flat=True).first()
    return None if last is None else max(0, (now - last).days)
