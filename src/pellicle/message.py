"""Every text shown to a person is a message id with named values, so that a second language is only a second table.

The tables stand in ``messages/<language>/<room>.toml``; an id is ``room.name``. Nothing here depends on a framework.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from types import MappingProxyType

Value = str | float | int
NO_VALUES: Mapping[str, Value] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Message:
    """A text by its id and the values that stand in it; ``say`` turns it into words."""

    id: str
    values: Mapping[str, Value] = field(default_factory=lambda: NO_VALUES)

    def __str__(self) -> str:
        return say(self)


def message(id: str, **values: Value) -> Message:
    """Return the message ``id`` with its named values.

    >>> str(message("message.example", weight="52.3 kg"))
    'Pull at 52.3 kg.'
    """
    return Message(id, MappingProxyType(dict(values)))


def say(text: Message, language: str = "en") -> str:
    """Return the words of ``text`` in ``language``; KeyError if the id or one of its values is missing."""
    return templates(language)[text.id].format(**text.values)


@cache
def templates(language: str = "en") -> Mapping[str, str]:
    """Return every template of a language by message id."""
    folder = files("pellicle") / "messages" / language
    found: dict[str, str] = {}
    for page in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if page.name.endswith(".toml"):
            room = page.name.removesuffix(".toml")
            found.update({f"{room}.{name}": text for name, text in tomllib.loads(page.read_text("utf-8")).items()})
    return MappingProxyType(found)
