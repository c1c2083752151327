"""How a request comes to have a person: the first page while there is nobody, a session that ends in time, and the one
person of a plant on its own machine, who is asked for no password.
"""

from __future__ import annotations

import ipaddress
import time
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.contrib.auth import login, logout
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect

from pellicle.plant.people.models import Person
from pellicle.plant.people.services import tell_signed_in
from pellicle.plant.roles.table import Action

Answer = Callable[[HttpRequest], HttpResponse]
BACKEND = "django.contrib.auth.backends.ModelBackend"

IDLE_S = 4 * 3600.0  # assumed: the longest stretch of a shift without a look at a page
LONGEST_S = 12 * 3600.0  # a shift
SEEN_EVERY_S = 300.0  # not every look at a page is written down


class FirstRun:
    """While the plant has nobody, every page leads to the first one."""

    def __init__(self, answer: Answer) -> None:
        self.answer = answer

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on."""
        return self.answer(request)

    def process_view(self, request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        """Lead to the first page."""
        if getattr(view, "first_run", False) or Person.objects.exists():
            return None
        return redirect("first-run")


class SignedIn(FirstRun):
    """A session ends in time; whoever is alone at the plant's own machine has one without a password."""

    def process_view(self, request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        """End an old session, or begin one."""
        if request.user.is_authenticated and _over(request):
            logout(request)
        if not request.user.is_authenticated and not request.session.get("left"):
            person = alone(request)
            if person is not None:
                enter(request, person, alone=True)
        return None


class OwnPassword(FirstRun):
    """Whoever has a password from the owner changes it before anything else, so that entries are theirs alone."""

    def process_view(self, request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        """Lead to the password page."""
        if not request.user.is_authenticated or not request.user.password_given:
            return None
        free = getattr(view, "open_to_all", False) or getattr(view, "action", None) is Action.KEEP_OWN_PASSWORD
        return None if free else redirect("own-password")


def person_of(request: HttpRequest) -> Person:
    """Return who is signed in; views that say their action are reached by nobody else."""
    if not isinstance(request.user, Person):
        raise PermissionDenied
    return request.user


def enter(request: HttpRequest, person: Person, *, alone: bool = False) -> None:
    """Begin a session of a person."""
    login(request, person, backend=BACKEND)
    request.session["since"] = request.session["seen"] = time.time()
    tell_signed_in(person, alone)


def leave(request: HttpRequest) -> None:
    """End the session, and remember on this device that it was ended on purpose."""
    logout(request)
    request.session["left"] = True


def alone(request: HttpRequest) -> Person | None:
    """Return the one person of the plant, if there is one only and this request comes from the plant's own machine."""
    if settings.PLANT_LAN or not _is_this_machine(request.META.get("REMOTE_ADDR", "")):
        return None
    people = list(Person.objects.filter(is_active=True)[:2])
    return people[0] if len(people) == 1 else None


def _over(request: HttpRequest) -> bool:
    now = time.time()
    since, seen = request.session.get("since", 0.0), request.session.get("seen", 0.0)
    if now - since > LONGEST_S or now - seen > IDLE_S:
        return True
    if now - seen > SEEN_EVERY_S:
        request.session["seen"] = now
    return False


def _is_this_machine(address: str) -> bool:
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False
