"""The postman: wishes from jobs into the outbox, and the outbox to the mail server until each is settled.

A letter is tried again while it is surely not there. Where the connection broke after it was handed over,
nobody can know; it is tried once more with the same Message-ID, so that it comes at most twice, and after a
second such break it is given up and said so.
"""

import contextlib
import json
import sqlite3
import threading
from collections.abc import Callable
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from flask import Flask

from api import given, limits, logs, report, shown
from api.clock import moment, stamp
from api.context import KEY, Context
from api.job import NotWholeError, blob_names
from api.mail import letters
from api.mail.account import Account, account_of, plain_address
from api.mail.handing_over import Attempt, Outcome, hand_over
from api.pdf import process
from api.pdf.words import LANGUAGES
from api.store import database, jobs, outbox, settings
from api.store.changes import last_change
from api.store.jobs import KeptJob
from api.store.outbox import Letter

LOOK_EVERY_SECONDS = 5.0
FIRST_PAUSE = timedelta(minutes=1)
LONGEST_PAUSE = timedelta(hours=1)
GIVES_UP_AFTER = timedelta(days=2)
PHOTOS_MAY_TAKE = timedelta(minutes=10)
MOST_UNSURE = 2
LARGEST_REPORT = 10 * 1024 * 1024
SEEN = "wishes"

NO_ADDRESS = "This is not one plain e-mail address."
NO_ACCOUNT = "No mail account is set up yet."
PHOTOS_COME = "Photos of this job are still to come."
NOT_WHOLE = "The report cannot be drawn: the job is not whole."
TWICE_UNSURE = (
    "The connection broke twice after the letter was handed over: it may have arrived."
    " Ask before sending again."
)

Draw = Callable[[KeptJob, dict[str, Any]], bytes]
TellsAccount = Callable[[dict[str, Any], Path], Account]


def take_wishes(connection: sqlite3.Connection, now: datetime) -> int:
    """Queue what jobs have asked for since the last look; each wish once. Returns how many were new."""
    seen = int(settings.read(connection, SEEN).get("seen", 0))
    sender = settings.read(connection, "mail").get("sender", "workshop@localhost.invalid")
    new = 0
    with database.writing(connection):
        for job in jobs.latest_first(connection, after=seen):
            for wish in job.document.get("deliveries") or []:
                new += outbox.queue(connection, _letter(job, wish, sender, now))
        settings.write(connection, SEEN, {"seen": _end(connection)})
    return new


def _end(connection: sqlite3.Connection) -> int:
    newest = jobs.latest_first(connection, 1)
    return newest[0].last_number if newest else 0


def _letter(job: KeptJob, wish: dict[str, Any], sender: str, now: datetime) -> Letter:
    recipient, state, says = str(wish.get("to") or ""), "queued", ""
    try:
        plain_address(recipient)
    except ValueError:
        state, says = "failed", NO_ADDRESS
    at = stamp(now)
    one = str(wish["id"])
    identity = letters.message_id(job.id, one, sender)
    return Letter(one, job.id, recipient, json.dumps(wish), identity, None, state, says, 0, 0, 0, at, at, at)


def post_one(
    connection: sqlite3.Connection, context: Context, now: datetime, draw: Draw, account: TellsAccount
) -> Letter | None:
    """Try the letter whose time has come; None where there is none."""
    found = outbox.due(connection, stamp(now))
    if found is None:
        return None
    kept = settings.read(connection, "mail")
    if found.unsure >= MOST_UNSURE:
        return _settle(connection, found, now, "failed", TWICE_UNSURE)
    if not kept:
        return _later(connection, found, now, NO_ACCOUNT)
    message = found.message or _written(connection, context, found, now, kept, draw)
    if isinstance(message, Letter):
        return message
    outbox.hand_over(connection, found.id)
    attempt = hand_over(account(kept, context.data), found.recipient, message)
    return _after(connection, found, now, attempt)


def _written(
    connection: sqlite3.Connection,
    context: Context,
    found: Letter,
    now: datetime,
    kept: dict[str, Any],
    draw: Draw,
) -> bytes | Letter:
    """The letter's bytes, kept before the first attempt; or the letter, where it cannot be written yet."""
    job, wish = jobs.find(connection, found.job), json.loads(found.wish)
    if job is None:
        return _settle(connection, found, now, "failed", NOT_WHOLE)
    lacks = any(context.blobs.find(name) is None for name in blob_names(job.document))
    if lacks and now - moment(found.queued_at) < PHOTOS_MAY_TAKE:
        return _later(connection, found, now, PHOTOS_COME)
    try:
        drawn = draw(job, wish)
        if len(drawn) > LARGEST_REPORT:
            drawn = draw(job, wish | {"form": "short"})
    except NotWholeError:
        return _settle(connection, found, now, "failed", NOT_WHOLE)
    except (process.BusyError, limits.ChildFailedError):
        return _later(connection, found, now, "The report could not be drawn; it is tried again.")
    message = letters.letter(
        identity=found.message_id,
        sender=plain_address(kept["sender"]),
        house=settings.read(connection, "workshop").get("name") or "",
        recipient=found.recipient,
        car=str((job.document.get("vehicle") or {}).get("registration") or ""),
        language=_language(wish),
        report=drawn,
        at=now,
    )
    outbox.keep_message(connection, found.id, message)
    return message


def _language(wish: dict[str, Any]) -> str:
    return wish["language"] if wish.get("language") in LANGUAGES else "en"


def _after(connection: sqlite3.Connection, found: Letter, now: datetime, attempt: Attempt) -> Letter:
    if attempt.outcome is Outcome.TAKEN:
        return _settle(connection, found, now, "sent", "")
    if attempt.outcome is Outcome.REFUSED:
        return _settle(connection, found, now, "failed", attempt.says)
    if attempt.outcome is Outcome.UNSURE:
        unsure = found.unsure + 1
        if unsure >= MOST_UNSURE:
            return _settle(connection, found, now, "failed", TWICE_UNSURE, unsure)
        return _later(connection, found, now, attempt.says, unsure)
    if now - moment(found.queued_at) > GIVES_UP_AFTER:
        return _settle(connection, found, now, "failed", attempt.says)
    return _later(connection, found, now, attempt.says)


def _later(
    connection: sqlite3.Connection, found: Letter, now: datetime, says: str, unsure: int | None = None
) -> Letter:
    """Still queued; the pauses double up to an hour."""
    pause = min(FIRST_PAUSE * 2 ** min(found.tries, 10), LONGEST_PAUSE)
    return _settle(connection, found, now, "queued", says, unsure, now + pause)


def _settle(
    connection: sqlite3.Connection,
    found: Letter,
    now: datetime,
    state: str,
    says: str,
    unsure: int | None = None,
    due: datetime | None = None,
) -> Letter:
    outbox.settle(
        connection,
        found.id,
        state,
        says,
        at=stamp(now),
        due_at=stamp(due or now),
        unsure=found.unsure if unsure is None else unsure,
    )
    return next(one for one in outbox.of_job(connection, found.job) if one.id == found.id)


def drawer(app: Flask) -> Draw:
    """Draws the report that a wish names."""

    def draw(job: KeptJob, wish: dict[str, Any]) -> bytes:
        with app.app_context(), closing(database.connect(app.extensions[KEY].database)) as connection:
            wanted = report.prepare(
                job.text,
                form=str(wish.get("form") or "customer"),
                unit=str(wish.get("unit") or "kPa"),
                language=_language(wish),
                made_at=last_change(connection, job.id),
                workshop=settings.read(connection, "workshop"),
                photo=shown.printed,
                read_log=logs.read,
            )
            context = app.extensions[KEY]
            return given.give(connection, context.blobs, context.clock, job.id, wanted)

    return draw


def keep_posting(app: Flask, tell: Callable[[str], Any]) -> threading.Event:
    """Post in a thread of the server until the event that is returned is set."""
    stop, context, draw = threading.Event(), app.extensions[KEY], drawer(app)

    def watch() -> None:
        with closing(database.connect(context.database)) as connection:
            outbox.interrupted(connection)
            while not stop.wait(LOOK_EVERY_SECONDS):
                with contextlib.suppress(sqlite3.OperationalError):  # another writes for long: next time
                    _round(connection, context, draw, tell)

    threading.Thread(target=watch, name="postman", daemon=True).start()
    return stop


def _round(connection: sqlite3.Connection, context: Context, draw: Draw, tell: Callable[[str], Any]) -> None:
    take_wishes(connection, context.clock())
    while found := post_one(connection, context, context.clock(), draw, account_of):
        if found.state != "queued":
            tell(f"E-mail for job {found.job}: {found.state}. {found.says}".strip())
