"""The headers of every answer: what a page may load (its own files, nothing inline), and that nobody else keeps it."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

CONTENT_SECURITY_POLICY = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]
)
PERMISSIONS_POLICY = "camera=(), microphone=(), geolocation=(), payment=(), usb=()"

Answer = Callable[[HttpRequest], HttpResponse]


def headers(answer: Answer) -> Answer:
    """Wrap the whole site, the files beside the pages included."""

    def with_headers(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        response.headers["Content-Security-Policy"] = CONTENT_SECURITY_POLICY
        response.headers["Permissions-Policy"] = PERMISSIONS_POLICY
        response.headers.setdefault("Cache-Control", "no-store")  # a shared phone must not show it to the next person
        return response

    return with_headers
