"""Slowing down whoever guesses: after a few failures a name, or an address, has to wait."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from pellicle.plant.people.models import Attempt, key

WINDOW = timedelta(minutes=15)
# assumed: a person who mistypes stops before the first number; the others stop guessing across names or places
MOST_BY_NAME_AND_ADDRESS = 5
MOST_BY_NAME = 20
MOST_BY_ADDRESS = 30


def must_wait(name: str, address: str) -> bool:
    """Return whether this name from this address has failed too often of late."""
    recent = Attempt.objects.filter(at__gt=datetime.now(UTC) - WINDOW)
    by_name = recent.filter(name_key=_key(name))
    return (
        by_name.filter(address=address).count() >= MOST_BY_NAME_AND_ADDRESS
        or by_name.count() >= MOST_BY_NAME
        or recent.filter(address=address).count() >= MOST_BY_ADDRESS
    )


def failed(name: str, address: str) -> bool:
    """Count a failure; return whether it was the one that closes the door."""
    now = datetime.now(UTC)
    Attempt.objects.filter(at__lt=now - WINDOW).delete()
    Attempt.objects.create(name_key=_key(name), address=address, at=now)
    return must_wait(name, address)


def succeeded(name: str, address: str) -> None:
    """Forget the failures of somebody who was let in after all."""
    Attempt.objects.filter(name_key=_key(name), address=address).delete()


def _key(name: str) -> str:
    return key(name)[: Attempt._meta.get_field("name_key").max_length]
