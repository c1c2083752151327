"""The address of the first screen."""

from __future__ import annotations

from django.urls import path

from pellicle.plant.today.views import today

urlpatterns = [path("", today, name="today")]
