"""S18: the workshop is put back from an older backup at every step of a sync."""

import random
import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path
from typing import Any

from api import backup
from api.erasure import Eraser, of_customer
from api.store import database
from api.store.blobs import Blobs
from api.store.erasures import own_key
from tests.fire import checks
from tests.fire.lines import Http, UnreachableError
from tests.fire.phone import Phone
from tests.fire.scenario import Outcome, folder, scenario
from tests.fire.server_faults import work
from tests.fire.workshop import Nursery, Workshop

SECRET = "Zaphira Quillfeather"


class Interrupted:
    """A line that lets some questions through and then is dead."""

    def __init__(self, line: Http, questions: int) -> None:
        self.line = line
        self.left = questions

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, Any, bytes]:
        if self.left == 0:
            raise UnreachableError("put back meanwhile")
        self.left -= 1
        return self.line.ask(method, path, body, **headers)


@scenario("S18")
def put_back(small: bool) -> Iterator[Outcome]:
    """Backup, work, erasure, restore in the middle of a sync: nothing lost, no erased name back."""
    dice = random.Random(18)
    restores = 0
    with folder() as space, Nursery() as nursery:
        for turn in range(3 if small else 60):
            _once(nursery, space / f"{turn}", dice, questions=turn % 6)
            restores += 1
    yield Outcome("S18", "older backup put back at every step of a sync", restores, held=True)


def _once(nursery: Nursery, space: Path, dice: random.Random, questions: int) -> None:
    data = space / "data"
    workshop = Workshop(nursery, data).start()
    one, other = (Phone(name, Http(workshop.port), dice) for name in "AB")
    job, erased = one.new_id(), one.new_id()
    work(one, job, dice)
    one.change(erased, "set", "/customer/name", SECRET)
    one.change(erased, "set", "/spec/source", "stays")
    one.photograph(job, dice.randbytes(5000))
    for phone in (one, other):
        phone.sync()
    _sign_in(data)
    backup.back_up(data, space / "old.zip")
    _forget_people(data)
    _erase(data, erased)
    for phone in (other, one, other):
        work(phone, job, dice, 2)
        phone.sync()
    other.photograph(job, dice.randbytes(100_000))
    other.sync()
    one.sync()
    work(one, job, dice, 3)
    one.photograph(job, dice.randbytes(3000))
    one.line = Interrupted(Http(workshop.port), questions)
    with suppress(UnreachableError):
        one.sync()
    workshop.kill()
    backup.restore(space / "old.zip", data)
    _nobody_is_signed_in(data)
    workshop.start()
    for phone in (one, other, one, other):
        phone.line = Http(workshop.port)
        phone.sync()
    workshop.kill()
    checks.all_is_there(data, [one, other])
    assert one.folded(job) == other.folded(job)
    assert "customer" not in one.folded(erased).document
    assert [
        path.name for path in data.rglob("*") if path.is_file() and SECRET.encode() in path.read_bytes()
    ] == []


def _sign_in(data: Path) -> None:
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        connection.execute("INSERT INTO people VALUES ('p', 'n', 'owner', 'x', '2026', NULL)")
        connection.execute("INSERT INTO sessions VALUES ('s', 't', 'p', NULL, '2026', '2026', '')")
        connection.commit()


def _nobody_is_signed_in(data: Path) -> None:
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        assert connection.execute("SELECT COUNT(*) FROM people").fetchone() == (1,)
        assert connection.execute("SELECT COUNT(*) FROM sessions").fetchone() == (0,)
    _forget_people(data)


def _forget_people(data: Path) -> None:
    """Without accounts the server takes phones on loopback as they are: sign-in is no part of this."""
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        connection.execute("DELETE FROM sessions")
        connection.execute("DELETE FROM people")
        connection.commit()


def _erase(data: Path, job: str) -> None:
    with closing(database.connect(data / "workshop.sqlite3")) as connection:
        Eraser(data, Blobs(data / "blobs")).merge(connection, of_customer(own_key(connection), job))
