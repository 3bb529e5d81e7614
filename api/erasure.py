"""Erasing a customer: records of ids alone that never go away, merged from wherever one is still known.

A record lies in the database, in a file outside it, and on every phone. An older database that is put back
learns of it again from the file or from the first phone that comes; what it covers is then blanked anew.
"""

import json
import os
import re
import sqlite3
import time
from collections.abc import Iterable, Sequence
from pathlib import Path
from uuid import UUID

from api.job import blob_names
from api.seal import sealed
from api.store import database, erasures, jobs, outbox, reports
from api.store.blobs import Blobs
from api.store.erasures import Erasure

# What names or pictures a person; measurements stay. An item of `/photos` is chosen at the desk, one by one.
PERSONAL = (
    "/customer",
    "/vehicle/registration",
    "/vehicle/vin",
    "/estimate/authorisations",
    "/deliveries",
)
PHOTO = re.compile(r"/photos/[^/]+")
FILE_NAME = "erasures.jsonl"
CHECKPOINT_TRIES = 40
BETWEEN_TRIES_SECONDS = 0.05
BLOB_NAME = re.compile(r"\b[0-9a-f]{64}\b")


def of_customer(key: bytes, job: str, photos: Iterable[str] = ()) -> list[Erasure]:
    """Records, made with the workshop's key, that erase the person from a job, and photos by their ids."""
    places = [*PERSONAL, *(f"/photos/{one}" for one in photos)]
    return [sealed(key, job, place) for place in places]


def read(value: object) -> Erasure:
    """A record that came from a phone or a file; a ValueError where it is none that we would make."""
    if not isinstance(value, dict):
        raise ValueError("a record is not an object")
    record = Erasure(str(value.get("id")), str(value.get("job")), str(value.get("path")))
    if str(UUID(record.id)) != record.id or str(UUID(record.job)) != record.job:
        raise ValueError("an id is not a UUID as written in small letters")
    if not _is_personal(record.path):
        raise ValueError("nothing personal stands at this place")
    return record


def _is_personal(path: str) -> bool:
    at_or_in = any(path == place or path.startswith(f"{place}/") for place in PERSONAL)
    return at_or_in or PHOTO.fullmatch(path) is not None


class Eraser:
    """The records of one data folder: the file outside the database, and what they do inside it."""

    def __init__(self, data: Path, blobs: Blobs) -> None:
        self.file = data / FILE_NAME
        self.blobs = blobs

    def records(self) -> list[Erasure]:
        """The records of the file; a line that a crash cut short is passed over."""
        if not self.file.is_file():
            return []
        found = []
        for line in self.file.read_text("utf-8", errors="replace").splitlines():
            try:
                found.append(read(json.loads(line)))
            except ValueError:
                continue
        return found

    def merge(self, connection: sqlite3.Connection, records: Sequence[Erasure] = ()) -> None:
        """Bring file, database and `records` to the same state, and blank what any of them covers."""
        inside = set(erasures.all_records(connection))
        outside = set(self.records())
        wanted = inside | outside | set(records)
        self._write(sorted(wanted - outside))
        if fresh := sorted(wanted - inside):
            self._blank(connection, fresh)

    def _write(self, records: Sequence[Erasure]) -> None:
        """On the disk before anything is erased: a crash in between is finished at the next start."""
        if not records:
            return
        with self.file.open("a", encoding="utf-8") as file:
            file.write("\n")  # closes a line that a crash may have cut short
            file.writelines(json.dumps(record.as_json(), sort_keys=True) + "\n" for record in records)
            file.flush()
            os.fsync(file.fileno())

    def _blank(self, connection: sqlite3.Connection, records: Sequence[Erasure]) -> None:
        with database.writing(connection):
            names = [name for record in records for name in self._blobs_of(connection, record)]
            for record in records:
                erasures.record(connection, record)
            touched = dict.fromkeys(record.job for record in records)
            for job in touched:
                outbox.forget(connection, job)
                names += reports.forget(connection, job)
                if jobs.find(connection, job):
                    jobs.remake(connection, job)
        truncate_log(connection)
        self._drop_blobs(connection, names)

    def _blobs_of(self, connection: sqlite3.Connection, record: Erasure) -> list[str]:
        return [name for text in erasures.texts_of(connection, record) for name in BLOB_NAME.findall(text)]

    def _drop_blobs(self, connection: sqlite3.Connection, names: Iterable[str]) -> None:
        """Take away the files that no job names any more."""
        gone = set(names)
        if not gone:
            return
        for job in jobs.latest_first(connection):
            gone -= set(blob_names(job.document))
        for name in gone:
            self.blobs.drop(name)


def truncate_log(connection: sqlite3.Connection) -> bool:
    """Empty the write-ahead log, where erased text would stay readable; False where a reader holds it."""
    for _ in range(CHECKPOINT_TRIES):
        (busy, *_rest) = connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        if not busy:
            return True
        time.sleep(BETWEEN_TRIES_SECONDS)
    return False
