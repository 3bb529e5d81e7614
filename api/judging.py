"""What the workshop has set about judging: whether its own proved jobs weigh, and its own minutes a test.

Both are written into a job when a phone opens it, so that phone and server judge it alike. The demo job is
nobody's and does not count. Counts grow only by jobs that the office has read (`office.jobs.read_new_jobs`).
"""

import sqlite3
from typing import Any

import calc
from api import demo
from api.store import job_words, settings

NAME = "judging"


def read(connection: sqlite3.Connection) -> dict[str, Any]:
    """The settings as kept: `proved_weigh`, `minutes`."""
    kept = settings.read(connection, NAME)
    return {"proved_weigh": bool(kept.get("proved_weigh")), "minutes": kept.get("minutes") or {}}


def write(connection: sqlite3.Connection, *, proved_weigh: bool, minutes: dict[str, float]) -> None:
    """Set both in place of the earlier ones."""
    settings.write(connection, NAME, {"proved_weigh": proved_weigh, "minutes": minutes})


def proved_jobs(connection: sqlite3.Connection) -> dict[str, int]:
    """In how many of the workshop's jobs each fault was proved."""
    return job_words.proved_counts(connection, but=str(demo.document()["id"]))


def for_jobs(connection: sqlite3.Connection) -> dict[str, dict[str, float]]:
    """What a new job gets under `/workshop`: priors (none unless they are to weigh) and minutes."""
    kept = read(connection)
    weights = calc.prior_weights(proved_jobs(connection)) if kept["proved_weigh"] else {}
    return {"priors": weights, "minutes": kept["minutes"]}
