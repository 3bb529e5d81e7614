"""Backups: which copies of the work there are, one more at once, and copies that phones saved."""

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from flask import flash, redirect, render_template, url_for
from flask_wtf.file import FileField, FileRequired
from wtforms import SubmitField

from api import backup, intake
from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.learning import learn
from api.office.forms import OfficeForm
from api.office.pages import Answer, blueprint
from api.people import trail
from api.people.language import Later, retell, tell

office_backups = blueprint("office_backups")


class CopyForm(OfficeForm):
    """A phone's saved copy."""

    file = FileField(Later("backups.copy"), validators=[FileRequired()])
    take_in = SubmitField(Later("shared.take_in"))


@dataclass(frozen=True)
class Copy:
    """One backup file."""

    name: str
    size_mb: float
    made_at: str


@office_backups.get("/backups")
def overview() -> Answer:
    """The copies in the data folder, the latest first."""
    data = context().data
    return render_template(
        "office/backups.html",
        folder=data / backup.NIGHTLY,
        copies=copies(data / backup.NIGHTLY),
        form=CopyForm(),
    )


@office_backups.post("/backups/make")
def make() -> Any:
    """Make this day's backup now, in place of an earlier one of the day."""
    try:
        made = backup.nightly(context().data, datetime.now().astimezone())
    except (OSError, backup.BackupError) as error:
        raise Problem(507, "no_backup", tell("backups.failed", why=error)) from None
    trail.note("did.made_backup", about=made.name)
    flash(tell("backups.done", name=made.name))
    return redirect(url_for("office_backups.overview"))


@office_backups.post("/backups/take-in")
def take_in() -> Any:
    """Take in the work of a phone that cannot sync."""
    form = CopyForm()
    if not form.validate_on_submit():
        raise Problem(400, "no_file", tell("file.none"))
    try:
        taken = intake.take_in(connection(), context().blobs, learn, form.file.data.stream).as_json()
    except intake.NotACopyError as reason:
        raise Problem(422, "not_a_copy", retell(str(reason), "copy")) from None
    trail.note("did.took_copy")
    flash(tell("backups.taken_in", **{name: _count(value) for name, value in taken.items()}))
    return redirect(url_for("office_jobs.search"))


def copies(folder: Path) -> list[Copy]:
    """Every backup in the folder, by the day it is named after."""
    found = sorted(folder.glob("*.zip"), reverse=True)
    return [Copy(path.name, path.stat().st_size / 1e6, _made_at(path)) for path in found]


def _made_at(path: Path) -> str:
    return stamp(datetime.fromtimestamp(path.stat().st_mtime, UTC))


def _count(value: Any) -> Any:
    return len(value) if isinstance(value, list) else value
