"""How a phone of the tests reaches a server: over real HTTP, or straight into the application."""

import http.client
import json
from typing import Any, Protocol

from flask.testing import FlaskClient


class UnreachableError(Exception):
    """No whole answer came: the phone knows nothing of what the server did."""


class Line(Protocol):
    """One question, one answer: status, headers, body."""

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, Any, bytes]: ...


class Http:
    """A connection of its own for each question."""

    def __init__(self, port: int, seconds: float = 20.0) -> None:
        self.port = port
        self.seconds = seconds

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, Any, bytes]:
        connection = self.connection()
        sent = {
            "X-Teepiece": "1",
            "Origin": f"http://127.0.0.1:{self.port}",
            "Host": f"127.0.0.1:{self.port}",
        }
        sent |= {name.replace("_", "-"): value for name, value in headers.items()}
        try:
            connection.request(method, path, body or None, sent)
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read()
        except (OSError, http.client.HTTPException) as error:
            raise UnreachableError(str(error)) from None
        finally:
            self.done(connection)

    def connection(self) -> http.client.HTTPConnection:
        """What the next question goes over."""
        return http.client.HTTPConnection("127.0.0.1", self.port, timeout=self.seconds)

    def done(self, connection: http.client.HTTPConnection) -> None:
        """The question was answered, or failed."""
        connection.close()


class StandingHttp(Http):
    """One connection for all questions, as a browser has it; for `with`."""

    def __enter__(self) -> "StandingHttp":
        self.standing = super().connection()
        return self

    def __exit__(self, *_: object) -> None:
        self.standing.close()

    def connection(self) -> http.client.HTTPConnection:
        return self.standing

    def done(self, connection: http.client.HTTPConnection) -> None:
        """It stays open."""


class Direct:
    """Into the application itself, for very many questions."""

    def __init__(self, client: FlaskClient) -> None:
        self.client = client

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, Any, bytes]:
        sent = {"X-Teepiece": "1", "Origin": "http://localhost"}
        sent |= {name.replace("_", "-"): value for name, value in headers.items()}
        answer = self.client.open(path, method=method, data=body, headers=sent)
        return answer.status_code, answer.headers, answer.data


def as_json(status: int, body: bytes) -> Any:
    """The body of an answer, or the error that it carries."""
    try:
        value = json.loads(body)
    except ValueError:
        raise UnreachableError(f"no answer of ours: {status} {body[:80]!r}") from None
    if status >= 400:
        raise ServerSaysNoError(status, value)
    return value


class ServerSaysNoError(Exception):
    """The server answered with an error; `says` is its sentence for people."""

    def __init__(self, status: int, value: dict[str, Any]) -> None:
        super().__init__(f"{status} {value}")
        self.status = status
        self.says = value.get("says", "")
