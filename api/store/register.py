"""The workshop's gauges, with their calibration."""

import json
import sqlite3
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class RegisteredGauge:
    """A gauge by its label. `gauge` is what a job holds of it, by the contract, without an id."""

    id: str
    label: str
    gauge: dict[str, Any]
    calibrated_on: str | None
    due_on: str | None
    retired_at: str | None


class LabelTakenError(Exception):
    """Another gauge has this label."""


def keep(connection: sqlite3.Connection, one: RegisteredGauge) -> None:
    """Add a gauge, or change the one with this id.

    Raises
    ------
    LabelTakenError
    """
    try:
        connection.execute(
            "INSERT INTO register_gauges (id, label, gauge, calibrated_on, due_on, retired_at)"
            " VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET label = excluded.label,"
            " gauge = excluded.gauge, calibrated_on = excluded.calibrated_on, due_on = excluded.due_on",
            (one.id, one.label, json.dumps(one.gauge), one.calibrated_on, one.due_on, one.retired_at),
        )
    except sqlite3.IntegrityError:
        raise LabelTakenError from None


def find(connection: sqlite3.Connection, one: str) -> RegisteredGauge | None:
    """The gauge of that id, or None."""
    row = connection.execute(f"{_SELECT} WHERE id = ?", (one,)).fetchone()
    return _gauge(row) if row else None


def every(connection: sqlite3.Connection) -> list[RegisteredGauge]:
    """All gauges, those in use first, by label."""
    return [_gauge(row) for row in connection.execute(f"{_SELECT} ORDER BY retired_at IS NOT NULL, label")]


def retire(connection: sqlite3.Connection, one: str, at: str) -> None:
    """Take a gauge out of use; jobs that it was used in keep what they hold of it."""
    connection.execute(
        "UPDATE register_gauges SET retired_at = ? WHERE id = ? AND retired_at IS NULL", (at, one)
    )


_SELECT = "SELECT id, label, gauge, calibrated_on, due_on, retired_at FROM register_gauges"


def _gauge(row: tuple[str, str, str, str | None, str | None, str | None]) -> RegisteredGauge:
    one, label, gauge, calibrated_on, due_on, retired_at = row
    return RegisteredGauge(one, label, json.loads(gauge), calibrated_on, due_on, retired_at)
