"""A workshop with a mail account at the tests' post office, and a clock that the test turns."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from flask import Flask

from api.app import create_app
from api.context import KEY
from api.mail import postman
from api.mail.account import Account
from api.store import database, outbox, settings
from api.store.outbox import Letter
from tests.api.phone import Phone, new_id, operation
from tests.mail.post_office import LOOPBACK, WAIT, PostOffice

BEGAN = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
REPORT = b"%PDF-1.7 a report"


class Mailing:
    """The outbox of one workshop, posted by hand."""

    def __init__(self, data: Path, office: PostOffice, *, has_account: bool = True) -> None:
        folder = data / "pwa"
        folder.mkdir(parents=True)
        (folder / "index.html").write_text("<!doctype html><title>shell</title>")
        self.app: Flask = create_app(data / "data", pwa=folder)
        self.office, self.now = office, BEGAN
        self.phone = Phone(self.app.test_client())
        self.drawn = 0
        if has_account:
            with self.connection() as connection:
                kept = {"host": LOOPBACK, "port": office.port, "protection": office.protection}
                settings.write(connection, "mail", kept | {"sender": "office@workshop.example"})

    @contextmanager
    def connection(self) -> Iterator[Any]:
        with closing(database.connect(self.app.extensions[KEY].database)) as opened:
            yield opened

    def wish(self, to: str = "a.sample@example.com", job: str | None = None, **more: Any) -> tuple[str, str]:
        """A job whose customer wants the report; its id and the wish's."""
        job, one = job or new_id(), new_id()
        value = {"rank": "m", "to": to, "form": "customer", "language": "en"} | more
        self.phone.sync(
            operation(job, "/vehicle/registration", "EX 4321"),
            operation(job, f"/deliveries/{one}", value, do="add"),
        )
        return job, one

    def take(self) -> int:
        with self.connection() as connection:
            return postman.take_wishes(connection, self.now)

    def post(self) -> Letter | None:
        """One attempt, where one is due."""
        with self.connection() as connection:
            context = self.app.extensions[KEY]
            return postman.post_one(connection, context, self.now, self._draw, self._account)

    def post_until_settled(self) -> Letter:
        """Attempts with the clock turned on between them, until the letter is no longer queued."""
        for _ in range(60):
            found = self.post()
            if found is not None and found.state != "queued":
                return found
            self.now += timedelta(hours=1)
        raise AssertionError("the letter is still queued after 60 hours")

    def letters(self, job: str) -> list[Letter]:
        with self.connection() as connection:
            return outbox.of_job(connection, job)

    def _draw(self, _job: Any, _wish: Any) -> bytes:
        self.drawn += 1
        return REPORT

    def _account(self, kept: dict[str, Any], _data: Path) -> Account:
        office = self.office
        return Account(
            kept["host"], kept["port"], kept["protection"], kept["sender"], trust=office.trust, seconds=WAIT
        )
