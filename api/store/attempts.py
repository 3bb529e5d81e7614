"""Failed attempts, counted by subject: an account, an address, a phone. They outlive a restart."""

import sqlite3


def add(connection: sqlite3.Connection, subject: str, at: str) -> None:
    """Count one."""
    connection.execute("INSERT INTO attempts (subject, at) VALUES (?, ?)", (subject, at))


def since(connection: sqlite3.Connection, subject: str, at: str) -> int:
    """How many there were after that moment."""
    row = connection.execute(
        "SELECT COUNT(*) FROM attempts WHERE subject = ? AND at > ?", (subject, at)
    ).fetchone()
    return int(row[0])


def forget(connection: sqlite3.Connection, subject: str) -> None:
    """Start again at nought, after a success."""
    connection.execute("DELETE FROM attempts WHERE subject = ?", (subject,))


def forget_before(connection: sqlite3.Connection, at: str) -> None:
    """Drop what no longer counts for anybody."""
    connection.execute("DELETE FROM attempts WHERE at <= ?", (at,))
