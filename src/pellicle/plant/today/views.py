"""Today: one sentence, what is kept here, and what is not there yet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from pellicle.message import message, say
from pellicle.plant.audit.age import OLD_DAYS, days_since_backup
from pellicle.plant.audit.models import Head, short
from pellicle.plant.people.models import Person
from pellicle.plant.roles.permission import allowed
from pellicle.plant.roles.table import Action
from pellicle.run.cache import is_warm

# what the frame has a place for and this version does not hold; a line goes when its page comes
WAITING = ("products", "batches", "houses", "improve")


@dataclass(frozen=True, slots=True)
class Today:
    """What the page shows."""

    people: int
    entries: int
    head: str
    folder: str
    backup_days: int | None
    backup_old: bool
    kernel_ready: bool
    waiting: tuple[str, ...]


@allowed(Action.SEE_TODAY)
@require_safe
def today(request: HttpRequest) -> HttpResponse:
    """Show the first screen."""
    head = Head.objects.first()
    days = days_since_backup(datetime.now(UTC))
    shown = Today(
        people=Person.objects.filter(is_active=True).count(),
        entries=head.seq if head else 0,
        head=short(head.hash) if head else "",
        folder=str(settings.DATA.path),
        backup_days=days,
        backup_old=days is not None and days >= OLD_DAYS,
        kernel_ready=is_warm(),
        waiting=tuple(say(message(f"plant.waiting_{name}")) for name in WAITING),
    )
    return render(request, "today/today.html", {"today": shown})
