"""The addresses of people."""

from __future__ import annotations

from django.urls import path

from pellicle.plant.people import views, views_owner

urlpatterns = [
    path("first-run/", views.first_run, name="first-run"),
    path("sign-in/", views.sign_in, name="sign-in"),
    path("sign-out/", views.sign_out, name="sign-out"),
    path("password/", views.own_password, name="own-password"),
    path("people/", views_owner.people, name="people"),
    path("people/<int:number>/", views_owner.person, name="person"),
    path("people/<int:number>/role/", views_owner.set_role, name="person-role"),
    path("people/<int:number>/pin/", views_owner.set_pin, name="person-pin"),
    path("people/<int:number>/password/", views_owner.give_password, name="person-password"),
    path("people/<int:number>/active/", views_owner.set_active, name="person-active"),
]
