"""What stands between the network and Flask's threads, so that nobody holds a thread by being slow.

A thread is given to a request only once its small body is here whole. A large body (a photo) is passed on
piece by piece, but Flask refuses those whom it does not know before it reads. An answer goes out piece by
piece too, as fast as it is taken: nobody makes the server hold many of them. No address has more under way
at once than leaves threads for the others.
"""

import asyncio
import json
from collections.abc import AsyncIterator, Awaitable, Callable, MutableMapping
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import Any

SMALL = 64 * 1024
AT_ONCE = 32
LONGEST_QUEUE = 1000
PIECE_SECONDS = 30.0
SMALL_BODY_SECONDS = 30.0

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

TOO_LARGE = (413, "too_large", "A request of this size says its length beforehand.")
TOO_SLOW = (408, "too_slow", "The request did not come within 30 seconds.")
TOO_MANY = (503, "busy", "Too much is under way from this address. Try again in a moment.")
NOT_PLAIN = (400, "bad_request", "The address is not written in plain letters.")


class Refusal(Exception):
    """The request goes no further; `answer` is status, word and sentence."""

    def __init__(self, answer: tuple[int, str, str]) -> None:
        self.answer = answer


@dataclass
class Queue:
    """One address's requests: how many there are, and the places of those under way."""

    places: asyncio.Semaphore
    length: int = 0


class Gate:
    """An ASGI application in front of another."""

    def __init__(self, app: App, at_once: int = AT_ONCE, seconds: float = SMALL_BODY_SECONDS) -> None:
        self.app, self.at_once, self.seconds = app, at_once, seconds
        self.queues: dict[str, Queue] = {}

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        try:
            async with self._turn((scope.get("client") or ("",))[0]):
                await self._pass(scope, receive, send)
        except Refusal as refusal:
            await _answer(send, *refusal.answer)

    @asynccontextmanager
    async def _turn(self, source: str) -> AsyncIterator[None]:
        """A place among those that one address may have; a browser's crowd of files waits in line."""
        queue = self.queues.setdefault(source, Queue(asyncio.Semaphore(self.at_once)))
        if queue.length >= LONGEST_QUEUE:
            raise Refusal(TOO_MANY)
        queue.length += 1
        try:
            async with queue.places:
                yield
        finally:
            queue.length -= 1
            if queue.length == 0:
                self.queues.pop(source, None)

    async def _pass(self, scope: Message, receive: Receive, send: Send) -> None:
        if not scope["query_string"].isascii() or "\ufffd" in scope["path"]:
            raise Refusal(NOT_PLAIN)
        await self.app(scope, await self._body(scope, receive), _in_pieces(send))

    async def _body(self, scope: Message, receive: Receive) -> Receive:
        """A small body as a whole; a large one by pieces, each within its time."""
        if _length(scope) > SMALL:
            return _unhurried(receive)
        try:
            async with asyncio.timeout(self.seconds):
                body = await _whole(receive)
        except TimeoutError:
            raise Refusal(TOO_SLOW) from None
        return _replayed(body, receive)


def _length(scope: Message) -> int:
    """What the request says of its length; nothing counts as small, and is held to that."""
    said = next((value for name, value in scope["headers"] if name == b"content-length"), b"0")
    return int(said) if said.isdigit() else 0


async def _whole(receive: Receive) -> bytes:
    body = b""
    while True:
        message = await receive()
        body += bytes(message.get("body", b""))
        if len(body) > SMALL:
            raise Refusal(TOO_LARGE)
        if not message.get("more_body"):
            return body


def _replayed(body: bytes, receive: Receive) -> Receive:
    pending: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def replay() -> Message:
        return pending.pop() if pending else await receive()

    return replay


def _unhurried(receive: Receive) -> Receive:
    async def piece() -> Message:
        try:
            return await asyncio.wait_for(receive(), PIECE_SECONDS)
        except TimeoutError:
            return {"type": "http.disconnect"}

    return piece


def _in_pieces(send: Send) -> Send:
    """Each piece waits until the one before is nearly all taken by the network."""

    async def pieces(message: Message) -> None:
        body = memoryview(message.get("body", b""))
        while len(body) > SMALL:
            await send({**message, "body": bytes(body[:SMALL]), "more_body": True})
            body = body[SMALL:]
        await send({**message, "body": bytes(body)} if "body" in message else message)

    return pieces


async def _answer(send: Send, status: int, word: str, says: str) -> None:
    body = json.dumps({"error": word, "says": says}).encode()
    headers = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
