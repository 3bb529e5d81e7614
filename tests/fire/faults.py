"""Faults inside a server of ours: it dies, or its disk fails, at the N-th statement or file operation."""

import errno
import os
import signal
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest import mock

from api.store import database

Happening = Callable[[str], None]


def die(_what: str) -> None:
    """As a power cut would: nothing after this line runs."""
    os.kill(os.getpid(), signal.SIGKILL)


def failing(number: int) -> Happening:
    """An operation that the system refuses with this error."""

    def fail(what: str) -> None:
        raise OSError(number, f"{os.strerror(number)} (made to fail: {what})")

    return fail


DISK_ERRORS = (errno.EIO, errno.ENOSPC)


class Countdown:
    """Counts what happens and lets the fault happen at the N-th; 0: only counts."""

    def __init__(self, at: int = 0, happening: Happening = die) -> None:
        self.at = at
        self.happening = happening
        self.seen: list[str] = []

    def step(self, what: str) -> None:
        """One more; perhaps the last."""
        self.seen.append(what)
        if len(self.seen) == self.at:
            self.happening(what)


@contextmanager
def counted_statements(countdown: Countdown) -> Iterator[None]:
    """Every SQL statement of every connection is counted just before it runs."""
    connect = database.connect

    def counting(path: Path, **given: Any) -> sqlite3.Connection:
        connection = connect(path, **given)
        connection.set_trace_callback(countdown.step)
        return connection

    with mock.patch.object(database, "connect", counting):
        yield


class CountedFile:
    """A file whose writes are counted."""

    def __init__(self, file: Any, countdown: Countdown) -> None:
        self._file = file
        self._countdown = countdown

    def write(self, data: bytes) -> int:
        self._countdown.step("write")
        return int(self._file.write(data))

    def __enter__(self) -> "CountedFile":
        self._file.__enter__()
        return self

    def __exit__(self, *error: Any) -> Any:
        return self._file.__exit__(*error)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)


@contextmanager
def counted_files(countdown: Countdown) -> Iterator[None]:
    """Writes, fsyncs and renames of blobs are counted just before they happen."""
    fsync, replace, fdopen, opened = os.fsync, Path.replace, os.fdopen, Path.open

    def counted_fsync(handle: int) -> None:
        countdown.step("fsync")
        fsync(handle)

    def counted_replace(self: Path, target: Path) -> Path:
        countdown.step("rename")
        return replace(self, target)

    def counted_open(self: Path, mode: str = "r", *rest: Any, **more: Any) -> Any:
        file = opened(self, mode, *rest, **more)
        return CountedFile(file, countdown) if mode == "ab" else file

    with (
        mock.patch.object(os, "fsync", counted_fsync),
        mock.patch.object(Path, "replace", counted_replace),
        mock.patch.object(os, "fdopen", lambda *given: CountedFile(fdopen(*given), countdown)),
        mock.patch.object(Path, "open", counted_open),
    ):
        yield
