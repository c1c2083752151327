"""What the frame of every page needs: who looks at it, which pages are theirs, the day, and whether fonts are there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.http import HttpRequest
from django.urls import reverse

from pellicle.message import message, say
from pellicle.plant import assets
from pellicle.plant.roles.permission import may
from pellicle.plant.roles.table import Action, Role


@dataclass(frozen=True, slots=True)
class Link:
    """A link of the frame: where to, its words, and whether this is the page."""

    url: str
    words: str
    here: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """What the top of a page shows."""

    links: tuple[Link, ...]
    today: str
    who: str
    fonts: bool


# in the order of the work; a page that is not there yet is told on Today
PAGES = (
    ("today", "plant.nav_today", Action.SEE_TODAY),
    ("people", "plant.nav_people", Action.MANAGE_PEOPLE),
    ("audit", "plant.nav_audit", Action.SEE_AUDIT),
)


def every_page(request: HttpRequest) -> dict[str, Frame]:
    """Return the frame; pages that this person may not open are not offered."""
    user = getattr(request, "user", None)
    links = tuple(
        Link(url, say(message(words)), request.path == url or (url != "/" and request.path.startswith(url)))
        for name, words, action in PAGES
        if may(user, action)
        for url in [reverse(name)]
    )
    who = ""
    if user is not None and user.is_authenticated:
        who = say(message("plant.who", name=user.name, role=say(message(f"plant.role_{Role(user.role)}"))))
    now = datetime.now().astimezone()
    return {"frame": Frame(links, f"{now:%A} {now.day} {now:%B}, {now:%H:%M}", who, assets.built())}
