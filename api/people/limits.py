"""How often a guess may fail: counted for the account, for the address it came from, for codes as a whole.

A paired phone has a count of its own, so that a stranger who locks an account from the yard does not lock the
technician's phone out.
"""

import ipaddress
import sqlite3
from dataclasses import dataclass
from datetime import datetime, timedelta

from api.clock import stamp
from api.errors import Problem
from api.people.language import tell
from api.people.tokens import digest
from api.store import attempts

WINDOW = timedelta(minutes=15)


@dataclass(frozen=True)
class Subject:
    """What is counted, and how many failures within the window shut it."""

    name: str
    most: int


def account(name: str, phone: str | None) -> Subject:
    """Guesses at one account. What was typed is kept as a hash: people type passwords there by mistake."""
    return Subject(f"account {digest(name.casefold())[:32]} {phone or 'desk'}", 10)


def source(address: str) -> Subject:
    """Guesses from one address; of IPv6 a whole network counts as one (RFC 4291, 2.5.4)."""
    found = ipaddress.ip_address(address)
    if found.version == 6:
        found = ipaddress.ip_network(f"{address}/64", strict=False).network_address
    return Subject(f"from {found}", 30)


CODES = Subject("codes", 200)


def count(connection: sqlite3.Connection, now: datetime, *subjects: Subject) -> None:
    """Count an attempt before it is looked at, so that many at once are all counted.

    Raises
    ------
    Problem
        429 where one of the subjects is shut
    """
    attempts.forget_before(connection, stamp(now - WINDOW))
    for subject in subjects:
        if attempts.since(connection, subject.name, stamp(now - WINDOW)) >= subject.most:
            minutes = WINDOW.seconds // 60
            raise Problem(429, "locked", tell("problem.locked", minutes=minutes))
    for subject in subjects:
        attempts.add(connection, subject.name, stamp(now))


def forget(connection: sqlite3.Connection, *subjects: Subject) -> None:
    """It was right: start again at nought."""
    for subject in subjects:
        attempts.forget(connection, subject.name)
