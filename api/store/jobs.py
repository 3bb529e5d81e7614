"""Job documents: made from their operations, kept beside them, and always to be made again."""

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import takewhile
from typing import Any

from api.fold.document import fold
from api.fold.holding import Operation
from api.store import operations


@dataclass(frozen=True)
class KeptJob:
    """A job as it was last folded; `text` is the document's own JSON, stable for a given content."""

    id: str
    text: str
    conflicts: list[dict[str, Any]]
    hidden: list[str]
    waiting: list[str]
    last_number: int

    @property
    def document(self) -> dict[str, Any]:
        document: dict[str, Any] = json.loads(self.text)
        return document


def remake(connection: sqlite3.Connection, job: str, parsed: Mapping[str, Operation] | None = None) -> None:
    """Fold the job's operations, and no others, and keep the result in place of the earlier one.

    `parsed` holds operations that were read already, by id.
    """
    known = parsed or {}
    listed = operations.bytes_of_job(connection, job)
    folded = fold(job, [known.get(one) or _parsed(made) for _, one, made in listed if made])
    connection.execute(
        "INSERT INTO jobs (id, document, conflicts, hidden, waiting, last_number) VALUES (?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (id) DO UPDATE SET document = excluded.document, conflicts = excluded.conflicts,"
        " hidden = excluded.hidden, waiting = excluded.waiting, last_number = excluded.last_number",
        (
            job,
            stable_json(folded.document),
            stable_json(folded.conflicts),
            stable_json(folded.hidden),
            stable_json(folded.waiting),
            listed[-1][0],
        ),
    )


@lru_cache(maxsize=10_000)
def _parsed(made: bytes) -> Operation:
    """Of a job that is being worked on the same operations are read again and again; nobody changes them."""
    operation: Operation = json.loads(made)
    return operation


def remake_all(connection: sqlite3.Connection) -> None:
    """Make every document again from the operations, as after a restored backup."""
    for job in operations.job_ids(connection):
        remake(connection, job)


def find(connection: sqlite3.Connection, job: str) -> KeptJob | None:
    """The job of that id, or None."""
    row = connection.execute(f"{_SELECT} WHERE id = ?", (job,)).fetchone()
    return None if row is None else _kept(row)


def latest_first(connection: sqlite3.Connection, limit: int = -1, before: int = 2**62) -> list[KeptJob]:
    """Jobs, the one that changed last first: at most `limit`, below the `last_number` given as `before`."""
    rows = connection.execute(
        f"{_SELECT} WHERE last_number < ? ORDER BY last_number DESC LIMIT ?",
        (before, limit),
    )
    return [_kept(row) for row in rows]


def of_the_car(connection: sqlite3.Connection, registration: str, vin: str) -> list[KeptJob]:
    """Jobs of a car by its registration or its VIN, the latest first.

    Blanks, dashes and the case of plain letters do not count.
    """
    rows = connection.execute(OF_THE_CAR, (registration, registration, vin, vin))
    return [_kept(row) for row in rows]


def _bare(place: str) -> str:
    """As the index has it."""
    return f"upper(replace(replace({place}, ' ', ''), '-', ''))"


def changed_since(connection: sqlite3.Connection, moment: str, most: int) -> list[str]:
    """Ids of the jobs with an operation received after `moment`, the latest first."""
    rows = connection.execute(
        "SELECT jobs.id, operations.received_at FROM jobs"
        " JOIN operations ON operations.number = jobs.last_number"
        " ORDER BY jobs.last_number DESC LIMIT ?",
        (most,),
    )
    return [job for job, _ in takewhile(lambda row: row[1] > moment, rows)]


def stable_json(value: Any) -> str:
    """JSON in one form: the same value gives the same text."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


_SELECT = "SELECT id, document, conflicts, hidden, waiting, last_number FROM jobs"
_SAME_CAR = " OR ".join(
    f"(? <> '' AND {_bare(place)} = {_bare('?')})"
    for place in (
        "json_extract(document, '$.vehicle.registration')",
        "json_extract(document, '$.vehicle.vin')",
    )
)
OF_THE_CAR = f"{_SELECT} WHERE {_SAME_CAR} ORDER BY last_number DESC"


def _kept(row: tuple[str, str, str, str, str, int]) -> KeptJob:
    one, document, conflicts, hidden, waiting, last = row
    return KeptJob(one, document, json.loads(conflicts), json.loads(hidden), json.loads(waiting), last)
