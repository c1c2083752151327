"""What holds for every page: nothing from outside, nothing inline, few queries, and true words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.db import connection
from django.test.utils import CaptureQueriesContext

from invented_plant import client, person
from pellicle.plant import assets
from pellicle.plant.folder import Folder
from pellicle.plant.page import context
from pellicle.plant.roles.table import Role

PAGES = ["/", "/people/", "/audit/", "/audit/check/", "/password/", "/sign-in/", "/people/3/", "/no-such-page/"]
MOST_QUERIES = 10


def page(path: str) -> str:
    return client(Role.OWNER).get(path).content.decode()


@pytest.mark.parametrize("path", PAGES)
def test_a_page_has_nothing_inline_and_asks_nobody_else(plant: Folder, path: str):
    text = page(path)
    assert not re.search(r"<style|<script(?![^>]*src=)| style=| on\w+=|javascript:", text)
    assert not re.findall(r'(?:src|href|action)="(?!/|#|\?)[^"]*"', text)
    assert "https://" not in text


@pytest.mark.parametrize("path", [*PAGES, "/static/plant/none.css"])
def test_every_answer_carries_its_policy(plant: Folder, path: str):
    headers = client(Role.OWNER).get(path).headers
    assert "default-src 'none'" in headers["Content-Security-Policy"]
    assert "unsafe" not in headers["Content-Security-Policy"]
    assert headers["X-Frame-Options"] == "DENY"
    assert headers["Cache-Control"] == "no-store"


@pytest.mark.parametrize("path", PAGES)
def test_a_page_needs_few_queries(plant: Folder, path: str):
    browser = client(Role.OWNER)
    with CaptureQueriesContext(
        connection,
    ) as queries:
        browser.get(path)
    assert len(queries) <= MOST_QUERIES


@pytest.mark.parametrize("path", PAGES)
def test_a_page_opens_with_one_sentence(plant: Folder, path: str):
    (sentence,) = re.findall(r"<h1>(.+?)</h1>", page(path), re.DOTALL)
    assert sentence.strip().endswith((".", "?", "!")) or "whole" in sentence


def test_every_field_has_its_label(plant: Folder):
    for path in PAGES:
        text = page(path)
        fields = set(re.findall(r'<input(?! type="radio")[^>]* id="([^"]+)"', text))
        assert fields <= set(re.findall(r'for="([^"]+)"', text)), path


def test_files_beside_the_pages_are_kept_by_the_browser_for_ever(plant: Folder):
    (address,) = re.findall(r'href="(/static/[^"]+plant\.css)"', page("/"))
    response = client().get(address)
    assert response.status_code == 200
    assert "max-age=31536000" in response.headers["Cache-Control"]
    response.close()


def test_fonts_are_asked_for_only_where_they_were_built(plant: Folder, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(assets, "built", lambda: False)
    assert context.assets is assets
    assert "fonts.css" not in page("/")
    assert "own fonts" in page("/")
    monkeypatch.setattr(assets, "built", lambda: True)
    assert "fonts.css" in page("/")


def test_every_font_that_is_named_is_one_that_is_built():
    sheet = finders.find("plant/fonts.css")
    assert sheet
    named = set(re.findall(r"\.\./vendor/([^\"]+)", Path(sheet).read_text("utf-8")))
    assert named == {name for name in assets.FILES.values() if name.endswith(".woff2")}


def test_today_says_what_is_not_there(plant: Folder):
    text = page("/")
    assert "and no batches" in text
    assert "none yet: pellicle backup FILE" in text


def test_what_people_type_cannot_become_markup(plant: Folder):
    form = {"name": "<b>Max</b>", "role": "maker", "password": "six loud magpies", "again": "six loud magpies"}
    client(Role.OWNER).post("/people/", form)
    for path in ("/people/", "/audit/"):
        assert "<b>" not in page(path)
        assert "&lt;b&gt;Max" in page(path)


def test_the_audit_page_shows_what_is_told_of_one_person(plant: Folder):
    text = page(f"/audit/?about=person:{person(Role.MAKER).pk}")
    assert "Olga added Max as maker." in text
    assert "Lea" not in text


def test_a_failure_of_ours_is_a_page_too(plant: Folder, monkeypatch: pytest.MonkeyPatch):
    def broken(now: object) -> int:
        raise RuntimeError

    monkeypatch.setattr("pellicle.plant.today.views.days_since_backup", broken)
    browser = client(Role.OWNER)
    browser.raise_request_exception = False
    response = browser.get("/")
    assert response.status_code == 500
    assert "Something failed in Pellicle itself" in response.content.decode()
