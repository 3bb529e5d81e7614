"""Records of what was erased: they refuse what comes late and blank what is folded."""

import sqlite3


def known(connection: sqlite3.Connection) -> list[dict[str, str]]:
    """Every record, ids and places only."""
    rows = connection.execute("SELECT id, job, path FROM erasures ORDER BY id")
    return [{"id": one, "job": job, "path": path} for one, job, path in rows]


def record(connection: sqlite3.Connection, erasure: dict[str, str]) -> None:
    """Keep a record; the same one again changes nothing."""
    connection.execute(
        "INSERT INTO erasures (id, job, path) VALUES (?, ?, ?) ON CONFLICT (id) DO NOTHING",
        (erasure["id"], erasure["job"], erasure["path"]),
    )
