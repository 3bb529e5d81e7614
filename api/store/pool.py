"""Connections that stay open between requests: opening one costs more than most requests do."""

import os
import sqlite3
import threading
from pathlib import Path
from typing import NamedTuple

from api.store import database

MOST_IDLE = 8

_Identity = tuple[int, ...]


class Loan(NamedTuple):
    """A connection in one request's hands, and the file that it was opened on."""

    connection: sqlite3.Connection
    identity: _Identity


class Pool:
    """Connections to one file at a time, each used by one request at a time."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._idle: list[Loan] = []

    def take(self, path: Path) -> Loan:
        """An idle connection, or a new one where there is none to the file as it is there now."""
        identity = _identity(path)
        with self._lock:
            while self._idle:
                idle = self._idle.pop()
                if idle.identity == identity:
                    return idle
                idle.connection.close()
        return Loan(database.connect(path, of_one_thread=False), identity)

    def give_back(self, loan: Loan, *, sound: bool) -> None:
        """Keep it for the next request; after an error it is closed, so that the next one begins afresh."""
        with self._lock:
            keeps = sound and loan.identity and not loan.connection.in_transaction
            if keeps and len(self._idle) < MOST_IDLE:
                self._idle.append(loan)
                return
        loan.connection.close()


def _identity(path: Path) -> _Identity:
    """Another where another file takes its place, or may no longer be written; empty where there is none."""
    try:
        file, system = path.stat(), os.statvfs(path)
    except OSError:
        return ()
    return file.st_dev, file.st_ino, file.st_mode, system.f_flag
