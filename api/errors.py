"""What can go wrong with a request, in one shape for every client."""

import errno
import shutil
import sqlite3

from flask import Flask, Response, jsonify
from werkzeug.exceptions import HTTPException

from api.context import context, fail

HARDLY_ANY_ROOM = 1_000_000
STAYS = "Nothing is lost: what was not taken stays on the phone and is sent again by itself."
NOT_WRITTEN = {
    "SQLITE_FULL": "The workshop's disk is full.",
    "SQLITE_READONLY": "The workshop's database is write-protected.",
    "SQLITE_CANTOPEN": "The workshop's database cannot be opened.",
    "SQLITE_IOERR": "The workshop's disk reports errors.",
    "SQLITE_CORRUPT": "The workshop's database is damaged; put a backup back.",
    "SQLITE_NOTADB": "The workshop's database is damaged; put a backup back.",
    "SQLITE_BUSY": "The workshop's database is busy.",
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
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return Problem(507, "no_room", f"The workshop's disk is full. {STAYS}")
    return Problem(507, "no_room", f"The workshop's computer could not write the photo to its disk. {STAYS}")


def not_written(error: sqlite3.DatabaseError, free_bytes: int) -> Problem:
    """What a phone is told when the database cannot take its work; it keeps the work and sends it again."""
    name = getattr(error, "sqlite_errorname", "")
    if name.startswith("SQLITE_IOERR") and free_bytes < HARDLY_ANY_ROOM:
        name = "SQLITE_FULL"
    for start, says in NOT_WRITTEN.items():
        if name.startswith(start):
            return Problem(503, "storage", f"{says} {STAYS}")
    return Problem(503, "storage", f"The workshop's computer cannot write just now. {STAYS}")


def register(app: Flask) -> None:
    """Let every error leave the server as JSON and without a traceback."""

    @app.errorhandler(Exception)
    def unexpected(error: Exception) -> tuple[Response, int]:
        app.logger.exception("a fault of our own", exc_info=error)
        return answer(Problem(500, "fault", "Something went wrong in the server. Nothing was changed."))

    @app.errorhandler(sqlite3.DatabaseError)
    def storage(error: sqlite3.DatabaseError) -> tuple[Response, int]:
        app.logger.error("the database could not be used: %s", error)
        fail()
        return answer(not_written(error, shutil.disk_usage(context().database.parent).free))

    app.register_error_handler(Problem, answer)
    app.register_error_handler(HTTPException, from_http)
