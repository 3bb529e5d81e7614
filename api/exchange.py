"""One exchange with a phone: what it sent is taken, what it lacks is handed out."""

import hashlib
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any, NamedTuple

from api.fold.holding import Operation
from api.operation import RefusedError, check_place, read
from api.store import database, erasures, jobs, operations
from api.store.erasures import Known
from api.store.operations import Arrival, Standing

COPIES_STAY_DAYS = 14
MOST_RECENT_JOBS = 200


class Answer(NamedTuple):
    """What became of one operation: `applied`, `duplicate` or `refused`."""

    id: str | None
    answer: str
    reason: str | None = None

    def as_json(self) -> dict[str, str | None]:
        """The answer as the phone reads it."""
        answer = {"id": self.id, "answer": self.answer}
        return answer if self.reason is None else answer | {"reason": self.reason}


@dataclass
class _Batch:
    """A batch on its way in: what the list has of it, and what is taken anew."""

    known: Known
    earlier: dict[str, bytes]
    arrivals: list[Arrival] = field(default_factory=list)

    def take(self, text: str, read: Operation | RefusedError) -> Answer:
        if isinstance(read, RefusedError):
            return Answer(None, "refused", str(read))
        one, made = read["id"], text.encode()
        if self.earlier.get(one) == made:
            return Answer(one, "duplicate")
        try:
            self._check(read)
        except RefusedError as refused:
            return Answer(one, "refused", str(refused))
        self.earlier[one] = made
        self.arrivals.append(Arrival(one, read["job"], made, hashlib.sha256(made).hexdigest()))
        return Answer(one, "applied")

    def _check(self, operation: Operation) -> None:
        earlier = self.earlier.get(operation["id"])
        if earlier == b"" or self.known.covers(operation["job"], operation["path"]):
            raise RefusedError("what stood at this place was erased")
        if earlier is not None:
            raise RefusedError("another operation has this id")
        check_place(operation)


def take(connection: sqlite3.Connection, texts: Sequence[str]) -> list[Answer]:
    """Take a batch in one transaction: each operation gets its own answer, and none stops another."""
    readings = [_read(text) for text in texts]
    ids = [one["id"] for one in readings if not isinstance(one, RefusedError)]
    with database.writing(connection):
        known = Known(erasures.all_records(connection))
        batch = _Batch(known, operations.made_bytes(connection, ids))
        answers = [batch.take(text, reading) for text, reading in zip(texts, readings, strict=True)]
        jobs.changed(connection, operations.append(connection, batch.arrivals, server_time()))
    return answers


def entries_after(connection: sqlite3.Connection, phone: Standing) -> dict[str, Any]:
    """The list from exactly where the phone stands, or from its beginning where the two lists differ.

    `continues` names the jobs whose first operation lies before these entries: a phone that does not hold
    such a job fetches it whole, or takes none of it. `recent` names those that changed in the last 14 days:
    of the others a phone that does not hold them needs nothing.
    """
    with database.reading(connection):
        restart = phone.number > 0 and operations.hash_at(connection, phone.number) != phone.hash
        start = Standing() if restart else phone
        page, more = operations.page_after(connection, start.number)
        continues, recent = operations.jobs_in(connection, page, _copies_since())
    number, running = (page[-1].number, page[-1].hash) if page else (start.number, start.hash)
    return {
        "restart": restart,
        "entries": [one.as_entry() for one in page],
        "continues": continues,
        "recent": recent,
        "number": number,
        "hash": running if number else "",
        "more": more,
    }


def beginning(connection: sqlite3.Connection) -> dict[str, Any]:
    """Where a phone that holds nothing begins: the end of the list, and the jobs of the last 14 days.

    It fetches each of those whole, and so needs no operation of the years before.
    """
    with database.reading(connection):
        last = operations.end(connection)
        changed = jobs.changed_since(connection, _copies_since(), MOST_RECENT_JOBS)
    reply = {"restart": False, "entries": [], "continues": [], "recent": [], "more": False, "jobs": changed}
    return reply | {"number": last.number, "hash": last.hash}


def server_time() -> str:
    """Now, by this machine's clock, as RFC 3339 in UTC."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def _copies_since() -> str:
    return (datetime.now(UTC) - timedelta(days=COPIES_STAY_DAYS)).isoformat(timespec="milliseconds")


def _read(text: str) -> Operation | RefusedError:
    try:
        return read(text)
    except RefusedError as refused:
        return refused
