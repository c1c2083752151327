"""An invented plant: who works there, and how a test comes in as one of them."""

from __future__ import annotations

import time

from django.conf import settings
from django.test import Client

from pellicle.plant.people.models import Person
from pellicle.plant.roles.table import Role

PASSWORD = "seven quiet herons"
NAMES = {Role.OWNER: "Olga", Role.LEAD: "Lea", Role.MAKER: "Max", Role.READER: "Rita"}

COOKIES: dict[Role, str] = {}


def person(role: Role) -> Person:
    """Return the person of a role."""
    return Person.objects.get(name=NAMES[role])


def signed_in(one: Person) -> str:
    """Return the cookie of a session, made without a password: hashing one takes a twentieth of a second."""
    browser = Client()
    browser.force_login(one)
    session = browser.session
    session["since"] = session["seen"] = time.time()
    session.save()
    return browser.cookies[settings.SESSION_COOKIE_NAME].value


def client(role: Role | None = None) -> Client:
    """Return a browser, signed in as somebody of that role or as nobody."""
    found = Client()
    if role is not None:
        found.cookies[settings.SESSION_COOKIE_NAME] = COOKIES[role]
    return found
