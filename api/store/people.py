"""The people of the workshop. Nobody is deleted: operations name them for ever; who leaves cannot sign in."""

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class Person:
    """Someone with an account; `password` is its hash."""

    id: str
    name: str
    role: str
    password: str
    since: str
    left_at: str | None


class NameTakenError(Exception):
    """Another person has this name."""


def add(connection: sqlite3.Connection, person: Person) -> None:
    """Open an account.

    Raises
    ------
    NameTakenError
        names are how people sign in, so each is there once, whatever its capitals
    """
    try:
        connection.execute(
            "INSERT INTO people (id, name, role, password, since, left_at) VALUES (?, ?, ?, ?, ?, ?)",
            (person.id, person.name, person.role, person.password, person.since, person.left_at),
        )
    except sqlite3.IntegrityError:
        raise NameTakenError from None


def find(connection: sqlite3.Connection, one: str) -> Person | None:
    """The person of that id, or None."""
    return _one(connection.execute(f"{_SELECT} WHERE id = ?", (one,)))


def named(connection: sqlite3.Connection, name: str) -> Person | None:
    """The person who signs in by that name, or None."""
    return _one(connection.execute(f"{_SELECT} WHERE name = ?", (name,)))


def everyone(connection: sqlite3.Connection) -> list[Person]:
    """All, by name, with those who left."""
    return [Person(*row) for row in connection.execute(f"{_SELECT} ORDER BY name")]


def is_empty(connection: sqlite3.Connection) -> bool:
    """Whether no account was ever opened."""
    return connection.execute("SELECT 1 FROM people LIMIT 1").fetchone() is None


def owners(connection: sqlite3.Connection) -> int:
    """How many owners can sign in."""
    row = connection.execute(
        "SELECT COUNT(*) FROM people WHERE role = 'owner' AND left_at IS NULL"
    ).fetchone()
    return int(row[0])


def set_password(connection: sqlite3.Connection, one: str, password: str) -> None:
    """Keep another hash."""
    connection.execute("UPDATE people SET password = ? WHERE id = ?", (password, one))


def set_role(connection: sqlite3.Connection, one: str, role: str) -> None:
    """Give another role."""
    connection.execute("UPDATE people SET role = ? WHERE id = ?", (role, one))


def set_left(connection: sqlite3.Connection, one: str, at: str | None) -> None:
    """Close an account, or open it again."""
    connection.execute("UPDATE people SET left_at = ? WHERE id = ?", (at, one))


_SELECT = "SELECT id, name, role, password, since, left_at FROM people"


def _one(rows: sqlite3.Cursor) -> Person | None:
    row = rows.fetchone()
    return Person(*row) if row else None
