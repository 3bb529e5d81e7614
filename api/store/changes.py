"""When a job changed."""

import sqlite3


def last_change(connection: sqlite3.Connection, job: str) -> str:
    """When the job's last operation arrived, by the server's clock: RFC 3339."""
    row = connection.execute(
        "SELECT received_at FROM operations WHERE job = ? ORDER BY number DESC LIMIT 1", (job,)
    ).fetchone()
    return str(row[0])
