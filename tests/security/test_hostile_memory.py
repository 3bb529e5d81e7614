"""The large hostile inputs on a server of their own: it answers, and holds about as much memory as before."""

import hashlib
import http.client
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.api.forty_photos import family, most_memory
from tests.browser.machines import Server
from tests.security.hostile_inputs import BODIES, COPIES
from tests.security.hostile_pictures import PICTURES

MOST_GROWTH_MB = 120  # of the server itself: a few bodies of 16 MB at a time, each held more than once
MOST_APART_MB = 400  # of a process that decodes: 40 megapixels are 120 MB, opened and turned upright
HEADERS = {"X-Teepiece": "1"}


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    server = Server(tmp_path_factory.mktemp("hostile") / "data")
    server.start()
    yield server
    server.stop()


def ask(server: Server, method: str, path: str, body: bytes = b"", kind: str = "application/json") -> int:
    connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=120)
    headers = HEADERS | {"Origin": server.url, "Content-Type": kind}
    connection.request(method, path, body, headers)
    answer = connection.getresponse()
    answer.read()
    connection.close()
    return answer.status


def test_what_is_large_is_refused_in_bounded_memory(server: Server, tmp_path: Path) -> None:
    """Zip bombs, 10 MB and deep JSON, 200 megapixels: bytes that are sent, bytes that they would become."""
    assert server.process is not None
    pid = server.process.pid
    before = most_memory(pid)
    statuses = {
        name: ask(server, "POST", "/api/copies", make(), "application/zip") for name, make in COPIES.items()
    }
    assert {name: status for name, status in statuses.items() if status not in (413, 422)} == {}
    for bodies in BODIES.values():
        assert {ask(server, "POST", "/api/sync", body) for body in bodies} <= {400, 413}
    for make in PICTURES.values():
        name = hashlib.sha256(make()).hexdigest()
        assert ask(server, "PUT", f"/api/blobs/{name}", make(), "application/octet-stream") == 201
        assert ask(server, "GET", f"/desk/photos/{name}.jpg") in (200, 404)
    assert ask(server, "GET", "/health") == 200
    assert most_memory(pid) - before < MOST_GROWTH_MB
    assert max(most_memory(one) for one in family(pid)[1:]) < MOST_APART_MB
