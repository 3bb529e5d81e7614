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
    Migration(
        2,
        "people, phones, office",
        (
            """CREATE TABLE settings (
                name TEXT PRIMARY KEY,
                value TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE people (
                id TEXT PRIMARY KEY,
                name TEXT NOT NULL UNIQUE COLLATE NOCASE,
                role TEXT NOT NULL CHECK (role IN ('owner', 'technician', 'office')),
                password TEXT NOT NULL,
                since TEXT NOT NULL,
                left_at TEXT
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE phones (
                id TEXT PRIMARY KEY,
                name TEXT NOT NULL,
                person TEXT NOT NULL REFERENCES people (id),
                token_sha256 TEXT NOT NULL UNIQUE,
                paired_at TEXT NOT NULL,
                last_sync_at TEXT,
                revoked_at TEXT
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE pairing_codes (
                code_sha256 TEXT PRIMARY KEY,
                person TEXT NOT NULL REFERENCES people (id),
                made_at TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE sessions (
                id TEXT PRIMARY KEY,
                token_sha256 TEXT NOT NULL UNIQUE,
                person TEXT NOT NULL REFERENCES people (id),
                phone TEXT REFERENCES phones (id),
                began_at TEXT NOT NULL,
                seen_at TEXT NOT NULL,
                browser TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE attempts (
                subject TEXT NOT NULL,
                at TEXT NOT NULL
            ) STRICT""",
            "CREATE INDEX attempts_by_subject ON attempts (subject, at)",
            """CREATE TABLE audit (
                number INTEGER PRIMARY KEY,
                at TEXT NOT NULL,
                person TEXT NOT NULL,
                name TEXT NOT NULL,
                did TEXT NOT NULL,
                about TEXT NOT NULL
            ) STRICT""",
            """CREATE TRIGGER audit_is_never_changed BEFORE UPDATE ON audit
                BEGIN SELECT RAISE(ABORT, 'the audit trail is only added to'); END""",
            """CREATE TRIGGER audit_is_never_deleted BEFORE DELETE ON audit
                BEGIN SELECT RAISE(ABORT, 'the audit trail is only added to'); END""",
            """CREATE TABLE register_gauges (
                id TEXT PRIMARY KEY,
                label TEXT NOT NULL UNIQUE COLLATE NOCASE,
                gauge TEXT NOT NULL,
                calibrated_on TEXT,
                due_on TEXT,
                retired_at TEXT
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE vehicle_limits (
                id TEXT PRIMARY KEY,
                make TEXT NOT NULL,
                model TEXT NOT NULL,
                engine TEXT NOT NULL,
                quantity TEXT NOT NULL,
                least TEXT,
                most TEXT,
                source TEXT NOT NULL,
                typed_by TEXT NOT NULL,
                typed_at TEXT NOT NULL,
                UNIQUE (make, model, engine, quantity)
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE prices (
                id TEXT PRIMARY KEY,
                kind TEXT NOT NULL CHECK (kind IN ('part', 'labour', 'other')),
                name TEXT NOT NULL UNIQUE COLLATE NOCASE,
                unit TEXT NOT NULL,
                price TEXT NOT NULL,
                tax_pct TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
            """CREATE TABLE job_words (
                job TEXT PRIMARY KEY REFERENCES jobs (id),
                registration TEXT NOT NULL,
                customer TEXT NOT NULL,
                opened_on TEXT NOT NULL,
                fault TEXT NOT NULL,
                says TEXT NOT NULL,
                words TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
            """CREATE TRIGGER job_words_are_made_anew AFTER UPDATE ON jobs
                BEGIN DELETE FROM job_words WHERE job = old.id; END""",
        ),
    ),
    Migration(
        3,
        "jobs by their last change, phones' clocks",
        (
            "CREATE INDEX jobs_by_last_number ON jobs (last_number)",
            """CREATE TABLE clocks (
                device TEXT PRIMARY KEY,
                offset_s INTEGER NOT NULL,
                noted_at TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
        ),
    ),
    Migration(
        4,
        "outbox, jobs by their car",
        (
            """CREATE TABLE outbox (
                id TEXT PRIMARY KEY,
                job TEXT NOT NULL,
                recipient TEXT NOT NULL,
                wish TEXT NOT NULL,
                message_id TEXT NOT NULL UNIQUE,
                message BLOB,
                state TEXT NOT NULL CHECK (state IN ('queued', 'sent', 'failed', 'bounced')),
                says TEXT NOT NULL,
                tries INTEGER NOT NULL,
                unsure INTEGER NOT NULL,
                handing_over INTEGER NOT NULL,
                queued_at TEXT NOT NULL,
                due_at TEXT NOT NULL,
                changed_at TEXT NOT NULL
            ) STRICT, WITHOUT ROWID""",
            "CREATE INDEX outbox_by_job ON outbox (job)",
            "CREATE INDEX outbox_by_due ON outbox (due_at) WHERE state = 'queued'",
            """CREATE INDEX jobs_by_registration ON jobs
                (upper(replace(replace(json_extract(document, '$.vehicle.registration'),
                    ' ', ''), '-', '')))""",
            """CREATE INDEX jobs_by_vin ON jobs
                (upper(replace(replace(json_extract(document, '$.vehicle.vin'), ' ', ''), '-', '')))""",
        ),
    ),
    Migration(
        5,
        "jobs whose document is behind their operations",
        (
            """CREATE TABLE behind (
                job TEXT PRIMARY KEY,
                last_number INTEGER NOT NULL
            ) STRICT, WITHOUT ROWID""",
        ),
    ),
    Migration(
        6,
        "reports that were given out",
        (
            """CREATE TABLE reports (
                job TEXT NOT NULL,
                drawn_from TEXT NOT NULL,
                sha256 TEXT NOT NULL,
                form TEXT NOT NULL,
                paper TEXT NOT NULL,
                unit TEXT NOT NULL,
                language TEXT NOT NULL,
                made_at TEXT NOT NULL,
                given_at TEXT NOT NULL,
                PRIMARY KEY (job, drawn_from)
            ) STRICT, WITHOUT ROWID""",
            "CREATE INDEX reports_by_sum ON reports (sha256)",
        ),
    ),
    Migration(
        7,
        "what each job proved",
        (
            "DELETE FROM job_words",
            "ALTER TABLE job_words ADD COLUMN proved TEXT NOT NULL DEFAULT ''",
        ),
    ),
)
