"""Paired phones, and the codes by which they are paired. Of tokens and codes only hashes are kept."""

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class PairedPhone:
    """A phone that may hand in work; `person` is whom it was paired for."""

    id: str
    name: str
    person: str
    token_sha256: str
    paired_at: str
    last_sync_at: str | None
    revoked_at: str | None


def add(connection: sqlite3.Connection, phone: PairedPhone) -> None:
    """Keep a phone that was paired."""
    connection.execute(
        "INSERT INTO phones (id, name, person, token_sha256, paired_at, last_sync_at, revoked_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        (
            phone.id,
            phone.name,
            phone.person,
            phone.token_sha256,
            phone.paired_at,
            phone.last_sync_at,
            phone.revoked_at,
        ),
    )


def by_token(connection: sqlite3.Connection, token_sha256: str) -> PairedPhone | None:
    """The phone of that token, or None."""
    row = connection.execute(f"{_SELECT} WHERE token_sha256 = ?", (token_sha256,)).fetchone()
    return PairedPhone(*row) if row else None


def find(connection: sqlite3.Connection, one: str) -> PairedPhone | None:
    """The phone of that id, or None."""
    row = connection.execute(f"{_SELECT} WHERE id = ?", (one,)).fetchone()
    return PairedPhone(*row) if row else None


def every(connection: sqlite3.Connection) -> list[PairedPhone]:
    """All phones, those in use first, then by name."""
    rows = connection.execute(f"{_SELECT} ORDER BY revoked_at IS NOT NULL, name, paired_at")
    return [PairedPhone(*row) for row in rows]


def synced(connection: sqlite3.Connection, one: str, at: str) -> None:
    """Note when the phone last handed in its work."""
    connection.execute("UPDATE phones SET last_sync_at = ? WHERE id = ?", (at, one))


def revoke(connection: sqlite3.Connection, one: str, at: str) -> None:
    """Shut the phone out; it stays listed."""
    connection.execute("UPDATE phones SET revoked_at = ? WHERE id = ? AND revoked_at IS NULL", (at, one))


def add_code(connection: sqlite3.Connection, code_sha256: str, person: str, made_at: str) -> None:
    """Keep a pairing code for a person; it takes the place of an earlier one."""
    connection.execute("DELETE FROM pairing_codes WHERE person = ?", (person,))
    connection.execute("INSERT INTO pairing_codes VALUES (?, ?, ?)", (code_sha256, person, made_at))


def take_code(connection: sqlite3.Connection, code_sha256: str) -> tuple[str, str] | None:
    """The person and making of a code, which is gone with that; None where there is no such code."""
    taken = connection.execute(
        "DELETE FROM pairing_codes WHERE code_sha256 = ? RETURNING person, made_at", (code_sha256,)
    ).fetchall()
    return taken[0] if taken else None


_SELECT = "SELECT id, name, person, token_sha256, paired_at, last_sync_at, revoked_at FROM phones"
