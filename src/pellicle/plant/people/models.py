"""The tables of people: who they are, and failed tries to be one of them."""

from __future__ import annotations

from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.contrib.auth.hashers import check_password, make_password
from django.db import models

LONGEST_NAME = 60


class People(BaseUserManager["Person"]):
    """Finds people by the name they type, however they capitalise it."""

    def get_by_natural_key(self, username: str | None) -> Person:
        """Return the person of that name."""
        return self.get(name_key=key(username or ""))


class Person(AbstractBaseUser):
    """Somebody of the plant. People are never removed, since entries carry their names; they are put out of use."""

    name = models.CharField(max_length=LONGEST_NAME)
    name_key = models.CharField(max_length=2 * LONGEST_NAME, unique=True)
    role = models.CharField(max_length=10)  # a Role
    pin = models.CharField(max_length=128, blank=True)  # hashed
    password_given = models.BooleanField(default=False)  # by the owner: to be changed at the first sign-in
    is_active = models.BooleanField(default=True)
    made_at = models.DateTimeField(auto_now_add=True)

    USERNAME_FIELD = "name_key"
    REQUIRED_FIELDS: ClassVar[list[str]] = []
    objects = People()

    class Meta:
        """In the order of the alphabet, as on a list on the wall."""

        db_table = "person"
        ordering = ("name_key",)

    def __str__(self) -> str:
        return self.name

    def save(self, *args: object, **kwargs: object) -> None:
        """Keep the key by which a name is unique."""
        self.name_key = key(self.name)
        super().save(*args, **kwargs)  # type: ignore[arg-type]

    def set_pin(self, pin: str) -> None:
        """Keep the hash of a PIN."""
        self.pin = make_password(pin)

    def check_pin(self, pin: str) -> bool:
        """Return whether that is the PIN; nobody without one has any."""
        return bool(self.pin) and check_password(pin, self.pin)


class Attempt(models.Model):
    """A failed try to sign in, kept for as long as it counts."""

    name_key = models.CharField(max_length=2 * LONGEST_NAME, db_index=True)
    address = models.CharField(max_length=64, db_index=True)
    at = models.DateTimeField(db_index=True)

    class Meta:
        """Kept apart from people: the name may be nobody's."""

        db_table = "sign_in_attempt"

    def __str__(self) -> str:
        return f"{self.name_key} from {self.address}"


def key(name: str) -> str:
    """Return what makes two names the same.

    >>> key("  Inés  Ruiz ")
    'inés ruiz'
    """
    return " ".join(name.split()).casefold()
