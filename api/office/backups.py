"""Backups: where the work lies, and which copies of it there are."""

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from flask import render_template

from api.clock import stamp
from api.context import context
from api.office.pages import Answer, blueprint

office_backups = blueprint("office_backups")

FOLDER = "backups"


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
    return render_template("office/backups.html", folder=data, copies=copies(data / FOLDER))


def copies(folder: Path) -> list[Copy]:
    """Every file in the folder of backups."""
    files = [path for path in folder.iterdir() if path.is_file()] if folder.is_dir() else []
    found = [
        Copy(path.name, path.stat().st_size / 1e6, stamp(datetime.fromtimestamp(path.stat().st_mtime, UTC)))
        for path in files
        if not path.name.startswith(".")
    ]
    return sorted(found, key=lambda copy: copy.made_at, reverse=True)
