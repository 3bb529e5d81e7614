"""The PDFs that were given out: what each was drawn from, when, and its SHA-256, the name of its blob."""

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class Given:
    """One PDF.

    `drawn_from`: the sum of its request; `made_at`: the time in it; `given_at`: when it first left.
    """

    job: str
    drawn_from: str
    sha256: str
    form: str
    paper: str
    unit: str
    language: str
    made_at: str
    given_at: str


def keep(connection: sqlite3.Connection, given: Given) -> None:
    """Add one; what was drawn from the same again takes its place."""
    connection.execute(
        "INSERT INTO reports (job, drawn_from, sha256, form, paper, unit, language, made_at, given_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (job, drawn_from) DO UPDATE SET sha256 = excluded.sha256",
        (
            given.job, given.drawn_from, given.sha256, given.form, given.paper, given.unit, given.language,
            given.made_at, given.given_at,
        ),
    )  # fmt: skip


def find(connection: sqlite3.Connection, job: str, drawn_from: str) -> Given | None:
    """The PDF that was drawn from this, or None."""
    row = connection.execute(f"{_SELECT} WHERE job = ? AND drawn_from = ?", (job, drawn_from)).fetchone()
    return Given(*row) if row else None


def of_job(connection: sqlite3.Connection, job: str) -> list[Given]:
    """All of a job, the latest first."""
    rows = connection.execute(f"{_SELECT} WHERE job = ? ORDER BY made_at DESC, given_at DESC, sha256", (job,))
    return [Given(*row) for row in rows]


def of_sum(connection: sqlite3.Connection, sha256: str) -> Given | None:
    """The PDF with this SHA-256, or None: then it was not given out here, or it was changed."""
    row = connection.execute(f"{_SELECT} WHERE sha256 = ? LIMIT 1", (sha256,)).fetchone()
    return Given(*row) if row else None


def forget(connection: sqlite3.Connection, job: str) -> list[str]:
    """Take those of a job out, since its customer was erased; the names of their blobs."""
    rows = connection.execute("DELETE FROM reports WHERE job = ? RETURNING sha256", (job,)).fetchall()
    return [str(sha256) for (sha256,) in rows]


_SELECT = "SELECT job, drawn_from, sha256, form, paper, unit, language, made_at, given_at FROM reports"
