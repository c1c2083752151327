"""What people type about people, checked field by field; what was typed stays, but for passwords."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from django import forms
from django.contrib.auth.password_validation import validate_password
from django.http import HttpRequest, QueryDict

from pellicle.message import message, say
from pellicle.plant.people.models import LONGEST_NAME, Person
from pellicle.plant.roles.table import Role

SHORTEST_PIN, LONGEST_PIN = 4, 8


def words(id: str, **values: str | int) -> str:
    """Return the words of a label or an error of these forms."""
    return say(message(f"plant_people.{id}", **values))


def sent(request: HttpRequest) -> QueryDict | None:
    """Return what was sent with a form, however little, or None where the form is only shown."""
    return request.POST if request.method == "POST" else None


class NameField(forms.CharField):
    """A person's name."""

    def __init__(self, **options: Any) -> None:
        super().__init__(label=words("name"), max_length=LONGEST_NAME, **options)
        self.widget.attrs["autocomplete"] = "username"


class PasswordField(forms.CharField):
    """A password: as typed, spaces included."""

    def __init__(self, label: str, autocomplete: str, **options: Any) -> None:
        widget = forms.PasswordInput(attrs={"autocomplete": autocomplete})
        super().__init__(label=words(label), strip=False, max_length=256, widget=widget, **options)


class SignIn(forms.Form):
    """Name and password."""

    name = NameField()
    password = PasswordField("password", "current-password")


class NewPassword(forms.Form):
    """A password that is chosen now, typed twice."""

    password = PasswordField("new_password", "new-password", help_text=words("password_help"))
    again = PasswordField("again", "new-password")

    person: Person | None = None

    def clean(self) -> dict[str, Any]:
        """Refuse a weak password, and two that differ."""
        cleaned = super().clean() or {}
        password, again = cleaned.get("password"), cleaned.get("again")
        if password and again and password != again:
            self.add_error("again", words("not_the_same"))
        elif password:
            try:
                validate_password(password, self.person or Person(name=cleaned.get("name", "")))
            except forms.ValidationError as error:
                self.add_error("password", error)
        return cleaned


class FirstOwner(NewPassword):
    """The first page: the token of the terminal, and who the owner is."""

    token = forms.CharField(label=words("token"), max_length=40, help_text=words("token_help"))
    name = NameField(help_text=words("name_help"))

    field_order = ("token", "name", "password", "again")


class OwnPassword(NewPassword):
    """Changing one's own password."""

    now = PasswordField("password_now", "current-password")

    field_order = ("now", "password", "again")

    def clean_now(self) -> str:
        """Refuse what is not the password of now."""
        now: str = self.cleaned_data["now"]
        if self.person is None or not self.person.check_password(now):
            raise forms.ValidationError(words("password_wrong"))
        return now


class RoleField(forms.TypedChoiceField):
    """One of the roles, each with what it may do."""

    def __init__(self, label: str = "role") -> None:
        choices = [(role.value, say(message(f"plant.role_{role.value}_may"))) for role in Role]
        super().__init__(label=words(label), choices=choices, coerce=Role, widget=forms.RadioSelect)


class AddPerson(NewPassword):
    """Somebody new, with a password to begin with."""

    name = NameField()
    role = RoleField()

    field_order = ("name", "role", "password", "again")


class SetRole(forms.Form):
    """Another role for somebody."""

    role = RoleField("role_may")


class SetPin(forms.Form):
    """A short PIN for the shared phone."""

    pin = forms.RegexField(
        rf"^\d{{{SHORTEST_PIN},{LONGEST_PIN}}}$",
        label=words("pin"),
        help_text=words("pin_help", low=SHORTEST_PIN, high=LONGEST_PIN),
        error_messages={"invalid": words("pin_form", low=SHORTEST_PIN, high=LONGEST_PIN)},
        widget=forms.PasswordInput(attrs={"inputmode": "numeric", "autocomplete": "off"}),
    )

    def clean_pin(self) -> str:
        """Refuse what anybody tries first."""
        pin: str = self.cleaned_data["pin"]
        steps = {(int(after) - int(before)) % 10 for before, after in pairwise(pin)}
        if len(steps) == 1 and steps <= {0, 1, 9}:
            raise forms.ValidationError(words("pin_simple"))
        return pin
