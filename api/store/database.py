"""One SQLite file: how it is opened, brought up to date and written in transactions."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from api.store.migrations import MIGRATIONS, Migration

BUSY_SECONDS = 20.0
RECORD = """CREATE TABLE IF NOT EXISTS migrations (
    number INTEGER PRIMARY KEY, name TEXT NOT NULL, done_at TEXT NOT NULL
) STRICT"""


class NewerDatabaseError(Exception):
    """The file was written by a later release than this one."""


def connect(path: Path, *, of_one_thread: bool = True) -> sqlite3.Connection:
    """Open the file so that what is committed survives a power cut, and what is erased is overwritten."""
    connection = sqlite3.connect(
        path, timeout=BUSY_SECONDS, isolation_level=None, check_same_thread=of_one_thread
    )
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA secure_delete = ON")
    connection.execute("PRAGMA foreign_keys = ON")
    return connection


@contextmanager
def writing(connection: sqlite3.Connection) -> Iterator[None]:
    """All or nothing: the write lock is taken at once, so that what is read inside stays true."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


@contextmanager
def reading(connection: sqlite3.Connection) -> Iterator[None]:
    """Several reads of one and the same state; inside a transaction, of that one's."""
    if connection.in_transaction:
        yield
        return
    connection.execute("BEGIN")
    try:
        yield
    finally:
        connection.execute("COMMIT")


def bring_up_to_date(connection: sqlite3.Connection, migrations: tuple[Migration, ...] = MIGRATIONS) -> None:
    """Run the steps that this file has not seen, each in one transaction with its record."""
    with writing(connection):
        connection.execute(RECORD)
    if _done(connection) - {migration.number for migration in migrations}:
        raise NewerDatabaseError("The data folder was written by a later release; use that one.")
    for migration in migrations:
        with writing(connection):
            if migration.number not in _done(connection):
                _run(connection, migration)


def _done(connection: sqlite3.Connection) -> set[int]:
    return {number for (number,) in connection.execute("SELECT number FROM migrations")}


def _run(connection: sqlite3.Connection, migration: Migration) -> None:
    for statement in migration.statements:
        connection.execute(statement)
    row = (migration.number, migration.name, datetime.now(UTC).isoformat(timespec="seconds"))
    connection.execute("INSERT INTO migrations VALUES (?, ?, ?)", row)
