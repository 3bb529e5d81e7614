"""What the office searches jobs by: derived from each job, dropped by the database when the job changes."""

import sqlite3
from dataclasses import dataclass

MOST_FOUND = 100


@dataclass(frozen=True)
class JobWords:
    """One job as it is found; `words` is all of it, in small letters.

    fault : the conclusion, or empty.
    proved : the fault that was proved and that no run after the repair speaks against, or empty.
    """

    job: str
    registration: str
    customer: str
    opened_on: str
    fault: str
    says: str
    words: str
    proved: str = ""


def missing(connection: sqlite3.Connection, most: int) -> list[str]:
    """Jobs that have none yet, the latest first."""
    rows = connection.execute(
        "SELECT id FROM jobs WHERE id NOT IN (SELECT job FROM job_words) ORDER BY last_number DESC LIMIT ?",
        (most,),
    )
    return [job for (job,) in rows]


def keep(connection: sqlite3.Connection, found: JobWords) -> None:
    """Keep a job's words."""
    connection.execute(
        "INSERT INTO job_words (job, registration, customer, opened_on, fault, says, words, proved)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (job) DO NOTHING",
        (
            found.job,
            found.registration,
            found.customer,
            found.opened_on,
            found.fault,
            found.says,
            found.words,
            found.proved,
        ),
    )


def forget(connection: sqlite3.Connection) -> None:
    """Let every job be read anew, as when the workshop speaks another language or unit."""
    connection.execute("DELETE FROM job_words")


def search(
    connection: sqlite3.Connection, words: list[str], since: str = "", until: str = "", fault: str = ""
) -> list[JobWords]:
    """Jobs that hold every word, opened between two days, with that fault; the latest first."""
    conditions = ["words LIKE ? ESCAPE '\\'"] * len(words)
    values = [f"%{_escaped(word.casefold())}%" for word in words]
    for condition, value in (("opened_on >= ?", since), ("opened_on <= ?", until), ("fault = ?", fault)):
        if value:
            conditions.append(condition)
            values.append(value)
    where = f" WHERE {' AND '.join(conditions)}" if conditions else ""
    # Only conditions written here go into the text; what was typed goes in as values.
    rows = connection.execute(f"{_SELECT}{where} ORDER BY opened_on DESC, job LIMIT ?", (*values, MOST_FOUND))
    return [JobWords(*row) for row in rows]


def faults(connection: sqlite3.Connection) -> list[str]:
    """Every fault that some job came to."""
    rows = connection.execute("SELECT DISTINCT fault FROM job_words WHERE fault <> '' ORDER BY fault")
    return [fault for (fault,) in rows]


def proved_counts(connection: sqlite3.Connection, but: str) -> dict[str, int]:
    """In how many jobs each fault was proved, the job `but` left out."""
    rows = connection.execute(
        "SELECT proved, count(*) FROM job_words WHERE proved <> '' AND job <> ?"
        " GROUP BY proved ORDER BY proved",
        (but,),
    )
    return dict(rows.fetchall())


_SELECT = "SELECT job, registration, customer, opened_on, fault, says, words, proved FROM job_words"


def _escaped(word: str) -> str:
    return word.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
