"""The audit page: newest first, each entry opens to its facts and its hash; and the check of the whole chain."""

from __future__ import annotations

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from pellicle.plant.audit.models import Entry, Head, short
from pellicle.plant.audit.tell import told
from pellicle.plant.roles.permission import allowed
from pellicle.plant.roles.table import Action

PER_PAGE = 50


@allowed(Action.SEE_AUDIT)
@require_GET
def audit(request: HttpRequest) -> HttpResponse:
    """Show the entries, a page at a time."""
    return _show(request, None)


@allowed(Action.SEE_AUDIT)
@require_GET
def check(request: HttpRequest) -> HttpResponse:
    """Check the chain from its first entry and say what was found."""
    return _show(request, " ".join(told()[0]))


def _show(request: HttpRequest, checked: str | None) -> HttpResponse:
    subject = request.GET.get("about", "")
    entries = Entry.objects.filter(subject=subject) if subject else Entry.objects.all()
    page = Paginator(entries, PER_PAGE).get_page(request.GET.get("page"))
    head = Head.objects.first()
    shown = {
        "page": page,
        "subject": subject,
        "checked": checked,
        "count": head.seq if head else 0,
        "head": short(head.hash) if head else "",
    }
    return render(request, "audit/audit.html", shown)
