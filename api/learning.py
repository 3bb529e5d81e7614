"""Erasures that come from outside, with a phone or in a copy: who may have them carried out."""

from collections.abc import Iterable

from api.context import connection, context
from api.erasure import Eraser
from api.people import access, trail
from api.seal import is_ours
from api.store import database, erasures, jobs
from api.store.erasures import Erasure

ERASING = "office_customers.erase"  # the address where somebody erases by hand


def learn(records: Iterable[Erasure]) -> None:
    """Carry out the erasures that were not known here, as after a restore; the trail says who brought them.

    Only those that this workshop made, or that somebody brings who may erase: a made-up one changes nothing,
    and is told in the trail where it speaks of a job that is here.
    """
    given = set(records)
    unknown = given - set(erasures.all_records(connection())) if given else set()
    if not unknown:
        return
    key, may_erase = erasures.own_key(connection()), access.may(ERASING)
    taken = {record for record in unknown if may_erase or is_ours(key, record)}
    Eraser(context().data, context().blobs).merge(connection(), sorted(taken))
    left = {record.job for record in unknown - taken if jobs.find(connection(), record.job)}
    with database.writing(connection()):
        for job in sorted({record.job for record in taken}):
            trail.note("did.brought_erasure", about=job)
        for job in sorted(left):
            trail.note_once("did.brought_foreign_erasure", about=job)
