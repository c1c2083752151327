"""The permission table: role by action. What is not listed is refused."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Role(StrEnum):
    """What a person is in the plant."""

    MAKER = "maker"  # works on the floor and makes entries
    LEAD = "lead"  # reviews and releases as well
    OWNER = "owner"  # keeps people and settings as well
    READER = "reader"  # looks, for an inspection, and changes nothing


class Action(StrEnum):
    """What a page lets somebody do."""

    SEE_TODAY = "see today"
    KEEP_OWN_PASSWORD = "keep their own password"
    SEE_AUDIT = "see the audit"
    MANAGE_PEOPLE = "manage people"


_EVERYBODY = frozenset({Action.SEE_TODAY, Action.KEEP_OWN_PASSWORD})

MAY: Mapping[Role, frozenset[Action]] = MappingProxyType(
    {
        Role.MAKER: _EVERYBODY,
        Role.LEAD: _EVERYBODY,
        Role.OWNER: _EVERYBODY | {Action.SEE_AUDIT, Action.MANAGE_PEOPLE},
        Role.READER: _EVERYBODY | {Action.SEE_AUDIT},
    }
)
