"""Coming in, going out, and what the owner does with people."""

from __future__ import annotations

import time

import pytest
from django.test import Client

from invented_plant import NAMES, PASSWORD, client, person
from pellicle.plant.audit.models import Entry
from pellicle.plant.folder import Folder
from pellicle.plant.people import sessions, throttle
from pellicle.plant.people.first_run import new_token
from pellicle.plant.people.models import Attempt, Person
from pellicle.plant.roles.table import Role

FIRST = {"name": "Ida Brook", "password": PASSWORD, "again": PASSWORD}


def told() -> str:
    return Entry.objects.first().sentence  # type: ignore[union-attr]


def test_a_new_plant_leads_everybody_to_its_first_page(new_plant: Folder):
    for path in ("/", "/sign-in/", "/audit/", "/people/"):
        assert client().get(path).headers["Location"] == "/first-run/"


def test_the_token_of_the_terminal_makes_the_owner_once(new_plant: Folder):
    token = new_token(new_plant)
    browser = client()
    page = browser.get("/first-run/", {"token": token}).content.decode()
    assert f'value="{token}"' in page

    assert browser.post("/first-run/", {**FIRST, "token": token}).headers["Location"] == "/"
    assert browser.get("/").status_code == 200
    owner = Person.objects.get()
    assert (owner.name, owner.role) == ("Ida Brook", Role.OWNER)
    assert owner.password.startswith("argon2")
    assert not new_plant.first_run.exists()

    assert client().post("/first-run/", {**FIRST, "token": token, "name": "Eve"}).status_code == 302
    assert Person.objects.count() == 1


def test_without_the_token_nobody_becomes_owner_and_what_was_typed_stays(new_plant: Folder):
    new_token(new_plant)
    response = client().post("/first-run/", {**FIRST, "token": "0000-0000"})
    page = response.content.decode()
    assert response.status_code == 422
    assert "This is not the token of this plant" in page
    assert 'value="Ida Brook"' in page
    assert PASSWORD not in page
    assert not Person.objects.exists()


def test_a_new_start_makes_an_older_token_useless(new_plant: Folder):
    old = new_token(new_plant)
    new_token(new_plant)
    assert client().post("/first-run/", {**FIRST, "token": old}).status_code == 422


@pytest.mark.parametrize(
    ("password", "again", "why"),
    [
        ("short", "short", "at least 10 characters"),
        ("1029384756", "1029384756", "entirely numeric"),
        ("password123", "password123", "too common"),
        ("Ida Brook 1", "Ida Brook 1", "too similar"),
        ("seven quiet herons", "seven quiet heroes", "The two passwords differ"),
    ],
)
def test_a_weak_password_is_refused_at_its_field(new_plant: Folder, password: str, again: str, why: str):
    form = {**FIRST, "token": new_token(new_plant), "password": password, "again": again}
    response = client().post("/first-run/", form)
    assert response.status_code == 422
    assert why in response.content.decode()


def test_one_person_at_the_own_machine_is_asked_for_no_password(new_plant: Folder):
    client().post("/first-run/", {**FIRST, "token": new_token(new_plant)})
    assert Client().get("/").status_code == 200
    assert "came in without a password" in told()


def test_on_the_network_everybody_signs_in(new_plant: Folder, monkeypatch: pytest.MonkeyPatch):
    client().post("/first-run/", {**FIRST, "token": new_token(new_plant)})
    assert Client(REMOTE_ADDR="192.0.2.9").get("/").status_code == 302
    monkeypatch.setattr("django.conf.settings.PLANT_LAN", True)
    assert Client().get("/").status_code == 302


def test_whoever_signs_out_alone_stays_out(new_plant: Folder):
    browser = client()
    browser.post("/first-run/", {**FIRST, "token": new_token(new_plant)})
    browser.post("/sign-out/")
    assert browser.get("/").status_code == 302


def test_with_a_second_person_everybody_signs_in(plant: Folder):
    assert Client().get("/").headers["Location"] == "/sign-in/?next=/"


def test_names_are_found_however_they_are_capitalised(plant: Folder):
    response = client().post("/sign-in/", {"name": "  oLGA ", "password": PASSWORD, "next": "/audit/"})
    assert response.headers["Location"] == "/audit/"
    assert told() == "Olga signed in."


def test_signing_in_leads_to_no_other_site(plant: Folder):
    form = {"name": "Olga", "password": PASSWORD, "next": "//elsewhere.invalid/"}
    assert client().post("/sign-in/", form).headers["Location"] == "/"


def test_a_wrong_password_and_an_unknown_name_are_told_alike(plant: Folder):
    pages = [
        client().post("/sign-in/", {"name": name, "password": "wrong"}).content.decode() for name in ("Olga", "Nobody")
    ]
    assert all("do not belong together" in page for page in pages)


def test_guessing_has_to_wait_and_is_told(plant: Folder, monkeypatch: pytest.MonkeyPatch):
    for _ in range(throttle.MOST_BY_NAME_AND_ADDRESS):
        assert client().post("/sign-in/", {"name": "Olga", "password": "wrong"}).status_code == 422
    right = {"name": "Olga", "password": PASSWORD}
    assert client().post("/sign-in/", right).status_code == 429
    assert "Olga failed to sign in from 127.0.0.1" in told()

    assert Client(REMOTE_ADDR="192.0.2.9").post("/sign-in/", right).status_code == 302
    Attempt.objects.update(at=Attempt.objects.first().at - throttle.WINDOW)  # type: ignore[union-attr]
    assert client().post("/sign-in/", right).status_code == 302


@pytest.mark.parametrize(("key", "age"), [("since", sessions.LONGEST_S), ("seen", sessions.IDLE_S)])
def test_a_session_ends_in_time(plant: Folder, key: str, age: float):
    browser = client(Role.MAKER)
    session = browser.session
    session[key] = time.time() - age - 1
    session.save()
    assert browser.get("/").status_code == 302


def test_somebody_new_chooses_a_password_of_their_own_first(plant: Folder):
    form = {"name": "Tom", "role": "maker", "password": "six loud magpies", "again": "six loud magpies"}
    assert client(Role.OWNER).post("/people/", form).status_code == 302
    assert told() == "Olga added Tom as maker."

    tom = client()
    tom.post("/sign-in/", {"name": "Tom", "password": "six loud magpies"})
    assert tom.get("/").headers["Location"] == "/password/"
    own = {"now": "six loud magpies", "password": "nine slow cranes", "again": "nine slow cranes"}
    assert tom.post("/password/", own).status_code == 302
    assert tom.get("/").status_code == 200
    assert told() == "Tom changed their password."


def test_a_password_change_ends_other_sessions_and_wants_the_old_one(plant: Folder):
    here, there = client(), client()
    for browser in (here, there):
        browser.post("/sign-in/", {"name": "Lea", "password": PASSWORD})
    new = {"password": "nine slow cranes", "again": "nine slow cranes"}
    assert here.post("/password/", {"now": "wrong", **new}).status_code == 422
    assert here.post("/password/", {"now": PASSWORD, **new}).status_code == 302
    assert here.get("/").status_code == 200
    assert there.get("/").status_code == 302


def test_a_name_is_taken_for_good(plant: Folder):
    form = {"name": "mAX", "role": "lead", "password": PASSWORD, "again": PASSWORD}
    page = client(Role.OWNER).post("/people/", form).content.decode()
    assert "mAX is taken" in page
    assert Person.objects.count() == len(NAMES)


def test_the_last_owner_stays_one(plant: Folder):
    browser, one = client(Role.OWNER), person(Role.OWNER)
    page = browser.post(f"/people/{one.pk}/role/", {"role": "maker"})
    assert "Olga is the last owner in use" in page.content.decode()
    assert browser.post(f"/people/{one.pk}/active/", {"active": "no"}).status_code == 422
    assert person(Role.OWNER).role == Role.OWNER


def test_a_role_is_changed_and_told(plant: Folder):
    one = person(Role.MAKER)
    client(Role.OWNER).post(f"/people/{one.pk}/role/", {"role": "lead"})
    assert person(Role.MAKER).role == Role.LEAD
    assert told() == "Olga changed the role of Max from maker to lead."


def test_a_pin_is_kept_as_a_hash(plant: Folder):
    one = person(Role.MAKER)
    assert client(Role.OWNER).post(f"/people/{one.pk}/pin/", {"pin": "4071"}).status_code == 302
    kept = person(Role.MAKER)
    assert kept.pin.startswith("argon2")
    assert kept.check_pin("4071")
    assert not kept.check_pin("4072")
    assert not person(Role.LEAD).check_pin("")
    assert "4071" not in Entry.objects.first().text  # type: ignore[union-attr]


@pytest.mark.parametrize("pin", ["123", "1234", "7777", "9876", "12a4", "123456789"])
def test_a_pin_anybody_tries_first_is_refused(plant: Folder, pin: str):
    response = client(Role.OWNER).post(f"/people/{person(Role.MAKER).pk}/pin/", {"pin": pin})
    assert response.status_code == 422
    assert 'class="wrong"' in response.content.decode()


def test_nothing_is_written_by_looking(plant: Folder):
    browser = client(Role.OWNER)
    before = Entry.objects.count()
    for path in ("/", "/people/", "/audit/", "/audit/check/", "/password/"):
        assert browser.get(path).status_code == 200
    assert Entry.objects.count() == before
