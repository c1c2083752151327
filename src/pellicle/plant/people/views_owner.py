"""The owner's pages: who is in the plant, and one person."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django import forms
from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from pellicle.errors import InputError
from pellicle.plant.people import services
from pellicle.plant.people.forms import AddPerson, NewPassword, SetPin, SetRole, sent, words
from pellicle.plant.people.models import Person
from pellicle.plant.people.sessions import person_of
from pellicle.plant.roles.permission import allowed
from pellicle.plant.roles.table import Action

WRONG = 422


@allowed(Action.MANAGE_PEOPLE)
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def people(request: HttpRequest) -> HttpResponse:
    """Show everybody, and add somebody."""
    form = AddPerson(sent(request))
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        try:
            person = services.add_person(given["name"], given["role"], given["password"], person_of(request))
        except InputError as error:
            form.add_error("name", str(error))
        else:
            messages.success(request, words("added", name=person.name))
            return redirect("people")
    everybody = Person.objects.all()
    shown = {"form": form, "people": everybody, "active": sum(person.is_active for person in everybody)}
    return render(request, "people/people.html", shown, status=WRONG if form.errors else 200)


@allowed(Action.MANAGE_PEOPLE)
@require_http_methods(["GET", "HEAD"])
def person(request: HttpRequest, number: int) -> HttpResponse:
    """Show one person and what can be changed."""
    return _page(request, get_object_or_404(Person, pk=number), {})


@allowed(Action.MANAGE_PEOPLE)
@require_POST
def set_role(request: HttpRequest, number: int) -> HttpResponse:
    """Give a person another role."""
    form = SetRole(request.POST)
    return _change(
        request, number, "role_form", form, lambda one, given: services.set_role(one, given["role"], person_of(request))
    )


@allowed(Action.MANAGE_PEOPLE)
@sensitive_post_parameters()
@require_POST
def set_pin(request: HttpRequest, number: int) -> HttpResponse:
    """Set a person's PIN."""
    form = SetPin(request.POST)
    return _change(
        request, number, "pin_form", form, lambda one, given: services.set_pin(one, given["pin"], person_of(request))
    )


@allowed(Action.MANAGE_PEOPLE)
@sensitive_post_parameters()
@require_POST
def give_password(request: HttpRequest, number: int) -> HttpResponse:
    """Give a person a password to begin with."""
    form = NewPassword(request.POST)
    form.person = get_object_or_404(Person, pk=number)

    def change(one: Person, given: dict[str, Any]) -> None:
        services.give_password(one, given["password"], person_of(request))
        if one == person_of(request):
            update_session_auth_hash(request, one)

    return _change(request, number, "password_form", form, change)


@allowed(Action.MANAGE_PEOPLE)
@require_POST
def set_active(request: HttpRequest, number: int) -> HttpResponse:
    """Put a person out of use, or back."""
    active = request.POST.get("active") == "yes"
    return _change(
        request, number, "active_form", forms.Form(request.POST),
        lambda one, given: services.set_active(one, active, person_of(request)),
    )  # fmt: skip


def _change(
    request: HttpRequest,
    number: int,
    name: str,
    form: forms.Form,
    change: Callable[[Person, dict[str, Any]], None],
) -> HttpResponse:
    """Make one change, or show the page again with what is wrong at its field."""
    one = get_object_or_404(Person, pk=number)
    if form.is_valid():
        try:
            change(one, form.cleaned_data)
        except InputError as error:
            form.add_error(error.field if error.field in form.fields else None, str(error))
        else:
            messages.success(request, words("kept", name=one.name))
            return redirect("person", number)
    return _page(request, Person.objects.get(pk=number), {name: form})


def _page(request: HttpRequest, one: Person, tried: dict[str, forms.Form]) -> HttpResponse:
    shown: dict[str, Any] = {
        "one": one,
        "last_owner": services.is_last_owner(one),
        "role_form": SetRole(initial={"role": one.role}),
        "pin_form": SetPin(),
        "password_form": NewPassword(),
        "active_form": forms.Form(),
    }
    return render(request, "people/person.html", {**shown, **tried}, status=WRONG if tried else 200)
