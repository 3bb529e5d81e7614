"""What the workshop has set, by name: each value is JSON."""

import json
import sqlite3
from typing import Any


def read(connection: sqlite3.Connection, name: str) -> dict[str, Any]:
    """The values under that name; empty where nothing was set."""
    row = connection.execute("SELECT value FROM settings WHERE name = ?", (name,)).fetchone()
    value: dict[str, Any] = json.loads(row[0]) if row else {}
    return value


def write(connection: sqlite3.Connection, name: str, value: dict[str, Any]) -> None:
    """Set them in place of the earlier ones."""
    connection.execute(
        "INSERT INTO settings (name, value) VALUES (?, ?)"
        " ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        (name, json.dumps(value, ensure_ascii=False, sort_keys=True)),
    )
