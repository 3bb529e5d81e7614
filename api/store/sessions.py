"""Who is signed in, from where and since when. Of a token only its hash is kept."""

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class Session:
    """One sign-in. `phone` is the paired phone that it came from, or None for a browser at a desk."""

    id: str
    token_sha256: str
    person: str
    phone: str | None
    began_at: str
    seen_at: str
    browser: str


def add(connection: sqlite3.Connection, session: Session) -> None:
    """Keep a session that began."""
    connection.execute(
        "INSERT INTO sessions (id, token_sha256, person, phone, began_at, seen_at, browser)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        (
            session.id,
            session.token_sha256,
            session.person,
            session.phone,
            session.began_at,
            session.seen_at,
            session.browser,
        ),
    )


def by_token(connection: sqlite3.Connection, token_sha256: str) -> Session | None:
    """The session of that token, or None."""
    row = connection.execute(f"{_SELECT} WHERE token_sha256 = ?", (token_sha256,)).fetchone()
    return Session(*row) if row else None


def of_person(connection: sqlite3.Connection, person: str) -> list[Session]:
    """A person's sessions, the one seen last first."""
    rows = connection.execute(f"{_SELECT} WHERE person = ? ORDER BY seen_at DESC, id", (person,))
    return [Session(*row) for row in rows]


def see(connection: sqlite3.Connection, one: str, at: str) -> None:
    """Note that the session was used."""
    connection.execute("UPDATE sessions SET seen_at = ? WHERE id = ?", (at, one))


def end(connection: sqlite3.Connection, one: str, person: str) -> bool:
    """End a session of that person; False where there is none."""
    return connection.execute("DELETE FROM sessions WHERE id = ? AND person = ?", (one, person)).rowcount > 0


def end_of_person(connection: sqlite3.Connection, person: str, but: str = "") -> None:
    """End all sessions of a person, but one."""
    connection.execute("DELETE FROM sessions WHERE person = ? AND id <> ?", (person, but))


def end_of_phone(connection: sqlite3.Connection, phone: str) -> None:
    """End all sessions of a phone."""
    connection.execute("DELETE FROM sessions WHERE phone = ?", (phone,))


_SELECT = "SELECT id, token_sha256, person, phone, began_at, seen_at, browser FROM sessions"
