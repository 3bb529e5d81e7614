"""What a request needs from the running server, in one place."""

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from flask import Flask, current_app, g

from api.address import Address
from api.clock import Clock, utc_now
from api.serve.page import Welcome
from api.shelf import Shelf
from api.store.blobs import Blobs
from api.store.pool import Loan, Pool

KEY = "teepiece"
POOL = "teepiece_connections"
PROJECT = Path(__file__).resolve().parent.parent


@dataclass(frozen=True)
class Reached:
    """How phones reach this server. `address` is None where it serves loopback alone.

    `former` addresses are answered under too; `set_up_code` is asked for on the first run; `welcome` is what
    a phone is told that has never been here.
    """

    address: Address | None = None
    former: tuple[Address, ...] = ()
    set_up_code: str | None = None
    welcome: Welcome | None = None


ON_LOOPBACK = Reached()


@dataclass(frozen=True)
class Context:
    """The folders and files that this server works with, and how it is reached."""

    database: Path
    blobs: Blobs
    calc: Path
    shelf: Shelf
    reached: Reached = ON_LOOPBACK
    clock: Clock = utc_now

    @property
    def address(self) -> Address | None:
        """The workshop's present address, or None."""
        return self.reached.address

    @property
    def addresses(self) -> tuple[Address, ...]:
        """Every address that is answered under: the present one, and those that phones may still know."""
        return (self.address, *self.reached.former) if self.address else ()

    @property
    def data(self) -> Path:
        """The folder that all of it lies in."""
        return self.database.parent


def attach(app: Flask, context: Context) -> None:
    """Hand the context to the app's requests, and close what they opened."""
    app.extensions[KEY] = context
    app.extensions[POOL] = Pool()
    app.teardown_appcontext(_close)


def context() -> Context:
    """The context of the request that is being served."""
    found: Context = current_app.extensions[KEY]
    return found


def connection() -> sqlite3.Connection:
    """This request's own connection to the database."""
    if "loan" not in g:
        g.loan = current_app.extensions[POOL].take(context().database)
    loan: Loan = g.loan
    return loan.connection


def fail() -> None:
    """Say that the database failed this request: its connection is not used again."""
    g.failed = True


def _close(error: BaseException | None) -> None:
    loan = g.pop("loan", None)
    if loan is not None:
        sound = error is None and not g.get("failed")
        current_app.extensions[POOL].give_back(loan, sound=sound)
