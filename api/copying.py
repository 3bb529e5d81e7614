"""The commands that copy a workshop's work: back it up, put it back, take in what a phone saved."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from functools import partial
from pathlib import Path
from typing import TypeVar

from api import backup, intake
from api.erasure import Eraser
from api.store import database
from api.store.blobs import Blobs

Result = TypeVar("Result")


class NotDoneError(Exception):
    """The command could not do its work; the message is one line for a person."""


def back_up(data: Path, file: Path) -> str:
    """Write the backup, and say so."""
    if not (data / backup.DATABASE).is_file():
        raise NotDoneError(f"{data} holds no workshop; name its folder with --data FOLDER")
    _try(lambda: backup.back_up(data, file))
    return f"Backed up to {file}"


def put_back(data: Path, file: Path) -> str:
    """Put the backup back, and say where the earlier work lies."""
    aside = _try(lambda: backup.restore(file, data))
    where = f" What was there lies in {aside}." if aside else ""
    return f"Put back from {file}. Everybody has to sign in again.{where}"


def take_in(data: Path, file: Path) -> str:
    """Take the copy in, and say what was new. The server may run meanwhile."""
    taken = _try(lambda: _take_in(data, file))
    return (
        f"Taken in: {taken.applied} entries and {taken.photos} photos were new, {taken.duplicate} were here"
        f" already, {len(taken.refused)} were refused."
    )


def _take_in(data: Path, file: Path) -> intake.TakenIn:
    data.mkdir(parents=True, exist_ok=True)
    blobs = Blobs(data / "blobs")
    blobs.incoming.mkdir(parents=True, exist_ok=True)
    with closing(database.connect(data / backup.DATABASE)) as connection, file.open("rb") as copy:
        database.bring_up_to_date(connection)
        learn = partial(Eraser(data, blobs).merge, connection)
        return intake.take_in(connection, blobs, learn, copy)


def _try(work: Callable[[], Result]) -> Result:
    try:
        return work()
    except (backup.BackupError, intake.NotACopyError, database.NewerDatabaseError) as reason:
        raise NotDoneError(str(reason)) from None
    except FileNotFoundError as missing:
        raise NotDoneError(f"{missing.filename}: no such file or folder") from None
    except (OSError, sqlite3.Error) as problem:
        raise NotDoneError(f"It could not be done: {problem}") from None


DO = {"backup": back_up, "restore": put_back, "take-in": take_in}
