"""Reports as they leave the house: each PDF is kept, to check a copy by and to find an earlier one."""

import hashlib
import sqlite3

from api.clock import Clock, stamp
from api.pdf import process
from api.pdf.request import ReportRequest
from api.store import database, erasures, reports
from api.store.blobs import Blobs
from api.store.reports import Given


def sum_of(wanted: ReportRequest) -> str:
    """What tells a report from every other: the same sum, the same bytes."""
    return hashlib.sha256(wanted.as_json.encode()).hexdigest()


def give(
    connection: sqlite3.Connection, blobs: Blobs, clock: Clock, job: str, wanted: ReportRequest
) -> bytes:
    """The PDF: as it was kept when it first left, else drawn now and kept.

    Raises as `process.draw` does.
    """
    drawn_from = sum_of(wanted)
    known = reports.find(connection, job, drawn_from)
    kept = _kept(blobs, known) if known else None
    if kept is not None:
        return kept
    erased = erasures.covering(connection, job)
    pdf = process.draw(wanted)
    sha256 = hashlib.sha256(pdf).hexdigest()
    with database.writing(connection):
        if erasures.covering(connection, job) == erased:  # else it may name whom the job no longer does
            blobs.drop(sha256)  # a file of this name may be damaged
            blobs.put(sha256, [pdf])
            reports.keep(connection, _row(job, wanted, drawn_from, sha256, stamp(clock())))
    return pdf


def _kept(blobs: Blobs, known: Given) -> bytes | None:
    """The bytes that were kept, None where the disk has lost or changed them."""
    path = blobs.find(known.sha256)
    data = path.read_bytes() if path else b""
    return data if hashlib.sha256(data).hexdigest() == known.sha256 else None


def _row(job: str, wanted: ReportRequest, drawn_from: str, sha256: str, now: str) -> Given:
    return Given(
        job=job,
        drawn_from=drawn_from,
        sha256=sha256,
        form=wanted.form,
        paper=wanted.paper,
        unit=wanted.unit,
        language=wanted.language,
        made_at=wanted.made_at,
        given_at=now,
    )
