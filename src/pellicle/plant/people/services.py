"""What is done with people, one verb each: one transaction, one sentence in the audit."""

from __future__ import annotations

from django.db import transaction

from pellicle.errors import InputError
from pellicle.message import message
from pellicle.plant.audit.chain import By, append, by
from pellicle.plant.people.models import Person, key
from pellicle.plant.roles.table import Role


@transaction.atomic
def make_owner(name: str, password: str) -> Person:
    """Make the first person, the owner; InputError if somebody was quicker."""
    if Person.objects.exists():
        raise InputError("plant_people.has_owner", field="name")
    person = Person(name=_tidy(name), role=Role.OWNER)
    person.set_password(password)
    person.save()
    append(message("plant_audit.owner_made", name=person.name), by(person), subject(person))
    return person


@transaction.atomic
def add_person(name: str, role: Role, password: str, who: Person) -> Person:
    """Add somebody with a password to begin with, which they change when they first sign in."""
    if Person.objects.filter(name_key=key(name)).exists():
        raise InputError("plant_people.name_taken", field="name", name=_tidy(name))
    person = Person(name=_tidy(name), role=role, password_given=True)
    person.set_password(password)
    person.save()
    append(
        message("plant_audit.person_added", who=who.name, name=person.name, role=role.value), by(who), subject(person)
    )
    return person


@transaction.atomic
def set_role(person: Person, role: Role, who: Person) -> None:
    """Give somebody another role; the last owner stays one."""
    before = person.role
    if before == role:
        return
    _keep_an_owner(person)
    person.role = role
    person.save()
    told = message("plant_audit.role_set", who=who.name, name=person.name, before=before, role=role.value)
    append(told, by(who), subject(person))


@transaction.atomic
def set_pin(person: Person, pin: str, who: Person) -> None:
    """Set the PIN with which somebody, after tapping their name, signs entries on a shared phone."""
    person.set_pin(pin)
    person.save()
    append(message("plant_audit.pin_set", who=who.name, name=person.name), by(who), subject(person))


@transaction.atomic
def set_active(person: Person, active: bool, who: Person) -> None:
    """Put somebody out of use, which signs them out everywhere, or back in."""
    if person.is_active == active:
        return
    if not active:
        _keep_an_owner(person)
    person.is_active = active
    person.save()
    told = message(f"plant_audit.person_{'back' if active else 'out'}", who=who.name, name=person.name)
    append(told, by(who), subject(person))


@transaction.atomic
def give_password(person: Person, password: str, who: Person) -> None:
    """Give somebody who forgot theirs a new password to begin with; it ends their sessions."""
    person.set_password(password)
    person.password_given = True
    person.save()
    append(message("plant_audit.password_given", who=who.name, name=person.name), by(who), subject(person))


@transaction.atomic
def change_own_password(person: Person, password: str) -> None:
    """Change one's own password; it ends one's other sessions."""
    person.set_password(password)
    person.password_given = False
    person.save()
    append(message("plant_audit.password_changed", who=person.name), by(person), subject(person))


def tell_signed_in(person: Person, alone: bool) -> None:
    """Tell the audit that somebody came in, with a password or as the only person of a plant on its own machine."""
    kind = "signed_in_alone" if alone else "signed_in"
    append(message(f"plant_audit.{kind}", who=person.name), by(person), subject(person))


def tell_signed_out(person: Person) -> None:
    """Tell the audit that somebody left."""
    append(message("plant_audit.signed_out", who=person.name), by(person), subject(person))


def tell_shut_out(name: str, address: str) -> None:
    """Tell the audit that a name has failed so often that it has to wait."""
    append(message("plant_audit.shut_out", name=_tidy(name), address=address), By("the server"))


def subject(person: Person) -> str:
    """Return what the audit calls a person it tells of."""
    return f"person:{person.pk}"


def is_last_owner(person: Person) -> bool:
    """Return whether the plant would be without an owner if this person were none."""
    others = Person.objects.filter(role=Role.OWNER, is_active=True).exclude(pk=person.pk)
    return person.role == Role.OWNER and person.is_active and not others.exists()


def _tidy(name: str) -> str:
    return " ".join(name.split())


def _keep_an_owner(person: Person) -> None:
    if is_last_owner(person):
        raise InputError("plant_people.last_owner", field="role", name=person.name)
