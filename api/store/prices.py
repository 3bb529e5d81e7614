"""The price list: parts, labour and what else is charged for. Money is kept as exact decimal text."""

import sqlite3
from dataclasses import astuple, dataclass


@dataclass(frozen=True)
class Price:
    """One line: `price` is for one `unit`, without tax, in the workshop's currency."""

    id: str
    kind: str
    name: str
    unit: str
    price: str
    tax_pct: str


class PriceNameTakenError(Exception):
    """Another line has this name."""


def keep(connection: sqlite3.Connection, price: Price) -> None:
    """Add a line, or change the one with this id.

    Raises
    ------
    PriceNameTakenError
    """
    try:
        connection.execute(
            "INSERT INTO prices (id, kind, name, unit, price, tax_pct) VALUES (?, ?, ?, ?, ?, ?)"
            " ON CONFLICT (id) DO UPDATE SET kind = excluded.kind, name = excluded.name,"
            " unit = excluded.unit, price = excluded.price, tax_pct = excluded.tax_pct",
            astuple(price),
        )
    except sqlite3.IntegrityError:
        raise PriceNameTakenError from None


def find(connection: sqlite3.Connection, one: str) -> Price | None:
    """The line of that id, or None."""
    row = connection.execute(f"{_SELECT} WHERE id = ?", (one,)).fetchone()
    return Price(*row) if row else None


def every(connection: sqlite3.Connection) -> list[Price]:
    """The whole list, by kind and name."""
    return [Price(*row) for row in connection.execute(f"{_SELECT} ORDER BY kind, name")]


def remove(connection: sqlite3.Connection, one: str) -> None:
    """Take a line off the list."""
    connection.execute("DELETE FROM prices WHERE id = ?", (one,))


_SELECT = "SELECT id, kind, name, unit, price, tax_pct FROM prices"
