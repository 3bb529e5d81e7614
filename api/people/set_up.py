"""The first run: the workshop's name and the first account. Before it there is no way in, and no password."""

import secrets
import uuid
from typing import Any

from flask import request

from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.people import limits, passwords, session, trail
from api.people.language import tell
from api.people.tokens import code_digest
from api.store import database, people, settings
from api.store.people import Person


def is_needed() -> bool:
    """Whether no account was opened yet."""
    return people.is_empty(connection())


def needs_code() -> bool:
    """Whether the code that the server printed is asked for: not on loopback."""
    return context().reached.set_up_code is not None


def check_code(typed: str) -> None:
    """Hold what was typed against the code that the server printed where it was started.

    Without it a stranger on the Wi-Fi could be the first. On loopback there is none.
    """
    wanted = context().reached.set_up_code
    if wanted is None:
        return
    with database.writing(connection()):
        limits.count(connection(), context().clock(), limits.source(request.remote_addr or "::"))
    if not secrets.compare_digest(code_digest(typed), code_digest(wanted)):
        raise Problem(403, "wrong_code", tell("problem.wrong_set_up_code"))


def set_up(workshop: dict[str, Any], name: str, password: str) -> Person:
    """Write down the workshop and open the first account, an owner's, all at once."""
    owner = new_person(name, "owner", password)
    with database.writing(connection()):
        if not people.is_empty(connection()):
            raise Problem(409, "was_set_up", tell("problem.was_set_up"))
        settings.write(connection(), "workshop", workshop)
        people.add(connection(), owner)
        session.begin(owner, None)
        trail.note("did.set_up", who=owner)
    return owner


def new_person(name: str, role: str, password: str) -> Person:
    """An account that is not kept yet."""
    since = stamp(context().clock())
    return Person(str(uuid.uuid4()), name, role, passwords.hashed(password), since, None)
