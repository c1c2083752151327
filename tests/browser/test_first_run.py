"""From the line in the terminal to Today, as a person does it; and what the browser has to say about the pages."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from served import Served

pytestmark = pytest.mark.slow

PASSWORD = "seven quiet herons"
PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 800}
LARGEST_PAGE = 400_000
SMALLEST_TARGET = 44

# Where pictures of every page go, for whoever wants to look at them.
PICTURES = os.environ.get("PELLICLE_PICTURES")


GIVEN_UP = "net::ERR_ABORTED"


class Watched:
    """A page whose complaints and requests are written down."""

    def __init__(self, browser: Browser, served: Served, size: dict[str, int], scheme: str = "light") -> None:
        self.context = browser.new_context(viewport=size, color_scheme=scheme)  # type: ignore[arg-type]
        self.page: Page = self.context.new_page()
        self.complaints: list[str] = []
        self.elsewhere: list[str] = []
        self.bytes = 0
        self.page.on("console", lambda told: self.complaints.append(told.text))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("requestfailed", lambda request: self._failed(request.url, request.failure or ""))
        self.page.on("request", lambda request: self._note(request.url, served.address))
        self.page.on("response", lambda response: self._count(response.headers))

    def _failed(self, url: str, why: str) -> None:
        # what was still on its way when the page was left is given up by the browser, and nothing is wrong with it
        if why != GIVEN_UP:
            self.complaints.append(f"{url}: {why}")

    def _note(self, url: str, address: str) -> None:
        if not url.startswith((address, "data:")):
            self.elsewhere.append(url)

    def _count(self, headers: dict[str, str]) -> None:
        self.bytes += int(headers.get("content-length", "0"))


def make_owner(page: Page, served: Served) -> None:
    page.goto(f"{served.address}first-run/?token={served.token}")
    page.get_by_label("Name").fill("Ines Brook")
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("The same password again").fill(PASSWORD)
    page.get_by_role("button", name="Make the owner").click()


def small_targets(page: Page) -> list[str]:
    """Return what can be pressed and is too small for a thumb; links inside a sentence are as high as their line."""
    return page.evaluate(
        f"""() => [...document.querySelectorAll(`a:not(.opens):not(.skip), button, summary, select,
        input:not([type=hidden]):not([type=radio]):not(.hidden), .choice`)]
        .filter(one => one.getClientRects().length && one.getBoundingClientRect().height < {SMALLEST_TARGET} - 0.5)
        .map(one => one.outerHTML.slice(0, 80))"""
    )


def too_wide(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth"))


def test_from_the_terminal_to_today_and_a_second_person(browser: Browser, served: Served):
    seen = Watched(browser, served, PHONE)
    page = seen.page

    page.goto(served.address)
    expect(page.get_by_role("heading", level=1)).to_contain_text("This plant is new")
    page.get_by_label("Token").fill("0000-0000")
    page.get_by_label("Name").fill("Ines Brook")
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("The same password again").fill(PASSWORD)
    page.get_by_role("button", name="Make the owner").click()
    expect(page.get_by_text("This is not the token of this plant")).to_be_visible()
    expect(page.get_by_label("Name")).to_have_value("Ines Brook")

    seen.complaints.clear()  # the browser tells of the refused form
    seen.bytes = 0
    make_owner(page, served)
    expect(page.get_by_role("heading", level=1)).to_contain_text("Nothing can be told of the house yet")
    assert seen.bytes <= LARGEST_PAGE

    page.get_by_role("link", name="People").click()
    page.get_by_label("Name").fill("Tomas")
    page.get_by_label("maker: works on the floor").check()
    page.get_by_label("Password", exact=True).fill("six loud magpies")
    page.get_by_label("The same password again").fill("six loud magpies")
    page.get_by_role("button", name="Add", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("2 people work with")

    page.get_by_role("link", name="Audit").click()
    page.get_by_role("link", name="Check the whole chain").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("The audit is whole: 3 entries")

    page.get_by_role("button", name="Sign out").click()
    page.get_by_label("Name").fill("tomas")
    page.get_by_label("Password").fill("six loud magpies")
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Choose a password that only you know")

    assert seen.complaints == []
    assert seen.elsewhere == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_every_page_fits_its_screen_and_a_thumb(browser: Browser, served: Served, size: dict[str, int], scheme: str):
    seen = Watched(browser, served, size, scheme)
    page = seen.page
    page.goto(f"{served.address}first-run/", wait_until="networkidle")
    look(page, "first-run", size, scheme)
    make_owner(page, served)
    page.wait_for_load_state("networkidle")
    pages = {
        "today": "",
        "people": "people/",
        "person": "people/1/",
        "audit": "audit/",
        "audit-check": "audit/check/",
        "password": "password/",
        "sign-in": "sign-in/",
    }
    for name, path in pages.items():
        page.goto(served.address + path, wait_until="networkidle")
        look(page, name, size, scheme)
    assert seen.complaints == []
    assert seen.elsewhere == []


def look(page: Page, name: str, size: dict[str, int], scheme: str) -> None:
    """Measure a page, and keep a picture of it where somebody wants one."""
    page.evaluate("document.fonts.ready")
    if PICTURES:
        folder = Path(PICTURES)
        folder.mkdir(parents=True, exist_ok=True)
        page.screenshot(path=folder / f"{name}-{size['width']}-{scheme}.png", full_page=True)
    assert not too_wide(page), name
    assert small_targets(page) == [], name
    assert re.match(r".+ · Pellicle$", page.title())
