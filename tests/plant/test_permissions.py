"""Who may do what, on the server: every role and action, and every address as everybody and as nobody."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from invented_plant import client, person
from pellicle.plant.folder import Folder
from pellicle.plant.roles.permission import may
from pellicle.plant.roles.table import MAY, Action, Role

OWN, LEAD, MAKE, READ = Role.OWNER, Role.LEAD, Role.MAKER, Role.READER

# written out a second time on purpose: a change of the table has to be meant
EXPECTED = {
    Action.SEE_TODAY: {OWN, LEAD, MAKE, READ},
    Action.KEEP_OWN_PASSWORD: {OWN, LEAD, MAKE, READ},
    Action.SEE_AUDIT: {OWN, READ},
    Action.MANAGE_PEOPLE: {OWN},
}

IN, SHOWN, REFUSED, WRONG, ELSEWHERE, NO_SUCH_WAY = "sign-in", 200, 403, 422, 302, 405


def everybody(status: int) -> dict[Role | None, Any]:
    return {None: IN, OWN: status, LEAD: status, MAKE: status, READ: status}


def only(status: int, *roles: Role) -> dict[Role | None, Any]:
    return {None: IN, **{role: status if role in roles else REFUSED for role in Role}}


OPEN = dict.fromkeys((None, *Role))
# address: what GET gives, and what POST of an empty form gives
WALK: dict[str, tuple[dict[Role | None, Any], dict[Role | None, Any]]] = {
    "today": (everybody(SHOWN), everybody(NO_SUCH_WAY)),
    "first-run": (dict.fromkeys(OPEN, ELSEWHERE), dict.fromkeys(OPEN, ELSEWHERE)),
    "sign-in": (dict.fromkeys(OPEN, SHOWN), dict.fromkeys(OPEN, WRONG)),
    "sign-out": (everybody(NO_SUCH_WAY), everybody(ELSEWHERE)),
    "own-password": (everybody(SHOWN), everybody(WRONG)),
    "people": (only(SHOWN, OWN), only(WRONG, OWN)),
    "person": (only(SHOWN, OWN), only(NO_SUCH_WAY, OWN)),
    "person-role": (only(NO_SUCH_WAY, OWN), only(WRONG, OWN)),
    "person-pin": (only(NO_SUCH_WAY, OWN), only(WRONG, OWN)),
    "person-password": (only(NO_SUCH_WAY, OWN), only(WRONG, OWN)),
    "person-active": (only(NO_SUCH_WAY, OWN), only(ELSEWHERE, OWN)),
    "audit": (only(SHOWN, OWN, READ), only(NO_SUCH_WAY, OWN, READ)),
    "audit-check": (only(SHOWN, OWN, READ), only(NO_SUCH_WAY, OWN, READ)),
}


def patterns(resolver: URLResolver | None = None) -> Iterator[URLPattern]:
    for found in (resolver or get_resolver()).url_patterns:
        if isinstance(found, URLResolver):
            yield from patterns(found)
        else:
            yield found


PATTERNS = {str(found.name): found for found in patterns()}


def address(name: str) -> str:
    return reverse(name, args=[person(MAKE).pk] if name.startswith("person") else [])


@pytest.mark.parametrize("role", Role)
@pytest.mark.parametrize("action", Action)
def test_the_table_says_what_was_meant(role: Role, action: Action):
    assert (action in MAY[role]) == (role in EXPECTED[action])


def test_the_table_cannot_be_changed_while_running():
    with pytest.raises(TypeError):
        MAY[Role.MAKER] = frozenset(Action)  # type: ignore[index]


@pytest.mark.parametrize("name", PATTERNS)
def test_every_view_says_its_action_or_that_it_is_open(name: str):
    view = PATTERNS[name].callback
    assert isinstance(getattr(view, "action", None), Action) != getattr(view, "open_to_all", False)


def test_every_action_is_used():
    assert {getattr(found.callback, "action", None) for found in PATTERNS.values()} >= set(Action)


def test_the_walk_knows_every_address():
    assert set(WALK) == set(PATTERNS)


@pytest.mark.parametrize("role", [None, *Role], ids=lambda role: role or "nobody")
@pytest.mark.parametrize("name", WALK)
def test_every_address_answers_each_role_as_expected(plant: Folder, name: str, role: Role | None):
    browser = client(role)
    for method, expected in zip(("get", "post"), WALK[name], strict=True):
        response = getattr(browser, method)(address(name))
        if expected[role] == IN:
            assert response.status_code == 302
            assert response.headers["Location"].startswith(reverse("sign-in"))
        else:
            assert response.status_code == expected[role], (method, response.content.decode()[:500])


def test_a_refusal_is_a_page_with_its_reason(plant: Folder):
    page = client(MAKE).get("/audit/")
    assert "As maker you cannot open this page" in page.content.decode()


def test_pages_that_are_not_yours_are_not_offered(plant: Folder):
    assert "/people/" not in client(READ).get("/").content.decode()
    assert "/people/" in client(OWN).get("/").content.decode()


def test_whoever_is_put_out_of_use_is_out_at_once(plant: Folder):
    browser = client(MAKE)
    client(OWN).post(address("person-active"), {"active": "no"})

    assert browser.get("/").headers["Location"].startswith("/sign-in/")
    assert not may(person(MAKE), Action.SEE_TODAY)


def test_a_post_from_another_site_is_refused(plant: Folder):
    from django.test import Client

    browser = Client(enforce_csrf_checks=True)
    response = browser.post("/sign-in/", {"name": "Olga", "password": "x"})
    assert response.status_code == 403
    assert "nothing was changed" in response.content.decode()


def test_another_name_for_this_machine_is_refused(plant: Folder):
    assert client().get("/sign-in/", headers={"host": "plant.invalid"}).status_code == 400
