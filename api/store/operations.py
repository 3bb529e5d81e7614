"""The numbered list of operations: appended to, read from, never changed."""

import sqlite3
from dataclasses import dataclass

from api.fold.receipt import running_hash

LARGEST_PAGE = 256 * 1024
LONGEST_PAGE = 200


@dataclass(frozen=True)
class Standing:
    """A position in the list: the number of the last operation and the running hash there."""

    number: int = 0
    hash: str = ""


@dataclass(frozen=True)
class Arrival:
    """An accepted operation on its way into the list, with its bytes as the phone made them."""

    id: str
    job: str
    made: bytes
    sha256: str


def made_bytes(connection: sqlite3.Connection, one: str) -> bytes | None:
    """The bytes of the operation with that id, or None where the list has none."""
    row = connection.execute("SELECT made FROM operations WHERE id = ?", (one,)).fetchone()
    return None if row is None else bytes(row[0])


def end(connection: sqlite3.Connection) -> Standing:
    """The end of the list."""
    row = connection.execute("SELECT number, hash FROM operations ORDER BY number DESC LIMIT 1").fetchone()
    return Standing(*row) if row else Standing()


def hash_at(connection: sqlite3.Connection, number: int) -> str | None:
    """The running hash after operation `number`; None where the list has no such number."""
    if number == 0:
        return ""
    row = connection.execute("SELECT hash FROM operations WHERE number = ?", (number,)).fetchone()
    return None if row is None else str(row[0])


def append(connection: sqlite3.Connection, arrival: Arrival, received_at: str) -> None:
    """Give the operation the next number."""
    last = end(connection)
    number = last.number + 1
    connection.execute(
        "INSERT INTO operations (number, id, job, made, sha256, hash, received_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        (
            number,
            arrival.id,
            arrival.job,
            arrival.made,
            arrival.sha256,
            running_hash(last.hash, number, arrival.id),
            received_at,
        ),
    )


def page_after(connection: sqlite3.Connection, number: int) -> list[tuple[int, str, str]]:
    """The next operations `(number, text, hash)`: at least one where there is one, at most 200 or 256 KB."""
    rows = connection.execute(
        "SELECT number, made, hash FROM operations WHERE number > ? ORDER BY number LIMIT ?",
        (number, LONGEST_PAGE),
    )
    page: list[tuple[int, str, str]] = []
    size = 0
    for row_number, made, row_hash in rows:
        size += len(made)
        if page and size > LARGEST_PAGE:
            break
        page.append((row_number, bytes(made).decode(), row_hash))
    return page


def of_job(connection: sqlite3.Connection, job: str) -> list[tuple[int, str, str, bytes]]:
    """The job's operations by number: `(number, id, SHA-256 of the bytes, bytes)`."""
    rows = connection.execute(
        "SELECT number, id, sha256, made FROM operations WHERE job = ? ORDER BY number", (job,)
    )
    return [(number, one, digest, bytes(made)) for number, one, digest, made in rows]


def job_ids(connection: sqlite3.Connection) -> list[str]:
    """Every job that has an operation, in the order of their first ones."""
    rows = connection.execute("SELECT job FROM operations GROUP BY job ORDER BY MIN(number)")
    return [job for (job,) in rows]
