"""The audit trail: who did what, when. It is only added to; the database itself refuses all else."""

import sqlite3
from dataclasses import dataclass

PAGE = 100


@dataclass(frozen=True)
class Entry:
    """One deed. `name` is the person's name at the time; `about` names its object, never a customer."""

    number: int
    at: str
    person: str
    name: str
    did: str
    about: str


def add(connection: sqlite3.Connection, at: str, person: tuple[str, str], did: str, about: str) -> None:
    """Write down that `person` (id, name) did something."""
    connection.execute(
        "INSERT INTO audit (at, person, name, did, about) VALUES (?, ?, ?, ?, ?)", (at, *person, did, about)
    )


def says(connection: sqlite3.Connection, did: str, about: str) -> bool:
    """Whether the trail has that deed of that object."""
    found = connection.execute("SELECT 1 FROM audit WHERE did = ? AND about = ? LIMIT 1", (did, about))
    return found.fetchone() is not None


def latest(connection: sqlite3.Connection, before: int | None = None) -> list[Entry]:
    """A page of the trail, the latest first, from before a number on."""
    rows = connection.execute(
        "SELECT number, at, person, name, did, about FROM audit WHERE number < ?"
        " ORDER BY number DESC LIMIT ?",
        (before or 2**62, PAGE),
    )
    return [Entry(*row) for row in rows]
