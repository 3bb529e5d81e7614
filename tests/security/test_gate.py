"""What the gate before Flask's threads passes on, and how much of it the server ever holds."""

import asyncio
import resource
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from api.serve.gate import SMALL, Gate, Message, Receive, Send
from api.serve.start import OPEN_FILES
from tests.security.test_serving import Started

SCOPE = {"type": "http", "path": "/", "query_string": b"", "headers": [], "client": ("192.0.2.7", 4711)}


def answered(*messages: Message) -> list[Message]:
    """What comes out of the gate when the application behind it sends these messages."""
    sent: list[Message] = []

    async def app(_scope: Message, _receive: Receive, send: Send) -> None:
        for message in messages:
            await send(message)

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message: Message) -> None:
        sent.append(message)

    with ThreadPoolExecutor(1) as apart:  # another test's browser may keep a loop running in this thread
        apart.submit(lambda: asyncio.run(Gate(app)(dict(SCOPE), receive, send))).result()
    return sent


@pytest.mark.parametrize("size", [0, 1, SMALL, SMALL + 1, 3 * SMALL + 5])
@pytest.mark.parametrize("more", [True, False])
def test_a_large_answer_leaves_in_pieces(size: int, more: bool) -> None:
    """A piece waits for the one before: whoever reads slowly makes the server hold one, not the file."""
    body = bytes(range(256)) * (size // 256 + 1)
    start: dict[str, Any] = {"type": "http.response.start", "status": 200, "headers": []}
    last: dict[str, Any] = {"type": "http.response.body", "body": body[:size], "more_body": more}
    first, *pieces = answered(start, last)
    assert first == start
    assert b"".join(piece["body"] for piece in pieces) == body[:size]
    assert max(len(piece["body"]) for piece in pieces) <= SMALL
    assert [piece["more_body"] for piece in pieces] == [True] * (len(pieces) - 1) + [more]


def test_a_crowd_that_says_nothing_finds_files_enough(tmp_path: Path) -> None:
    started = Started(tmp_path / "data")
    try:
        limits = Path(f"/proc/{started.process.pid}/limits").read_text()
    finally:
        started.end()
    soft = next(line.split()[3] for line in limits.splitlines() if line.startswith("Max open files"))
    hard = resource.getrlimit(resource.RLIMIT_NOFILE)[1]
    assert int(soft) >= (OPEN_FILES if hard == resource.RLIM_INFINITY else min(OPEN_FILES, hard))
