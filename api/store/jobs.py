"""Job documents: made from their operations, kept beside them, and always to be made again."""

import json
import sqlite3
from dataclasses import dataclass
from typing import Any

from api.fold.document import fold
from api.store import erasures, operations


@dataclass(frozen=True)
class KeptJob:
    """A job as it was last folded; `text` is the document's own JSON, stable for a given content."""

    id: str
    text: str
    conflicts: list[dict[str, Any]]
    hidden: list[str]
    waiting: list[str]

    @property
    def document(self) -> dict[str, Any]:
        document: dict[str, Any] = json.loads(self.text)
        return document


def remake(connection: sqlite3.Connection, job: str) -> None:
    """Fold the job's operations, and no others, and keep the result in place of the earlier one."""
    listed = operations.of_job(connection, job)
    folded = fold(job, [json.loads(made) for *_, made in listed], erasures.known(connection))
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


def find(connection: sqlite3.Connection, job: str) -> KeptJob | None:
    """The job of that id, or None."""
    row = connection.execute(f"{_SELECT} WHERE id = ?", (job,)).fetchone()
    return None if row is None else _kept(row)


def latest_first(connection: sqlite3.Connection) -> list[KeptJob]:
    """All jobs, the one that changed last first."""
    return [_kept(row) for row in connection.execute(f"{_SELECT} ORDER BY last_number DESC")]


def stable_json(value: Any) -> str:
    """JSON in one form: the same value gives the same text."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


_SELECT = "SELECT id, document, conflicts, hidden, waiting FROM jobs"


def _kept(row: tuple[str, str, str, str, str]) -> KeptJob:
    one, document, conflicts, hidden, waiting = row
    return KeptJob(one, document, json.loads(conflicts), json.loads(hidden), json.loads(waiting))
