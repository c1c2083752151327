"""The one guard: every view names its action, and is refused on the server to whoever may not.

A view that anybody may open says so with ``open_to_all``; a test finds a view that says neither.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, cast

from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse

from pellicle.message import message, say
from pellicle.plant.roles.table import MAY, Action, Role

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponse]


def may(user: Any, action: Action) -> bool:
    """Return whether this user, who may be nobody, may do that."""
    if user is None or not user.is_authenticated or not user.is_active:
        return False
    return action in MAY[Role(user.role)]


def allowed(action: Action) -> Callable[[View[P]], View[P]]:
    """Guard a view by its action."""

    def guard(view: View[P]) -> View[P]:
        @wraps(view)
        def guarded(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
            if not may(request.user, action):
                raise PermissionDenied(refusal(request.user))
            return view(request, *args, **kwargs)

        guarded.action = action  # type: ignore[attr-defined]  # read by the guard's test and by OwnPassword
        return cast(View[P], guarded)

    return guard


def refusal(user: Any) -> str:
    """Return the sentence of the refusal."""
    role = say(message(f"plant.role_{Role(user.role)}")) if user.is_authenticated else "-"
    return say(message("plant.not_yours", role=role))


def open_to_all(view: View[P]) -> View[P]:
    """Let a view be opened by nobody in particular: signing in, and the first page."""
    view.open_to_all = True  # type: ignore[attr-defined]
    return login_not_required(view)
