"""Signing in by name and password, and changing the password."""

from flask import request

from api.context import connection, context
from api.errors import Problem
from api.people import limits, passwords, session, trail
from api.people.language import tell
from api.store import database, people, sessions
from api.store.people import Person
from api.words import USUAL, text


def sign_in(name: str, password: str) -> Person:
    """Begin a session for the person of that name.

    Raises
    ------
    Problem
        401 where name and password do not fit, whichever is wrong; 429 after too many wrong ones
    """
    person = prove(name, password)
    with database.writing(connection()):
        session.begin(person, session.phone())
        trail.note("did.signed_in", who=person)
    return person


def prove(name: str, password: str) -> Person:
    """The person of that name, once the password is theirs; counted as an attempt."""
    phone = session.phone()
    subjects = (limits.account(name, phone.id if phone else None), limits.source(request.remote_addr or "::"))
    with database.writing(connection()):
        limits.count(connection(), context().clock(), *subjects)
    person = people.named(connection(), name)
    is_right = passwords.matches(person.password if person else None, password)
    if person is None or not is_right or person.left_at is not None:
        trail.note("did.not_signed_in", about=person.name if person else text(USUAL, "about.unknown_name"))
        raise Problem(401, "wrong", tell("problem.wrong"))
    with database.writing(connection()):
        limits.forget(connection(), *subjects)
        if passwords.is_dated(person.password):
            people.set_password(connection(), person.id, passwords.hashed(password))
    return person


def change_password(person: Person, present: str, new: str) -> None:
    """Set another password; every other session of the person ends."""
    prove(person.name, present)
    kept = passwords.hashed(new)
    here = session.current()
    with database.writing(connection()):
        people.set_password(connection(), person.id, kept)
        sessions.end_of_person(connection(), person.id, but=here.id if here else "")
        trail.note("did.changed_password")
