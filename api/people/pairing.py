"""Pairing a phone: a code that is good once and for ten minutes, shown at the desk and typed on the phone."""

import uuid
from datetime import timedelta

from flask import request

from api.clock import moment, stamp
from api.context import connection, context
from api.errors import Problem
from api.people import limits, session, trail
from api.people.language import tell
from api.people.tokens import code, code_digest, digest, token
from api.store import database, people, phones, sessions
from api.store.people import Person
from api.store.phones import PairedPhone

GOOD_FOR = timedelta(minutes=10)


def new_code(person: Person) -> str:
    """A code for a phone of that person; an earlier one is no longer good."""
    secret = code()
    with database.writing(connection()):
        phones.add_code(connection(), code_digest(secret), person.id, stamp(context().clock()))
        trail.note("did.made_code", about=person.name)
    return secret


def pair(typed: str, name: str) -> str:
    """Pair the phone that asks and sign its person in; the secret for the phone's cookie.

    Raises
    ------
    Problem
        403 where the code is wrong, used or too old; 429 after too many of those
    """
    now = context().clock()
    subjects = (limits.source(request.remote_addr or "::"), limits.CODES)
    with database.writing(connection()):
        limits.count(connection(), now, *subjects)
        taken = phones.take_code(connection(), code_digest(typed))
    person = people.find(connection(), taken[0]) if taken else None
    if taken is None or person is None or person.left_at or now - moment(taken[1]) >= GOOD_FOR:
        raise Problem(403, "wrong_code", tell("problem.wrong_code"))
    return _paired(person, name)


def _paired(person: Person, name: str) -> str:
    secret = token()
    paired_at = stamp(context().clock())
    phone = PairedPhone(str(uuid.uuid4()), name, person.id, digest(secret), paired_at, None, None)
    with database.writing(connection()):
        limits.forget(connection(), limits.source(request.remote_addr or "::"))
        phones.add(connection(), phone)
        session.begin(person, phone)
        trail.note("did.paired", about=name, who=person)
    return secret


def revoke(phone: PairedPhone) -> None:
    """Shut a phone out: nothing more is taken from it, and nobody is signed in on it any more."""
    with database.writing(connection()):
        phones.revoke(connection(), phone.id, stamp(context().clock()))
        sessions.end_of_phone(connection(), phone.id)
        trail.note("did.revoked", about=phone.name)
