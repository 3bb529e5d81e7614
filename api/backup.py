"""Backups: the whole workshop in one file, put back only when every byte of it is right; and one each night.

A backup is a zip: the database as SQLite's own backup writes it while the server works on, erasure records,
the photos, a list of SHA-256 sums. The nightly ones keep their photos once, in a folder beside them, since a
photo never changes; of one that was erased an empty file stays there.
"""

import hashlib
import json
import os
import shutil
import sqlite3
import tempfile
import threading
import zipfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from api.erasure import FILE_NAME as ERASURES
from api.erasure import Eraser, truncate_log
from api.store import database, erasures, jobs, operations, reports
from api.store.blobs import Blobs

FORMAT = "teepiece-backup/1"
DATABASE = "workshop.sqlite3"
MANIFEST = "backup.json"
NIGHTLY = "backups"
# Not in a backup, and still right after a restore: phones go on trusting the certificate.
STAYS = frozenset({NIGHTLY, "in-use.lock", "certificates", "cookies.key", "mail.password", "logs"})
PHOTOS = "photos"
KEPT_DAYS = 7
KEPT_WEEKS = 4
LOOK_EVERY_SECONDS = 600
HOUR_OF_NIGHT = 2
PIECE = 1024 * 1024


class BackupError(Exception):
    """The backup was not made, or cannot be put back; the message is one sentence for a person."""


def back_up(data: Path, target: Path) -> None:
    """Write everything in the data folder to one file. The server may be at work meanwhile."""
    blobs = Blobs(data / "blobs")
    with _whole_file(target) as archive:
        _write_database(data, archive)
        _write_photos(blobs, archive)


def restore(source: Path, data: Path) -> Path | None:
    """Put a backup back; what was there is moved aside, and its place is returned.

    Erasure records of both are merged and applied again; every session ends.

    Raises
    ------
    BackupError
        the file is damaged or no backup, or the server runs: nothing was changed
    """
    with only_user(data), tempfile.TemporaryDirectory(dir=_parent(data)) as space:
        fresh = Path(space) / "fresh"
        _unpack(source, fresh)
        aside = _move_aside(data)
        _move_in(fresh, data)
    if aside:
        _append_erasures(aside, data)
    _settle(data)
    os.sync()  # many files at once: a power cut from here on finds them all
    return aside


def nightly(data: Path, now: datetime) -> Path:
    """Write this night's backup, and let go of those that are old.

    A photo that this disk has damaged or lost is in it as it was copied earlier, or not at all.
    """
    folder = data / NIGHTLY
    (folder / PHOTOS).mkdir(parents=True, exist_ok=True)
    photos = _keep_photos(data, folder / PHOTOS)
    target = folder / f"{now:%Y-%m-%d}.zip"
    with _whole_file(target) as archive:
        _write_database(data, archive)
        for name in photos:
            archive.sums[f"{PHOTOS}/{name}"] = name
    for old in _too_old(folder):
        old.unlink()
    return target


def is_due(data: Path, now: datetime) -> bool:
    """Whether a nightly backup is to be made: none of today after two o'clock, or none for a day."""
    latest = max((path.stem for path in (data / NIGHTLY).glob("*.zip")), default="")
    if latest >= f"{now:%Y-%m-%d}":
        return False
    return now.hour >= HOUR_OF_NIGHT or latest < f"{now - timedelta(days=1):%Y-%m-%d}"


def keep_nightly(data: Path, report: Any) -> threading.Event:
    """Make nightly backups in a thread of the server until the event that is returned is set.

    `report(sentence)` is told of each that was made and of each that failed; the server goes on either way.
    """
    stop = threading.Event()

    def watch() -> None:
        while not stop.is_set():
            now = datetime.now().astimezone()
            if is_due(data, now):
                report(_tried(data, now))
            stop.wait(LOOK_EVERY_SECONDS)

    threading.Thread(target=watch, name="nightly backup", daemon=True).start()
    return stop


def _tried(data: Path, now: datetime) -> str:
    try:
        return f"Backup made: {nightly(data, now).name}"
    except (OSError, sqlite3.Error, BackupError) as error:
        return f"The nightly backup was not made: {error}"


@contextmanager
def only_user(data: Path) -> Iterator[None]:
    """Hold the data folder: a server that runs and a restore shut each other out.

    Raises BackupError where another process holds it.
    """
    import fcntl

    data.mkdir(parents=True, exist_ok=True)
    with (data / "in-use.lock").open("w") as held:
        try:
            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise BackupError(f"Another process uses {data}. End the server first.") from None
        yield


class _Archive:
    """A zip that is being written, with the sum of each file in it."""

    def __init__(self, archive: zipfile.ZipFile) -> None:
        self.archive = archive
        self.sums: dict[str, str] = {}

    def add(self, name: str, path: Path, compression: int) -> None:
        self.archive.write(path, name, compress_type=compression)
        self.sums[name] = _sum(path)


@contextmanager
def _whole_file(target: Path) -> Iterator[_Archive]:
    """A file that has its name only once it is whole and on the disk."""
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".backup-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            with zipfile.ZipFile(file, "w") as zipped:
                archive = _Archive(zipped)
                yield archive
                zipped.writestr(MANIFEST, json.dumps(_manifest(archive), indent=1), zipfile.ZIP_DEFLATED)
            file.flush()
            os.fsync(file.fileno())
        part.replace(target)
    finally:
        part.unlink(missing_ok=True)


def _manifest(archive: _Archive) -> dict[str, Any]:
    made_at = datetime.now(UTC).isoformat(timespec="seconds")
    return {"format": FORMAT, "made_at": made_at, "sha256": archive.sums}


def _write_database(data: Path, archive: _Archive) -> None:
    with tempfile.TemporaryDirectory() as space:
        copy = Path(space) / DATABASE
        with closing(sqlite3.connect(data / DATABASE)) as source, closing(sqlite3.connect(copy)) as target:
            source.backup(target)
        archive.add(DATABASE, copy, zipfile.ZIP_DEFLATED)
    if (data / ERASURES).is_file():
        archive.add(ERASURES, data / ERASURES, zipfile.ZIP_DEFLATED)


def _write_photos(blobs: Blobs, archive: _Archive) -> None:
    for name in blobs.names():
        path = blobs.find(name)
        if path is None:
            continue
        archive.add(f"{PHOTOS}/{name}", path, zipfile.ZIP_STORED)
        if archive.sums[f"{PHOTOS}/{name}"] != name:
            raise BackupError(f"The photo {name} is damaged on this disk; the backup was not made.")


def _keep_photos(data: Path, folder: Path) -> list[str]:
    """Copy the photos that are not beside the nightly backups yet; the names of all that are there.

    Of one that was erased an empty file stays. One that is gone from the disk and still named was lost, not
    erased: its copy stays what it is.
    """
    present = {path.name for path in folder.iterdir() if not path.name.startswith(".")}
    current = set(Blobs(data / "blobs").names())
    for name in current - present:
        _copy_photo(Blobs(data / "blobs").find(name), folder, name)
    with closing(database.connect(data / DATABASE)) as connection:
        for name in present - current:
            if not _is_named(connection, name):
                (folder / name).write_bytes(b"")
    return sorted(path.name for path in folder.iterdir() if path.stat().st_size and path.name[0] != ".")


def _copy_photo(path: Path | None, folder: Path, name: str) -> None:
    """Under its name only once it is whole and on the disk; a damaged one is left out."""
    part = folder / f".{name}"
    if path is None:
        return
    shutil.copyfile(path, part)
    if _sum(part) != name:
        part.unlink()
        return
    with part.open("rb") as file:
        os.fsync(file.fileno())
    part.replace(folder / name)


def _is_named(connection: sqlite3.Connection, name: str) -> bool:
    return operations.mention(connection, name) or reports.of_sum(connection, name) is not None


def _too_old(folder: Path) -> list[Path]:
    """All but the last seven, and of those before them the last of each of four weeks."""
    by_day = sorted(folder.glob("????-??-??.zip"), reverse=True)
    weeks: dict[str, Path] = {}
    for path in by_day[KEPT_DAYS:]:
        weeks.setdefault(datetime.fromisoformat(path.stem).strftime("%G-%V"), path)
    kept = {*by_day[:KEPT_DAYS], *list(weeks.values())[:KEPT_WEEKS]}
    return [path for path in by_day if path not in kept]


def _unpack(source: Path, fresh: Path) -> None:
    """The backup as a data folder, each byte held against its sum, the database looked through by SQLite."""
    try:
        with zipfile.ZipFile(source) as archive:
            sums = _sums(archive)
            for name, expected in sums.items():
                _unpack_one(source, archive, name, expected, fresh)
    except (OSError, zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError) as error:
        raise BackupError(f"{source.name} cannot be read as a backup: {error}") from error
    _look_through(fresh / DATABASE)


def _sums(archive: zipfile.ZipFile) -> dict[str, str]:
    try:
        manifest = json.loads(archive.read(MANIFEST))
        sums: dict[str, str] = manifest["sha256"]
        is_ours = manifest["format"] == FORMAT and DATABASE in sums
    except (KeyError, TypeError, ValueError) as error:
        raise BackupError("This file is no backup of a workshop.") from error
    if not is_ours:
        raise BackupError("This file is no backup of a workshop.")
    return sums


def _unpack_one(source: Path, archive: zipfile.ZipFile, name: str, expected: str, fresh: Path) -> None:
    """A photo that is not in the file lies beside it, where the nightly backups keep theirs."""
    target = _place(name, fresh)
    target.parent.mkdir(parents=True, exist_ok=True)
    beside = source.parent / PHOTOS / Path(name).name
    if name in archive.NameToInfo:
        with archive.open(name) as packed, target.open("wb") as file:
            shutil.copyfileobj(packed, file, PIECE)
    elif name.startswith(f"{PHOTOS}/") and beside.is_file():
        if beside.stat().st_size == 0:
            return  # erased since
        shutil.copyfile(beside, target)
    else:
        raise BackupError(f"The backup is not whole: {name} is missing. Nothing was changed.")
    if _sum(target) != expected:
        raise BackupError(f"The backup is damaged: {name} is not what it was. Nothing was changed.")


def _place(name: str, fresh: Path) -> Path:
    """Where a file of the backup goes; its name is looked up, not followed."""
    if name in (DATABASE, ERASURES):
        return fresh / name
    blob = name.removeprefix(f"{PHOTOS}/")
    if len(blob) != 64 or set(blob) - set("0123456789abcdef"):
        raise BackupError("This file is no backup of a workshop.")
    return fresh / "blobs" / blob[:2] / blob


def _look_through(path: Path) -> None:
    try:
        with closing(sqlite3.connect(path)) as connection:
            (verdict,) = connection.execute("PRAGMA integrity_check").fetchone()
    except sqlite3.DatabaseError as error:
        raise BackupError("The database in the backup is damaged. Nothing was changed.") from error
    if verdict != "ok":
        raise BackupError("The database in the backup is damaged. Nothing was changed.")


def _parent(data: Path) -> Path:
    data.parent.mkdir(parents=True, exist_ok=True)
    return data.parent


def _move_aside(data: Path) -> Path | None:
    """What the folder held, but for what no backup holds, moved into a folder beside it."""
    old = [path for path in data.iterdir() if path.name not in STAYS]
    if not old:
        return None
    stamp = datetime.now(UTC).strftime("%Y%m%d-%H%M%S-%f")
    aside = data.parent / f"{data.name}-before-restore-{stamp}"
    aside.mkdir()
    for path in old:
        path.rename(aside / path.name)
    return aside


def _move_in(fresh: Path, data: Path) -> None:
    for path in fresh.iterdir():
        path.rename(data / path.name)


def _append_erasures(aside: Path, data: Path) -> None:
    """Records that this workshop made after the backup: they are not undone by it."""
    known = set(Eraser(aside, Blobs(aside / "blobs")).records())
    if (aside / DATABASE).is_file():
        known |= set(_records_in(aside / DATABASE))
    lines = [json.dumps(record.as_json(), sort_keys=True) + "\n" for record in sorted(known)]
    with (data / ERASURES).open("a", encoding="utf-8") as file:
        file.writelines(["\n", *lines])
        file.flush()
        os.fsync(file.fileno())


def _records_in(path: Path) -> list[erasures.Erasure]:
    try:
        with closing(sqlite3.connect(path)) as connection:
            return erasures.all_records(connection)
    except sqlite3.DatabaseError:
        return []  # what is put back replaces a database that is itself damaged


def _settle(data: Path) -> None:
    """Up to date, nobody signed in, erased places blank, every document made again."""
    blobs = Blobs(data / "blobs")
    blobs.prepare()
    with closing(database.connect(data / DATABASE)) as connection:
        database.bring_up_to_date(connection)
        Eraser(data, blobs).merge(connection)
        with database.writing(connection):
            jobs.remake_all(connection)
            _end_sessions(connection)
        truncate_log(connection)


def _end_sessions(connection: sqlite3.Connection) -> None:
    tables = connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name = 'sessions'")
    if tables.fetchone():
        connection.execute("DELETE FROM sessions")


def _sum(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
