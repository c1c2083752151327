"""Every address: one line per application, whose own ``urls`` say the rest."""

from __future__ import annotations

from django.urls import include, path

urlpatterns = [
    path("", include("pellicle.plant.today.urls")),
    path("", include("pellicle.plant.people.urls")),
    path("audit/", include("pellicle.plant.audit.urls")),
]
