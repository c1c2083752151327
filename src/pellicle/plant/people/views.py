"""Coming in and going out: the first page, signing in, signing out, one's own password."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import authenticate, update_session_auth_hash
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from pellicle.errors import InputError
from pellicle.plant.people import first_run as token
from pellicle.plant.people import services, throttle
from pellicle.plant.people.forms import FirstOwner, OwnPassword, SignIn, sent, words
from pellicle.plant.people.models import Person
from pellicle.plant.people.sessions import enter, leave, person_of
from pellicle.plant.roles.permission import allowed, open_to_all
from pellicle.plant.roles.table import Action

WRONG, TOO_MANY = 422, 429


@open_to_all
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def first_run(request: HttpRequest) -> HttpResponse:
    """Make the owner, once, for whoever can read the terminal."""
    if Person.objects.exists():
        return redirect("today")
    form = FirstOwner(sent(request), initial={"token": request.GET.get("token", "")})
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        address = request.META["REMOTE_ADDR"]
        if throttle.must_wait("", address):
            return _refused(request, "people/first_run.html", form, "token", words("wait"), TOO_MANY)
        if not token.fits(settings.DATA, given["token"]):
            throttle.failed("", address)
            return _refused(request, "people/first_run.html", form, "token", words("token_wrong"), WRONG)
        try:
            person = services.make_owner(given["name"], given["password"])
        except InputError:
            return redirect("today")
        token.spend(settings.DATA)
        enter(request, person)
        return redirect("today")
    return render(request, "people/first_run.html", {"form": form}, status=WRONG if form.errors else 200)


first_run.first_run = True  # type: ignore[attr-defined]  # read by sessions.FirstRun


@open_to_all
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Let somebody in by name and password."""
    form = SignIn(sent(request))
    following = request.POST.get("next") or request.GET.get("next", "")
    if request.method == "POST" and form.is_valid():
        name, address = form.cleaned_data["name"], request.META["REMOTE_ADDR"]
        if throttle.must_wait(name, address):
            return _refused(request, "people/sign_in.html", form, "password", words("wait"), TOO_MANY)
        person = authenticate(request, username=name, password=form.cleaned_data["password"])
        if isinstance(person, Person):
            with transaction.atomic():
                throttle.succeeded(name, address)
                enter(request, person)
            here = url_has_allowed_host_and_scheme(following, {request.get_host()}, request.is_secure())
            return redirect(following if here else "today")
        with transaction.atomic():
            if throttle.failed(name, address):
                services.tell_shut_out(name, address)
        return _refused(request, "people/sign_in.html", form, "password", words("sign_in_wrong"), WRONG)
    shown = {"form": form, "next": following}
    return render(request, "people/sign_in.html", shown, status=WRONG if form.errors else 200)


@allowed(Action.KEEP_OWN_PASSWORD)
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Let somebody go."""
    services.tell_signed_out(person_of(request))
    leave(request)
    return redirect("sign-in")


@allowed(Action.KEEP_OWN_PASSWORD)
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def own_password(request: HttpRequest) -> HttpResponse:
    """Change one's own password."""
    form = OwnPassword(sent(request))
    form.person = person = person_of(request)
    address = request.META["REMOTE_ADDR"]
    if request.method == "POST" and throttle.must_wait(person.name, address):
        return _refused(request, "people/own_password.html", form, "now", words("wait"), TOO_MANY)
    if request.method == "POST" and form.is_valid():
        services.change_own_password(person, form.cleaned_data["password"])
        update_session_auth_hash(request, person)
        messages.success(request, words("password_changed"))
        return redirect("today")
    if "now" in form.errors:
        throttle.failed(person.name, address)
    return render(request, "people/own_password.html", {"form": form}, status=WRONG if form.errors else 200)


def _refused(
    request: HttpRequest, template: str, form: FirstOwner | SignIn | OwnPassword, field: str, why: str, status: int
) -> HttpResponse:
    form.full_clean()
    form.add_error(field, why)
    return render(request, template, {"form": form, "next": request.POST.get("next", "")}, status=status)
