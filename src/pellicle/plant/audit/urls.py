"""The addresses of the audit."""

from __future__ import annotations

from django.urls import path

from pellicle.plant.audit import views

urlpatterns = [
    path("", views.audit, name="audit"),
    path("check/", views.check, name="audit-check"),
]
