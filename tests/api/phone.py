"""A phone as the tests need it: it makes operations, keeps the numbered list, and talks to the server."""

import hashlib
import itertools
import json
from typing import Any

from flask.testing import FlaskClient

CHANGE = {"X-Teepiece": "1", "Origin": "http://localhost"}
_counter = itertools.count(1)


def new_id() -> str:
    """A UUID of version 7 in form (RFC 9562), counted up so that tests are the same every time."""
    return f"019ac0de-0000-7000-8000-{next(_counter):012x}"


def operation(job: str, path: str, value: Any = None, *, do: str = "set", **more: Any) -> dict[str, Any]:
    """An operation as a phone makes it; `more` overrides or adds keys."""
    made = {"id": new_id(), "job": job, "device": "A", "person": "p1", "at": "2026-11-25T09:12:00+00:00"}
    made |= {"do": do, "path": path, "replaced": []}
    if do != "remove":
        made["value"] = value
    return made | more


class Phone:
    """Its list, where it stands, and one exchange at a time."""

    def __init__(self, client: FlaskClient) -> None:
        self.client = client
        self.number, self.hash = 0, ""
        self.entries: list[dict[str, Any]] = []

    def post(self, texts: list[str], **more: Any) -> Any:
        """The raw answer to a batch of operation texts."""
        body = {"device": "A", "number": self.number, "hash": self.hash, "operations": texts} | more
        return self.client.post("/api/sync", json=body, headers=CHANGE)

    def sync(self, *operations: dict[str, Any]) -> list[str]:
        """Send operations, take up the list to its end, and return the answers."""
        reply = self.post([json.dumps(one) for one in operations]).json
        answers = [answer["answer"] for answer in reply["answers"]]
        self._take_up(reply)
        while reply["more"]:
            reply = self.post([]).json
            self._take_up(reply)
        return answers

    def _take_up(self, reply: dict[str, Any]) -> None:
        if reply["restart"]:
            self.entries = []
        self.entries.extend(reply["entries"])
        self.number, self.hash = reply["number"], reply["hash"]


def own_hash(entries: list[dict[str, Any]]) -> str:
    """The running hash by the rule of `operations.md`, worked out by the test itself."""
    running = ""
    for entry in entries:
        one = json.loads(entry["operation"])["id"]
        running = hashlib.sha256(f"{running} {entry['number']} {one}".encode()).hexdigest()
    return running


def made(client: FlaskClient, *changes: tuple[str, Any]) -> str:
    """A job with these values at these places, synced by a phone; its id."""
    job = new_id()
    answers = Phone(client).sync(*(operation(job, path, value) for path, value in changes))
    assert set(answers) == {"applied"}
    return job
