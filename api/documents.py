"""Job documents kept up with their operations, beside the requests."""

import contextlib
import sqlite3
import threading
from contextlib import closing
from pathlib import Path

from api.store import database, jobs

LOOK_EVERY_SECONDS = 1.0


def keep_up(path: Path) -> threading.Event:
    """Fold what has changed in a thread of the server until the event that is returned is set.

    Whoever reads a job before that has it folded there and then: this saves readers the work, no more.
    """
    stop = threading.Event()

    def watch() -> None:
        with closing(database.connect(path)) as connection:
            while not stop.wait(LOOK_EVERY_SECONDS):
                with contextlib.suppress(sqlite3.OperationalError):  # no room, or another writes: next time
                    jobs.catch_up(connection)

    threading.Thread(target=watch, name="documents", daemon=True).start()
    return stop
