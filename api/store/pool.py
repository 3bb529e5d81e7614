"""Connections that stay open between requests: opening one costs more than most requests do."""

import os
import sqlite3
import threading
from pathlib import Path

from api.store import database

MOST_IDLE = 8

_Identity = tuple[int, ...]


class Pool:
    """Connections to one file at a time, each used by one request at a time."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._idle: list[tuple[_Identity, sqlite3.Connection]] = []

    def take(self, path: Path) -> sqlite3.Connection:
        """An idle connection, or a new one where there is none to the file as it is there now."""
        with self._lock:
            while self._idle:
                identity, connection = self._idle.pop()
                if identity == _identity(path):
                    return connection
                connection.close()
        return database.connect(path, of_one_thread=False)

    def give_back(self, path: Path, connection: sqlite3.Connection, *, sound: bool) -> None:
        """Keep it for the next request; after an error it is closed, so that the next one begins afresh."""
        identity = _identity(path)
        with self._lock:
            if sound and identity and not connection.in_transaction and len(self._idle) < MOST_IDLE:
                self._idle.append((identity, connection))
                return
        connection.close()


def _identity(path: Path) -> _Identity:
    """Another where another file takes its place, or may no longer be written; empty where there is none."""
    try:
        file, system = path.stat(), os.statvfs(path)
    except OSError:
        return ()
    return file.st_dev, file.st_ino, file.st_mode, system.f_flag
