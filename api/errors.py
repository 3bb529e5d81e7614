"""What can go wrong with a request, in one shape for every client."""

import errno
import shutil
import sqlite3

from flask import Flask, Response, jsonify
from werkzeug.exceptions import HTTPException

from api.context import context, fail
from api.people.language import asked_for
from api.words import text

HARDLY_ANY_ROOM = 1_000_000
NOT_WRITTEN = {
    "SQLITE_FULL": "storage.full",
    "SQLITE_READONLY": "storage.read_only",
    "SQLITE_CANTOPEN": "storage.unopened",
    "SQLITE_IOERR": "storage.disk",
    "SQLITE_CORRUPT": "storage.damaged",
    "SQLITE_NOTADB": "storage.damaged",
    "SQLITE_BUSY": "storage.busy",
}


class Problem(Exception):
    """A request that cannot be served: an HTTP status, one word for programs, one sentence for people."""

    def __init__(self, status: int, word: str, says: str) -> None:
        super().__init__(says)
        self.status = status
        self.word = word
        self.says = says


def answer(problem: Problem) -> tuple[Response, int]:
    """The JSON answer for a problem: `{"error": word, "says": sentence}`."""
    return jsonify({"error": problem.word, "says": problem.says}), problem.status


def from_http(error: HTTPException) -> tuple[Response, int]:
    """The same shape for what Flask itself refuses (unknown address, wrong method, too large a body)."""
    word = error.name.lower().replace(" ", "_")
    return answer(Problem(error.code or 500, word, error.description or error.name))


def no_room(error: OSError) -> Problem:
    """What a phone is told when a photo could not be written; it keeps the photo and sends it again."""
    is_full = error.errno in (errno.ENOSPC, errno.EDQUOT)
    return Problem(507, "no_room", _told("storage.full" if is_full else "storage.photo"))


def not_written(error: sqlite3.DatabaseError, free_bytes: int) -> Problem:
    """What a phone is told when the database cannot take its work; it keeps the work and sends it again."""
    name = getattr(error, "sqlite_errorname", "")
    if name.startswith("SQLITE_IOERR") and free_bytes < HARDLY_ANY_ROOM:
        name = "SQLITE_FULL"
    told = next((told for start, told in NOT_WRITTEN.items() if name.startswith(start)), "storage.not_now")
    return Problem(503, "storage", _told(told))


def _told(name: str) -> str:
    """What is wrong, and that nothing is lost; in the language asked for, since no database may be there."""
    return f"{text(asked_for(), name)} {text(asked_for(), 'storage.stays')}"


def register(app: Flask) -> None:
    """Let every error leave the server as JSON and without a traceback."""

    @app.errorhandler(Exception)
    def unexpected(error: Exception) -> tuple[Response, int]:
        app.logger.exception("a fault of our own", exc_info=error)
        return answer(Problem(500, "fault", text(asked_for(), "storage.fault")))

    @app.errorhandler(sqlite3.DatabaseError)
    def storage(error: sqlite3.DatabaseError) -> tuple[Response, int]:
        app.logger.error("the database could not be used: %s", error)
        fail()
        return answer(not_written(error, shutil.disk_usage(context().database.parent).free))

    app.register_error_handler(Problem, answer)
    app.register_error_handler(HTTPException, from_http)
