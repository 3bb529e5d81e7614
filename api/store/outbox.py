"""The outbox: each e-mail with its bytes as first made, so that a second attempt is the same e-mail."""

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class Letter:
    """One e-mail. `unsure`: attempts after which nobody knows whether the server took it."""

    id: str
    job: str
    recipient: str
    wish: str
    message_id: str
    message: bytes | None
    state: str
    says: str
    tries: int
    unsure: int
    handing_over: int
    queued_at: str
    due_at: str
    changed_at: str


def queue(connection: sqlite3.Connection, letter: Letter) -> bool:
    """Add one; False where it is there already: a wish is one e-mail, however often it is heard."""
    done = connection.execute(
        "INSERT INTO outbox (id, job, recipient, wish, message_id, message, state, says, tries, unsure,"
        " handing_over, queued_at, due_at, changed_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING",
        (
            letter.id, letter.job, letter.recipient, letter.wish, letter.message_id, letter.message,
            letter.state, letter.says, letter.tries, letter.unsure, letter.handing_over,
            letter.queued_at, letter.due_at, letter.changed_at,
        ),
    )  # fmt: skip
    return bool(done.rowcount)


def due(connection: sqlite3.Connection, now: str) -> Letter | None:
    """The letter that has waited longest and whose time has come."""
    row = connection.execute(
        f"{_SELECT} WHERE state = 'queued' AND due_at <= ? ORDER BY due_at, id LIMIT 1", (now,)
    ).fetchone()
    return Letter(*row) if row else None


def of_job(connection: sqlite3.Connection, job: str) -> list[Letter]:
    """All letters of a job, the first one first."""
    rows = connection.execute(f"{_SELECT} WHERE job = ? ORDER BY queued_at, id", (job,))
    return [Letter(*row) for row in rows]


def latest(connection: sqlite3.Connection, most: int) -> list[Letter]:
    """The letters that changed last."""
    rows = connection.execute(f"{_SELECT} ORDER BY changed_at DESC, id LIMIT ?", (most,))
    return [Letter(*row) for row in rows]


def keep_message(connection: sqlite3.Connection, one: str, message: bytes) -> None:
    """Keep the bytes that every attempt sends."""
    connection.execute("UPDATE outbox SET message = ? WHERE id = ?", (message, one))


def hand_over(connection: sqlite3.Connection, one: str) -> None:
    """Note that an attempt begins: after a crash in it, nobody knows what became of it."""
    connection.execute("UPDATE outbox SET tries = tries + 1, handing_over = 1 WHERE id = ?", (one,))


def settle(
    connection: sqlite3.Connection, one: str, state: str, says: str, *, at: str, due_at: str, unsure: int
) -> None:
    """Keep what an attempt came to; what is sent or given up keeps no copy of its bytes."""
    connection.execute(
        "UPDATE outbox SET state = ?, says = ?, changed_at = ?, due_at = ?, unsure = ?, handing_over = 0,"
        " message = CASE WHEN ? = 'queued' THEN message END WHERE id = ?",
        (state, says, at, due_at, unsure, state, one),
    )


def interrupted(connection: sqlite3.Connection) -> None:
    """After a start: attempts that were under way count as unsure."""
    connection.execute("UPDATE outbox SET unsure = unsure + 1, handing_over = 0 WHERE handing_over = 1")


def bounce(connection: sqlite3.Connection, message_id: str, says: str, at: str) -> bool:
    """Mark a letter as not delivered; False where none has this id."""
    done = connection.execute(
        "UPDATE outbox SET state = 'bounced', says = ?, changed_at = ? WHERE message_id = ?",
        (says, at, message_id),
    )
    return bool(done.rowcount)


def forget(connection: sqlite3.Connection, job: str) -> None:
    """Take the letters of a job out: its customer was erased."""
    connection.execute("DELETE FROM outbox WHERE job = ?", (job,))


_SELECT = (
    "SELECT id, job, recipient, wish, message_id, message, state, says, tries, unsure, handing_over,"
    " queued_at, due_at, changed_at FROM outbox"
)
