"""The demo job: put in once, as operations and blobs, like a phone would have sent it."""

import hashlib
import sqlite3
from typing import Any

import calc
from api import exchange
from api.context import PROJECT
from api.store import jobs
from api.store.blobs import Blobs
from api.unfold import operations_for

FOLDER = PROJECT / "fixtures/demo"
BATCH = 200


def put_in(connection: sqlite3.Connection, blobs: Blobs) -> None:
    """Put the demo job and its photos in; where it is already, nothing changes."""
    for photo in sorted(FOLDER.glob("*.jpg")):
        data = photo.read_bytes()
        blobs.put(hashlib.sha256(data).hexdigest(), [data])
    texts = operations()
    for start in range(0, len(texts), BATCH):
        exchange.take(connection, texts[start : start + BATCH])


def there(connection: sqlite3.Connection) -> str | None:
    """The id of the demo job, where the workshop holds it."""
    job = str(document()["id"])
    return None if jobs.find(connection, job) is None else job


def document() -> dict[str, Any]:
    """The demo job's document."""
    return dict(calc.read_job((FOLDER / "job.json").read_bytes()))


def operations() -> list[str]:
    """The texts of the operations that make it."""
    job = document()
    return operations_for(job, device="workshop", person=job["technician"], at=job["opened_at"])
