"""The library of limits: for one engine one quantity's limit, where it is from, and who typed it."""

import sqlite3
from dataclasses import astuple, dataclass


@dataclass(frozen=True)
class VehicleLimit:
    """`quantity` is a key of the contract's `spec`; `least` and `most` are numbers as typed, or None."""

    id: str
    make: str
    model: str
    engine: str
    quantity: str
    least: str | None
    most: str | None
    source: str
    typed_by: str
    typed_at: str


def keep(connection: sqlite3.Connection, limit: VehicleLimit) -> None:
    """Add a limit; one for the same engine and quantity is replaced, with its source and its typist."""
    connection.execute(
        "DELETE FROM vehicle_limits WHERE id = ? OR (make, model, engine, quantity) = (?, ?, ?, ?)",
        (limit.id, limit.make, limit.model, limit.engine, limit.quantity),
    )
    connection.execute("INSERT INTO vehicle_limits VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", astuple(limit))


def find(connection: sqlite3.Connection, one: str) -> VehicleLimit | None:
    """The limit of that id, or None."""
    row = connection.execute(f"{_SELECT} WHERE id = ?", (one,)).fetchone()
    return VehicleLimit(*row) if row else None


def every(connection: sqlite3.Connection) -> list[VehicleLimit]:
    """All of them, car by car."""
    rows = connection.execute(f"{_SELECT} ORDER BY make, model, engine, quantity")
    return [VehicleLimit(*row) for row in rows]


def remove(connection: sqlite3.Connection, one: str) -> None:
    """Take a limit out of the library."""
    connection.execute("DELETE FROM vehicle_limits WHERE id = ?", (one,))


_SELECT = (
    "SELECT id, make, model, engine, quantity, least, most, source, typed_by, typed_at FROM vehicle_limits"
)
