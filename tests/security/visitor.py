"""A workshop with people, and browsers that visit it: what the tests of safety and office start from."""

import re
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from api.address import Address
from api.app import create_app
from api.clock import stamp
from api.context import KEY, Reached
from api.people import passwords
from api.store import database, people, phones, settings
from api.store.people import Person

HOME = Address("teepiece.home.arpa", 8443)
PASSWORD = "seven odd spanners hum"
COOKIES = ("__Host-teepiece", "__Host-teepiece-phone")
ROLES = ("owner", "technician", "office")
TOKEN = re.compile(r'name="csrf_token"[^>]*value="([^"]+)"')
CODE = re.compile(r"\b[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{4}\b")
WORKSHOP = {"name": "Hill Lane Garage", "currency": "EUR", "tax_pct": "19", "unit": "bar"}


@dataclass
class Clock:
    """A clock that the test sets."""

    now: datetime = field(default_factory=lambda: datetime(2026, 11, 25, 9, 0, tzinfo=UTC))

    def __call__(self) -> datetime:
        return self.now

    def pass_by(self, **time: float) -> None:
        self.now += timedelta(**time)


class Workshop:
    """A workshop on its Wi-Fi; by default it was set up and has one person of each role, named after it."""

    def __init__(self, data: Path, pwa: Path, *, is_set_up: bool = True) -> None:
        self.clock = Clock()
        self.data = data
        reached = Reached(HOME, set_up_code=None if is_set_up else "ABCD-EFGH")
        self.app: Flask = create_app(data, pwa=pwa, reached=reached, clock=self.clock)
        self.app.testing = True
        if is_set_up:
            with closing(self.connect()) as connection:
                settings.write(connection, "workshop", WORKSHOP)
                for role in ROLES:
                    people.add(
                        connection,
                        Person(role, role, role, passwords.hashed(PASSWORD), stamp(self.clock()), None),
                    )

    def connect(self) -> Any:
        return database.connect(self.app.extensions[KEY].database)

    def visitor(self, **environ: Any) -> "Visitor":
        return Visitor(self.app.test_client(), HOME.origin, environ)

    def signed_in(self, role: str) -> "Visitor":
        visitor = self.visitor()
        assert visitor.sign_in(role).status_code == 302
        return visitor

    def phone(self, role: str = "technician", name: str = "the pit's phone") -> "Visitor":
        """A phone, paired for the person of that role."""
        phone = self.visitor()
        assert phone.pair(self.signed_in(role).pairing_code(role), name).status_code == 302
        return phone

    def revoke(self, name: str) -> None:
        """Let the owner shut the phone of that name out."""
        with closing(self.connect()) as connection:
            (found,) = (phone for phone in phones.every(connection) if phone.name == name)
        self.signed_in("owner").fill("/office/phones", {"phone": found.id}, to="/office/phones/revoke")


@dataclass
class Visitor:
    """One browser, with its own cookies."""

    client: FlaskClient
    origin: str
    environ: dict[str, Any] = field(default_factory=dict)

    def get(self, path: str, **more: Any) -> TestResponse:
        return self.client.get(path, base_url=self.origin, environ_overrides=self.environ, **more)

    def send(self, method: str, path: str, **more: Any) -> TestResponse:
        """A change as our own pages ask for it."""
        headers = {"Origin": self.origin, "X-Teepiece": "1"} | more.pop("headers", {})
        return self.client.open(
            path,
            method=method,
            base_url=self.origin,
            headers=headers,
            environ_overrides=self.environ,
            **more,
        )

    def fill(self, page: str, data: dict[str, Any] | None = None, to: str = "", **more: Any) -> TestResponse:
        """Open a page, and send its form with these values."""
        found = TOKEN.search(self.get(page).text)
        assert found, f"no form on {page}"
        return self.send("POST", to or page, data={"csrf_token": found[1], **(data or {})}, **more)

    def sign_in(self, name: str, password: str = PASSWORD) -> TestResponse:
        return self.fill("/sign-in", {"person": name, "password": password})

    def pairing_code(self, person: str) -> str:
        found = CODE.search(self.fill("/office/phones", {"person": person}, to="/office/phones/code").text)
        assert found
        return found[0]

    def pair(self, code: str, name: str = "the pit's phone") -> TestResponse:
        return self.fill("/pair", {"code": code, "phone": name})

    def sync(self, *texts: str) -> TestResponse:
        body = {"device": "A", "number": 0, "hash": "", "operations": list(texts)}
        return self.send("POST", "/api/sync", json=body)

    def cookies(self) -> dict[str, str]:
        found = {name: self.client.get_cookie(name, HOME.host) for name in COOKIES}
        return {name: cookie.value for name, cookie in found.items() if cookie}

    def take_over(self, cookies: dict[str, str]) -> None:
        for name, value in cookies.items():
            self.client.set_cookie(name, value, domain=HOME.host, secure=True)

    def is_signed_in(self) -> bool:
        return self.get("/api/session").status_code == 200
