"""Names as people type them: case, spaces, hyphens and a plural s do not matter, and a typo gets near matches."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable

NEAR_MATCHES = 4
# Share of letters in common from which a name is offered; difflib's own default. assumed: common practice
NEAR_FROM = 0.6
SHORTEST_PLURAL = 4


def key(name: str) -> str:
    """Return the form of a name under which it is looked up.

    >>> key("  Beef  Top-Rounds "), key("cloves") == key("clove")
    ('beef top round', True)
    """
    words = re.sub(r"[\s\-_]+", " ", name.casefold().replace("’", "'")).strip().split(" ")
    return " ".join(_singular(word) for word in words)


def _singular(word: str) -> str:
    if len(word) < SHORTEST_PLURAL or word.endswith("ss") or not word.endswith("s"):
        return word
    return word[:-3] + "y" if word.endswith("ies") else word[:-1]


def near(name: str, names: Iterable[str]) -> tuple[str, ...]:
    """Return at most four of ``names`` that somebody who typed ``name`` may have meant, the likeliest first.

    Names that contain every word typed come first, then those whose letters are most alike.

    >>> near("top round", ["beef top round", "beef eye of round", "salt"])
    ('beef top round',)
    >>> near("brwn sugar", ["brown sugar", "salt"])
    ('brown sugar',)
    """
    by_key = {key(entry): entry for entry in names}
    wanted = key(name)
    words = set(wanted.split(" "))
    holding = [entry for entry in by_key if wanted and words <= set(entry.split(" "))]
    alike = difflib.get_close_matches(wanted, by_key, n=NEAR_MATCHES, cutoff=NEAR_FROM)
    found = dict.fromkeys([*sorted(holding, key=len), *alike])
    return tuple(by_key[entry] for entry in list(found)[:NEAR_MATCHES])
