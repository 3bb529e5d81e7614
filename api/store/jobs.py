"""Job documents: made from their operations, kept beside them, and always to be made again."""

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import takewhile
from typing import Any

from api.fold.document import fold
from api.store import database, operations


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


def changed(connection: sqlite3.Connection, last_numbers: Mapping[str, int]) -> None:
    """Note that operations up to these numbers have come for these jobs; a reader folds them, or `catch_up`.

    A batch is answered without a fold: what is acknowledged are operations, the document follows from them.
    """
    connection.executemany(
        "INSERT INTO behind (job, last_number) VALUES (?, ?)"
        " ON CONFLICT (job) DO UPDATE SET last_number = excluded.last_number",
        last_numbers.items(),
    )


def catch_up(connection: sqlite3.Connection) -> int:
    """Keep the document of every job that is behind, a transaction each; returns how many there were."""
    found = [job for (job,) in connection.execute("SELECT job FROM behind")]
    for job in found:
        with database.writing(connection):
            remake(connection, job)
    return len(found)


def remake(connection: sqlite3.Connection, job: str) -> None:
    """Fold the job's operations, and no others, and keep the result in place of the earlier one."""
    folded = _folded(connection, job)
    connection.execute(
        "INSERT INTO jobs (id, document, conflicts, hidden, waiting, last_number) VALUES (?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (id) DO UPDATE SET document = excluded.document, conflicts = excluded.conflicts,"
        " hidden = excluded.hidden, waiting = excluded.waiting, last_number = excluded.last_number",
        (
            job,
            folded.text,
            stable_json(folded.conflicts),
            stable_json(folded.hidden),
            stable_json(folded.waiting),
            folded.last_number,
        ),
    )
    connection.execute("DELETE FROM behind WHERE job = ?", (job,))


def remake_all(connection: sqlite3.Connection) -> None:
    """Make every document again from the operations, as after a restored backup."""
    for job in operations.job_ids(connection):
        remake(connection, job)


def find(connection: sqlite3.Connection, job: str) -> KeptJob | None:
    """The job of that id as its operations have it now, or None."""
    with database.reading(connection):
        if connection.execute("SELECT 1 FROM behind WHERE job = ?", (job,)).fetchone():
            return _folded(connection, job)
        row = connection.execute(f"{_SELECT} WHERE id = ?", (job,)).fetchone()
    return None if row is None else _kept(row)


def latest_first(
    connection: sqlite3.Connection, limit: int = -1, before: int = 2**62, after: int = 0
) -> list[KeptJob]:
    """Jobs, the one that changed last first: at most `limit`, their `last_number` between the two given."""
    asked = (after, before, limit)
    with database.reading(connection):
        kept = connection.execute(
            f"{_SELECT} {_UP_TO_DATE} AND last_number > ? AND last_number < ?"
            " ORDER BY last_number DESC LIMIT ?",
            asked,
        )
        behind = connection.execute(
            "SELECT job FROM behind WHERE last_number > ? AND last_number < ?"
            " ORDER BY last_number DESC LIMIT ?",
            asked,
        )
        found = [*map(_kept, kept), *(_folded(connection, job) for (job,) in behind)]
    found.sort(key=lambda one: -one.last_number)
    return found if limit < 0 else found[:limit]


def of_the_car(connection: sqlite3.Connection, registration: str, vin: str) -> list[KeptJob]:
    """Jobs of a car by its registration or its VIN, the latest first.

    Blanks, dashes and the case of plain letters do not count. The index knows kept documents alone, so what
    is behind is kept first.
    """
    catch_up(connection)
    rows = connection.execute(OF_THE_CAR, (registration, registration, vin, vin))
    return [_kept(row) for row in rows]


def _bare(place: str) -> str:
    """As the index has it."""
    return f"upper(replace(replace({place}, ' ', ''), '-', ''))"


def changed_since(connection: sqlite3.Connection, moment: str, most: int) -> list[str]:
    """Ids of the jobs with an operation received after `moment`, the latest first."""
    rows = connection.execute(
        "SELECT changes.job, operations.received_at FROM"
        " (SELECT id AS job, last_number FROM jobs WHERE id NOT IN (SELECT job FROM behind)"
        " UNION ALL SELECT job, last_number FROM behind) AS changes"
        " JOIN operations ON operations.number = changes.last_number"
        " ORDER BY changes.last_number DESC LIMIT ?",
        (most,),
    )
    return [job for job, _ in takewhile(lambda row: row[1] > moment, rows)]


def stable_json(value: Any) -> str:
    """JSON in one form: the same value gives the same text."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


_SELECT = "SELECT id, document, conflicts, hidden, waiting, last_number FROM jobs"
_UP_TO_DATE = "WHERE id NOT IN (SELECT job FROM behind)"
_SAME_CAR = " OR ".join(
    f"(? <> '' AND {_bare(place)} = {_bare('?')})"
    for place in (
        "json_extract(document, '$.vehicle.registration')",
        "json_extract(document, '$.vehicle.vin')",
    )
)
OF_THE_CAR = f"{_SELECT} WHERE {_SAME_CAR} ORDER BY last_number DESC"


def _folded(connection: sqlite3.Connection, job: str) -> KeptJob:
    """The job made from its operations now."""
    listed = operations.bytes_of_job(connection, job)
    folded = fold(job, [json.loads(made) for _, _, made in listed if made])
    return KeptJob(
        job, stable_json(folded.document), folded.conflicts, folded.hidden, folded.waiting, listed[-1][0]
    )


def _kept(row: tuple[str, str, str, str, str, int]) -> KeptJob:
    one, document, conflicts, hidden, waiting, last = row
    return KeptJob(one, document, json.loads(conflicts), json.loads(hidden), json.loads(waiting), last)
