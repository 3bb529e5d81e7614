"""The two listening servers in one event loop: started, watched over, and stopped in order."""

import asyncio
import logging
import signal
import ssl
from collections.abc import Sequence
from typing import Any

from a2wsgi import WSGIMiddleware
from flask import Flask
from hypercorn.asyncio import serve
from hypercorn.config import Config

from api.serve.gate import Gate
from api.serve.keys import Certificate

# PDFs are drawn in processes of their own, while the thread that asked for one waits.
THREADS = 48
PLAIN_THREADS = 4
CHECKED_EVERY_SECONDS = 3600.0
HANDSHAKE_SECONDS = 10
IDLE_SECONDS = 15
STOP_SECONDS = 10
STOP_GRACE_SECONDS = 5
MOST_CUTS, CUT_SECONDS = 5, 1.0

log = logging.getLogger("teepiece.serve")


class WithContext(Config):
    """hypercorn's settings, with a TLS context that we keep and renew ourselves."""

    def __init__(self, bind: str, context: ssl.SSLContext | None) -> None:
        super().__init__()
        self._context = context
        self.bind = [bind]
        self.accesslog = None
        self.errorlog = logging.getLogger("teepiece.serve.http")
        self.include_server_header = False
        self.ssl_handshake_timeout = HANDSHAKE_SECONDS
        self.keep_alive_timeout = IDLE_SECONDS
        self.graceful_timeout = STOP_SECONDS
        self.backlog = 256

    @property
    def ssl_enabled(self) -> bool:
        return self._context is not None

    def create_ssl_context(self) -> ssl.SSLContext | None:
        return self._context


class Servers:
    """HTTPS for the app and plain HTTP for the certificate's page, until `stop`."""

    def __init__(
        self,
        secure: tuple[Flask, str],
        plain: tuple[Flask, str] | None,
        certificates: Sequence[Certificate],
        checked_every: float = CHECKED_EVERY_SECONDS,
    ) -> None:
        self.secure, self.plain = secure, plain
        self.certificates = certificates
        self.checked_every = checked_every
        self._stop: asyncio.Event | None = None
        self._loop: asyncio.AbstractEventLoop | None = None

    def run(self, *, on_signals: bool = True) -> None:
        """Serve until a signal to end comes, or `stop`; what is under way is finished first."""
        loop = asyncio.new_event_loop()
        try:
            loop.run_until_complete(self._run(on_signals))
        finally:
            cut_off(loop)
            loop.close()

    def stop(self) -> None:
        """End from another thread."""
        if self._loop and self._stop:
            self._loop.call_soon_threadsafe(self._stop.set)

    async def _run(self, on_signals: bool) -> None:
        self._loop, self._stop = asyncio.get_running_loop(), asyncio.Event()
        self._loop.set_exception_handler(_quietly)
        if on_signals:
            for one in (signal.SIGTERM, signal.SIGINT):
                self._loop.add_signal_handler(one, self._stop.set)
        watch = asyncio.create_task(self._renew())
        serving = asyncio.gather(*self._serving(self._stop))
        asked_to_stop = asyncio.create_task(self._stop.wait())
        try:
            either: set[asyncio.Future[Any]] = {serving, asked_to_stop}
            await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
            # What is under way is given its time; a peer that never answers does not keep the server.
            await asyncio.wait_for(serving, STOP_SECONDS + STOP_GRACE_SECONDS)
        except TimeoutError:
            log.warning("connections that did not end were cut off")
        except ssl.SSLError as problem:
            log.info("a connection ended untidily: %s", problem)
        finally:
            watch.cancel()
            asked_to_stop.cancel()

    def _serving(self, stop: asyncio.Event) -> list[Any]:
        app, bind = self.secure
        gate: Any = Gate(WSGIMiddleware(app, workers=THREADS))  # type: ignore[arg-type]
        started = [serve(gate, WithContext(bind, self.certificates[0].context), shutdown_trigger=stop.wait)]
        if self.plain:
            page, plain_bind = self.plain
            gate = Gate(WSGIMiddleware(page, workers=PLAIN_THREADS))  # type: ignore[arg-type]
            started.append(serve(gate, WithContext(plain_bind, None), shutdown_trigger=stop.wait))
        return started

    async def _renew(self) -> None:
        """Look at the certificates now and then. What goes wrong is logged; the present ones stay in use."""
        while True:
            await asyncio.sleep(self.checked_every)
            for one in self.certificates:
                try:
                    if one.check():
                        log.info("the certificate was renewed")
                except (OSError, ValueError) as error:
                    log.error("the certificate could not be renewed: %s", error)


def cut_off(loop: asyncio.AbstractEventLoop) -> None:
    """End what is left in a loop that is at its end.

    `asyncio.run` asks once and then waits for ever: a connection that is being closed takes that for its own
    farewell, and waits for a peer that says nothing.
    """
    for _ in range(MOST_CUTS):
        left = asyncio.all_tasks(loop)
        if not left:
            return
        for one in left:
            one.cancel()
        loop.run_until_complete(asyncio.wait(left, timeout=CUT_SECONDS))
    loop.set_exception_handler(lambda *_: None)


def _quietly(loop: asyncio.AbstractEventLoop, about: dict[str, Any]) -> None:
    """Failed handshakes and connections cut off at the stop are no faults of ours."""
    error = about.get("exception")
    if not isinstance(error, OSError | asyncio.CancelledError):
        loop.default_exception_handler(about)
