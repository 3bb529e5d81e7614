"""The numbered steps from an empty file to the present tables; a step once released never changes."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Migration:
    """One step: its number, its name, and the statements that run together with its record."""

    number: int
    name: str
    statements: tuple[str, ...]


MIGRATIONS = (
    Migration(
        1,
        "operations and jobs",
        (
            """CREATE TABLE operations (
                number INTEGER PRIMARY KEY,
                id TEXT NOT NULL UNIQUE,
                job TEXT NOT NULL,
                made BLOB NOT NULL,
                sha256 TEXT NOT NULL,
                hash TEXT NOT NULL,
                received_at TEXT NOT NULL
            ) STRICT""",
            "CREATE INDEX operations_by_job ON operations (job, number)",
            """CREATE TABLE jobs (
                id TEXT PRIMARY KEY,
                document TEXT NOT NULL,
                conflicts TEXT NOT NULL,
                hidden TEXT NOT NULL,
                waiting TEXT NOT NULL,
                last_number INTEGER NOT NULL
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE erasures (
                id TEXT PRIMARY KEY,
                job TEXT NOT NULL,
                path TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
        ),
    ),
)
