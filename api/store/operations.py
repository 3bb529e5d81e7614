"""The numbered list of operations: appended to and read from. What is erased keeps number and id alone."""

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from api.fold.receipt import running_hash

LARGEST_PAGE = 256 * 1024
LONGEST_PAGE = 200
MOST_VARIABLES = 500


@dataclass(frozen=True)
class Standing:
    """A position in the list: the number of the last operation and the running hash there."""

    number: int = 0
    hash: str = ""


class Arrival(NamedTuple):
    """An accepted operation on its way into the list, with its bytes as the phone made them."""

    id: str
    job: str
    made: bytes
    sha256: str


class Listed(NamedTuple):
    """An operation in the list; `text` is None where it was erased."""

    number: int
    id: str
    job: str
    text: str | None
    hash: str

    def as_entry(self) -> dict[str, int | str | None]:
        """The entry as a phone reads it; of an erased operation the id is all that is left."""
        if self.text is None:
            return {"number": self.number, "id": self.id, "operation": None}
        return {"number": self.number, "operation": self.text}


def made_bytes(connection: sqlite3.Connection, ids: Sequence[str]) -> dict[str, bytes]:
    """The bytes of those operations that the list has, by id; of an erased one they are empty."""
    found: dict[str, bytes] = {}
    for start in range(0, len(ids), MOST_VARIABLES):
        some = ids[start : start + MOST_VARIABLES]
        marks = ", ".join("?" * len(some))
        found |= connection.execute(f"SELECT id, made FROM operations WHERE id IN ({marks})", some)  # noqa: S608
    return found


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


def append(connection: sqlite3.Connection, arrivals: Iterable[Arrival], received_at: str) -> dict[str, int]:
    """Give the operations the next numbers, in their order; returns the last number of each job of theirs."""
    last = end(connection)
    number, running = last.number, last.hash
    rows, last_numbers = [], {}
    for one in arrivals:
        number += 1
        running = running_hash(running, number, one.id)
        rows.append((number, one.id, one.job, one.made, one.sha256, running, received_at))
        last_numbers[one.job] = number
    connection.executemany(
        "INSERT INTO operations (number, id, job, made, sha256, hash, received_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        rows,
    )
    return last_numbers


def page_after(connection: sqlite3.Connection, number: int) -> tuple[list[Listed], bool]:
    """The next operations, at least one where there is one, at most 200 or 256 KB; whether more follow."""
    rows = connection.execute(
        "SELECT number, id, job, made, hash FROM operations WHERE number > ? ORDER BY number LIMIT ?",
        (number, LONGEST_PAGE + 1),
    )
    page: list[Listed] = []
    size = 0
    for row in rows:
        size += len(row[3])
        if page and (size > LARGEST_PAGE or len(page) == LONGEST_PAGE):
            return page, True
        page.append(_listed(*row))
    return page, False


def jobs_in(
    connection: sqlite3.Connection, page: Sequence[Listed], since: str
) -> tuple[list[str], list[str]]:
    """Of the jobs in a page: those that began before it, and those that changed after `since`."""
    continues, recent = [], []
    for job in dict.fromkeys(one.job for one in page):
        first, last_at = connection.execute(
            "SELECT (SELECT MIN(number) FROM operations WHERE job = ?1),"
            " (SELECT received_at FROM operations WHERE job = ?1 ORDER BY number DESC LIMIT 1)",
            (job,),
        ).fetchone()
        if first < page[0].number:
            continues.append(job)
        if last_at > since:
            recent.append(job)
    return continues, recent


def of_job(connection: sqlite3.Connection, job: str) -> list[Listed]:
    """The job's operations by number, the erased ones among them."""
    rows = connection.execute(
        "SELECT number, id, job, made, hash FROM operations WHERE job = ? ORDER BY number", (job,)
    )
    return [_listed(*row) for row in rows]


def bytes_of_job(connection: sqlite3.Connection, job: str) -> list[tuple[int, str, bytes]]:
    """`(number, id, bytes)` of the job's operations by number; of an erased one the bytes are empty."""
    return connection.execute(
        "SELECT number, id, made FROM operations WHERE job = ? ORDER BY number", (job,)
    ).fetchall()


def sums_of_job(connection: sqlite3.Connection, job: str) -> list[tuple[int, str, str]]:
    """`(number, id, SHA-256 of the bytes)` of the job's operations that are not erased, for its receipt."""
    return connection.execute(
        "SELECT number, id, sha256 FROM operations WHERE job = ? AND made <> x'' ORDER BY number", (job,)
    ).fetchall()


def job_ids(connection: sqlite3.Connection) -> list[str]:
    """Every job that has an operation, in the order of their first ones."""
    rows = connection.execute("SELECT job FROM operations GROUP BY job ORDER BY MIN(number)")
    return [job for (job,) in rows]


def mention(connection: sqlite3.Connection, name: str) -> bool:
    """Whether some operation that is not erased holds this text, as a photo's name; looks at every one."""
    found = connection.execute("SELECT 1 FROM operations WHERE instr(made, ?) LIMIT 1", (name.encode(),))
    return found.fetchone() is not None


def blank(connection: sqlite3.Connection, ids: Iterable[str]) -> None:
    """Take the bytes of erased operations away; their numbers and ids keep the list whole."""
    rows = [(one,) for one in ids]
    connection.executemany("UPDATE operations SET made = x'', sha256 = '' WHERE id = ?", rows)


def _listed(number: int, one: str, job: str, made: bytes, running: str) -> Listed:
    return Listed(number, one, job, bytes(made).decode() if made else None, running)
