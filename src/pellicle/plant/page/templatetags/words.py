"""What templates can say: a text by its id with named values, and a moment as the plant's clock shows it."""

from __future__ import annotations

from datetime import datetime

from django import template

from pellicle.message import message
from pellicle.message import say as words_of

register = template.Library()


@register.simple_tag
def say(id: str, **values: str | float | int) -> str:
    """Return the words of a message id; what stands in it is escaped like any other value."""
    return words_of(message(id, **values))


@register.filter
def moment(at: datetime | None) -> str:
    """Return a moment by the clock of this machine, with the year: it is read in records."""
    if at is None:
        return ""
    here = at.astimezone()
    return f"{here.day} {here:%B %Y, %H:%M}"
