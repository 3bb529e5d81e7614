"""The server as a process on this machine's own address."""

import errno
import signal
import socket
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from types import FrameType

from flask import Flask
from waitress.server import BaseWSGIServer, create_server  # type: ignore[import-untyped]

from api import backup, documents
from api import demo as demo_job
from api.app import create_app
from api.context import KEY, Context
from api.mail import postman
from api.store import database, operations
from api.store.database import NewerDatabaseError

LOOPBACK = "127.0.0.1"
THREADS = 8
LARGEST_BODY = 17 * 1024 * 1024  # a little over the largest photo, which its own route limits
PIECE = 64 * 1024  # what is read from a connection at once; a batch of operations comes in two


class NotStartedError(Exception):
    """The server cannot start; the message is one line that says why and what helps."""


def serve(data_dir: Path | str, port: int = 8000, demo: bool = True) -> None:
    """Serve the workshop in `data_dir` on loopback until SIGTERM or ctrl-C; port 0 takes a free one.

    With `demo`, a workshop that holds no job yet gets the demo job. Raises `NotStartedError`.
    """
    folder = Path(data_dir)
    with hold(folder):
        _serve(folder, port, demo)


def _serve(folder: Path, port: int, demo: bool) -> None:
    app, demo_id = _open(folder, demo)
    server = _listen(app, port)
    address = f"http://{LOOPBACK}:{server.effective_port}"
    _say(f"Teepiece is at {address} (data in {folder})")
    if demo_id:
        _say(f"The demo job: {address}/#/job/{demo_id}, and at the desk: {address}/desk/jobs/{demo_id}")
    _say("Stop with ctrl-C.")
    signal.signal(signal.SIGTERM, _interrupt)
    try:
        with at_work(app, _say):
            server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()
    _say("Stopped. Everything that was acknowledged is kept.")


@contextmanager
def at_work(app: Flask, report: Callable[[str], object]) -> Iterator[None]:
    """What goes on beside the requests: documents, the nightly backup, the e-mail; one connection held open.

    Without that one the last request to end would write the log back and take it away each time, which costs
    ten times the request.
    """
    context: Context = app.extensions[KEY]
    with closing(database.connect(context.database)):
        stops = [
            documents.keep_up(context.database),
            backup.keep_nightly(context.data, report),
            postman.keep_posting(app, report),
        ]
        try:
            yield
        finally:
            for stop in stops:
                stop.set()


@contextmanager
def hold(folder: Path) -> Iterator[None]:
    """No second server and no restore on this folder meanwhile."""
    with ExitStack() as held:
        try:
            held.enter_context(backup.only_user(folder))
        except backup.BackupError as reason:
            raise NotStartedError(str(reason)) from None
        except OSError as problem:
            raise NotStartedError(f"{folder}: no data can be kept there ({problem.strerror}).") from None
        yield


def _open(folder: Path, demo: bool) -> tuple[Flask, str | None]:
    """The app over the folder, and the demo job's id where it was put in or is there."""
    try:
        app = create_app(folder)
        return app, _demo(app.extensions[KEY], demo)
    except NewerDatabaseError as reason:
        raise NotStartedError(f"{folder}: {reason}") from None
    except sqlite3.DatabaseError as problem:
        raise NotStartedError(
            f"{folder}: the database cannot be used ({problem}). Another folder: --data FOLDER"
        ) from None
    except OSError as problem:
        raise NotStartedError(
            f"{folder}: no data can be kept there ({problem.strerror}). Another folder: --data FOLDER"
        ) from None


def _demo(context: Context, wanted: bool) -> str | None:
    with closing(database.connect(context.database)) as connection:
        if wanted and operations.end(connection).number == 0:
            demo_job.put_in(connection, context.blobs)
        return demo_job.there(connection)


def _listen(app: Flask, port: int) -> BaseWSGIServer:
    try:
        listening = socket.create_server((LOOPBACK, port))
    except OSError as problem:
        if problem.errno == errno.EADDRINUSE:
            raise NotStartedError(f"Port {port} is taken already; another one: --port {port + 1}") from None
        raise NotStartedError(f"Port {port} cannot be used: {problem.strerror}") from None
    return create_server(
        app,
        sockets=[listening],
        threads=THREADS,
        ident=None,
        max_request_body_size=LARGEST_BODY,
        recv_bytes=PIECE,
    )


def _interrupt(_number: int, _frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def _say(sentence: str) -> None:
    sys.stdout.write(f"{sentence}\n")
    sys.stdout.flush()
