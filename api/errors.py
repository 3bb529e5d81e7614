"""What can go wrong with a request, in one shape for every client."""

import sqlite3

from flask import Flask, Response, jsonify
from werkzeug.exceptions import HTTPException


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


def register(app: Flask) -> None:
    """Let every error leave the server as JSON and without a traceback."""

    @app.errorhandler(Exception)
    def unexpected(error: Exception) -> tuple[Response, int]:
        app.logger.exception("a fault of our own", exc_info=error)
        return answer(Problem(500, "fault", "Something went wrong in the server. Nothing was changed."))

    @app.errorhandler(sqlite3.OperationalError)
    def storage(error: sqlite3.OperationalError) -> tuple[Response, int]:
        app.logger.error("the database could not be used: %s", error)
        return answer(
            Problem(503, "storage", "The server cannot write just now. Nothing was lost; try again.")
        )

    app.register_error_handler(Problem, answer)
    app.register_error_handler(HTTPException, from_http)
