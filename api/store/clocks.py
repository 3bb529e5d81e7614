"""How far each phone's clock is from the server's: it orders nothing, but a report says when one is wrong."""

import sqlite3
from datetime import UTC, datetime

WORTH_NOTING_SECONDS = 30
LONGEST_DEVICE = 64


def note(connection: sqlite3.Connection, device: object, clock: object) -> None:
    """Keep a phone's offset (server less phone, in seconds) where it is new or has moved."""
    if not isinstance(device, str) or not isinstance(clock, str) or not 0 < len(device) <= LONGEST_DEVICE:
        return
    now = datetime.now(UTC)
    try:
        offset = round((now - datetime.fromisoformat(clock)).total_seconds())
    except (ValueError, TypeError, OverflowError):
        return
    known = connection.execute("SELECT offset_s FROM clocks WHERE device = ?", (device,)).fetchone()
    if known and abs(known[0] - offset) < WORTH_NOTING_SECONDS:
        return
    connection.execute(
        "INSERT INTO clocks (device, offset_s, noted_at) VALUES (?, ?, ?)"
        " ON CONFLICT (device) DO UPDATE SET offset_s = excluded.offset_s, noted_at = excluded.noted_at",
        (device, offset, now.isoformat(timespec="seconds")),
    )


def offsets(connection: sqlite3.Connection) -> dict[str, int]:
    """Seconds by which the server was ahead of each phone, at its last contact."""
    return dict(connection.execute("SELECT device, offset_s FROM clocks").fetchall())
