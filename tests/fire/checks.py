"""What must hold whatever happened: looked up in the workshop's own files, read by the tests themselves."""

import hashlib
import json
import sqlite3
from collections.abc import Iterable
from contextlib import closing
from pathlib import Path

from api.fold.document import fold
from api.store import jobs
from api.store.jobs import stable_json
from tests.fire.phone import Phone


def list_of(data: Path) -> list[tuple[int, str, str, str]]:
    """`(number, id, job, text)` of everything in the list, its chain of hashes and its sums tried."""
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        (verdict,) = connection.execute("PRAGMA integrity_check").fetchone()
        assert verdict == "ok", verdict
        rows = connection.execute(
            "SELECT number, id, job, made, sha256, hash FROM operations ORDER BY number"
        ).fetchall()
    running = ""
    for expected, (number, one, _, made, digest, chained) in enumerate(rows, start=1):
        assert number == expected, f"number {expected} is missing"
        running = hashlib.sha256(f"{running} {number} {one}".encode()).hexdigest()
        assert running == chained
        assert not made or hashlib.sha256(made).hexdigest() == digest
    return [(number, one, job, bytes(made).decode()) for number, one, job, made, _, _ in rows]


def nothing_lost_nothing_twice(data: Path, phones: Iterable[Phone], acknowledged: Iterable[str] = ()) -> None:
    """Every acknowledged operation is in the list once with its bytes; documents are folds of operations."""
    listed = list_of(data)
    ids = [one for _, one, _, _ in listed]
    assert len(set(ids)) == len(ids), "an operation is listed twice"
    texts = {one: text for _, one, _, text in listed}
    for one in acknowledged:
        assert one in texts, f"acknowledged and lost: {one}"
    for phone in phones:
        lost = phone.acknowledged - set(ids)
        assert not lost, f"acknowledged and lost: {lost}"
        for one, row in phone.disk.rows.items():
            if row.number is not None:
                assert texts.get(one) == row.text, "bytes differ, or the phone saw what is not there"
    documents_are_folds(data, listed)


def documents_are_folds(data: Path, listed: list[tuple[int, str, str, str]]) -> None:
    """What a reader gets is the fold; what is kept and not marked as behind has every operation in it."""
    by_job: dict[str, list[str]] = {}
    for _, _, job, text in listed:
        by_job.setdefault(job, []).extend([text] if text else [])
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        read = {job.id: job.text for job in jobs.latest_first(connection)}
        kept = dict(connection.execute("SELECT id, document FROM jobs").fetchall())
        behind = {job for (job,) in connection.execute("SELECT job FROM behind")}
    assert set(read) == set(kept) | behind == set(by_job)
    for job, texts in by_job.items():
        made = stable_json(fold(job, [json.loads(text) for text in texts]).document)
        assert read[job] == made
        assert job in behind or kept[job] == made


def all_is_there(data: Path, phones: Iterable[Phone]) -> None:
    """After a last sync with nothing in the way: what a phone holds is in the workshop, and phones agree."""
    phones = list(phones)
    nothing_lost_nothing_twice(data, phones)
    ids = {one for _, one, _, _ in list_of(data)}
    for phone in phones:
        open_rows = [one for one, row in phone.disk.rows.items() if row.refused is None and one not in ids]
        assert not open_rows, f"held by a phone and not in the workshop: {open_rows}"
        for name, bytes_ in phone.disk.blobs.items():
            path = data / "blobs" / name[:2] / name
            assert path.read_bytes() == bytes_, "a photo is not what it was"


def no_blob_is_wrong(data: Path) -> int:
    """Each blob that is there is what its name says; their number."""
    found = [path for path in (data / "blobs").glob("[0-9a-f][0-9a-f]/*") if path.is_file()]
    for path in found:
        assert hashlib.sha256(path.read_bytes()).hexdigest() == path.name
    return len(found)
