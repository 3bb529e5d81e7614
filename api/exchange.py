"""One exchange with a phone: what it sent is taken, what it lacks is handed out."""

import hashlib
import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from api.fold.holding import Operation, is_erased
from api.operation import RefusedError, check_place, read
from api.store import database, erasures, jobs, operations
from api.store.operations import Arrival, Standing


@dataclass(frozen=True)
class Answer:
    """What became of one operation: `applied`, `duplicate` or `refused`."""

    id: str | None
    answer: str
    reason: str | None = None

    def as_json(self) -> dict[str, str | None]:
        """The answer as the phone reads it."""
        answer = {"id": self.id, "answer": self.answer}
        return answer if self.reason is None else answer | {"reason": self.reason}


def take(connection: sqlite3.Connection, texts: list[str]) -> list[Answer]:
    """Take a batch in one transaction: each operation gets its own answer, and none stops another."""
    with database.writing(connection):
        known = erasures.known(connection)
        received_at = server_time()
        taken = [_take_one(connection, text, known, received_at) for text in texts]
        for job in dict.fromkeys(job for _, job in taken if job):
            jobs.remake(connection, job)
    return [answer for answer, _ in taken]


def entries_after(connection: sqlite3.Connection, phone: Standing) -> dict[str, Any]:
    """The list from exactly where the phone stands, or from its beginning where the two lists differ."""
    with database.reading(connection):
        restart = phone.number > 0 and operations.hash_at(connection, phone.number) != phone.hash
        start = Standing() if restart else phone
        page = operations.page_after(connection, start.number)
        last = operations.end(connection)
        known = erasures.known(connection)
    number, running = (page[-1][0], page[-1][2]) if page else (start.number, start.hash)
    return {
        "restart": restart,
        "entries": [{"number": one, "operation": text} for one, text, _ in page],
        "number": number,
        "hash": running if number else "",
        "more": number < last.number,
        "erasures": known,
    }


def server_time() -> str:
    """Now, by this machine's clock, as RFC 3339 in UTC."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def _take_one(
    connection: sqlite3.Connection, text: str, known: list[dict[str, str]], received_at: str
) -> tuple[Answer, str | None]:
    """The answer, and the job that has to be folded again."""
    operation: Operation = {}
    try:
        operation = read(text)
        earlier = operations.made_bytes(connection, operation["id"])
        if earlier == text.encode():
            return Answer(operation["id"], "duplicate"), None
        _check(operation, earlier, known)
    except RefusedError as refused:
        return Answer(operation.get("id"), "refused", str(refused)), None
    operations.append(connection, _arrival(operation, text), received_at)
    return Answer(operation["id"], "applied"), operation["job"]


def _check(operation: Operation, earlier: bytes | None, known: list[dict[str, str]]) -> None:
    if earlier is not None:
        raise RefusedError("another operation has this id")
    if is_erased(operation, known):
        raise RefusedError("what stood at this place was erased")
    check_place(operation)


def _arrival(operation: Operation, text: str) -> Arrival:
    made = text.encode()
    return Arrival(operation["id"], operation["job"], made, hashlib.sha256(made).hexdigest())
