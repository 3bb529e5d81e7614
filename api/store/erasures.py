"""Records of what was erased: they refuse what comes late, and what stood there is gone from the file."""

import hashlib
import json
import secrets
import sqlite3
from collections.abc import Iterable
from dataclasses import asdict, dataclass

from api.fold.places import is_at_or_in
from api.store import database, operations, settings

KEY = "erasing"  # its name among the settings
KEY_BYTES = 32


@dataclass(frozen=True, order=True)
class Erasure:
    """One place of one job whose content is gone for good; ids and places only, never what stood there."""

    id: str
    job: str
    path: str

    def as_json(self) -> dict[str, str]:
        """The record as phones and files keep it."""
        return asdict(self)


class Known:
    """All records, asked by job and place."""

    def __init__(self, records: Iterable[Erasure]) -> None:
        self._paths: dict[str, list[str]] = {}
        for record in records:
            self._paths.setdefault(record.job, []).append(record.path)

    def covers(self, job: str, path: str) -> bool:
        """Whether what stands at this place counts for nothing."""
        erased = self._paths.get(job)
        return erased is not None and any(is_at_or_in(path, one) for one in erased)


def all_records(connection: sqlite3.Connection) -> list[Erasure]:
    """Every record, by id."""
    return [Erasure(*row) for row in connection.execute("SELECT id, job, path FROM erasures ORDER BY id")]


def own_key(connection: sqlite3.Connection) -> bytes:
    """The key that this workshop makes its records with, made where there is none yet.

    It lies in the database and so in every backup: a phone that meets a restored workshop on another machine
    still brings records that this workshop can tell as its own.
    """
    kept = settings.read(connection, KEY)
    if not kept:
        with database.writing(connection):
            kept = settings.read(connection, KEY) or {"key": secrets.token_hex(KEY_BYTES)}
            settings.write(connection, KEY, kept)
    return bytes.fromhex(kept["key"])


def covering(connection: sqlite3.Connection, job: str) -> int:
    """How many records there are of a job."""
    return int(connection.execute("SELECT count(*) FROM erasures WHERE job = ?", (job,)).fetchone()[0])


def sum_of(records: Iterable[Erasure]) -> str:
    """SHA-256 over the ids in their order, each ended by a line feed: equal sums, equal records."""
    lines = (f"{one}\n" for one in sorted({record.id for record in records}))
    return hashlib.sha256("".join(lines).encode()).hexdigest()


def record(connection: sqlite3.Connection, erasure: Erasure) -> bool:
    """Keep a record and blank what stood there; False where the record was known."""
    done = connection.execute(
        "INSERT INTO erasures (id, job, path) VALUES (?, ?, ?) ON CONFLICT (id) DO NOTHING",
        (erasure.id, erasure.job, erasure.path),
    )
    if not done.rowcount:
        return False
    operations.blank(connection, (one.id for one in _covered(connection, erasure)))
    return True


def texts_of(connection: sqlite3.Connection, erasure: Erasure) -> list[str]:
    """The operations that a record would blank, as made."""
    return [one.text for one in _covered(connection, erasure) if one.text is not None]


def _covered(connection: sqlite3.Connection, erasure: Erasure) -> list[operations.Listed]:
    listed = (one for one in operations.of_job(connection, erasure.job) if one.text is not None)
    return [one for one in listed if is_at_or_in(json.loads(one.text or "")["path"], erasure.path)]
