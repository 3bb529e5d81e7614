"""HTTPS as phones meet it: answers without a body, connections that say nothing, renewal, the end."""

import asyncio
import http.client
import logging
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from flask import Flask, Response, request

from api.serve import start
from api.serve.https import Servers, cut_off
from api.serve.keys import OfOurOwn
from api.serve.logs import to_file
from api.serve.unit import unit
from tests.security.visitor import Clock

HOST = "garage.home.arpa"
ROOT = Path(__file__).resolve().parents[2]


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as probe:
        return int(probe.getsockname()[1])


class Https:
    """A server of ours in a thread, and a client that trusts its authority."""

    def __init__(self, app: Flask, folder: Path, checked_every: float = 3600.0) -> None:
        self.clock = Clock(datetime.now(UTC))
        self.port = free_port()
        self.own = OfOurOwn(folder, HOST, list, self.clock)
        self.servers = Servers((app, f"127.0.0.1:{self.port}"), None, [self.own], checked_every)
        self.thread = threading.Thread(target=self.servers.run, kwargs={"on_signals": False})
        self.trust = ssl.create_default_context(cadata=self.own.authority.pem.decode())

    def connect(self, source: str = "127.0.0.1") -> socket.socket:
        return socket.create_connection(("127.0.0.1", self.port), timeout=20, source_address=(source, 0))

    def ask(
        self, method: str, path: str, body: bytes | None = None, source: str = "127.0.0.1", **headers: str
    ) -> tuple[int, dict[str, str], bytes]:
        secured = self.trust.wrap_socket(self.connect(source), server_hostname=HOST)
        connection = http.client.HTTPConnection(HOST)
        connection.sock = secured
        connection.request(method, path, body, headers)
        answer = connection.getresponse()
        found = (answer.status, dict(answer.getheaders()), answer.read())
        connection.close()
        return found

    def shown(self) -> x509.Certificate:
        """The certificate that a new connection is shown now."""
        anybody = ssl.create_default_context()
        anybody.check_hostname = False
        anybody.verify_mode = ssl.CERT_NONE
        with anybody.wrap_socket(self.connect(), server_hostname=HOST) as secured:
            der = secured.getpeercert(binary_form=True)
        assert der
        return x509.load_der_x509_certificate(der)


@contextmanager
def serving(app: Flask, folder: Path, checked_every: float = 3600.0) -> Iterator[Https]:
    server = Https(app, folder, checked_every)
    server.thread.start()
    try:
        wait_until(lambda: can_connect(server.port))
        yield server
    finally:
        server.servers.stop()
        server.thread.join()


def can_connect(port: int) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port), timeout=1).close()
    except OSError:
        return False
    return True


def wait_until(happens: Callable[[], bool], seconds: float = 30.0) -> None:
    end = time.monotonic() + seconds
    while not happens():
        assert time.monotonic() < end, "it did not happen"
        time.sleep(0.02)


@pytest.fixture(scope="module")
def small() -> Flask:
    """Every kind of answer, with and without a body."""
    app = Flask("small")

    @app.get("/health")
    def health() -> dict[str, str]:
        return {"status": "ok"}

    @app.get("/empty")
    def empty() -> tuple[str, int]:
        return "", 204

    @app.get("/tagged")
    def tagged() -> Response:
        response = Response("a body " * 100)
        response.set_etag("one")
        return response.make_conditional(request)

    @app.post("/echo")
    def echo() -> dict[str, object]:
        request.max_content_length = 20_000_000
        return {"length": len(request.get_data()), "from": request.remote_addr, "scheme": request.scheme}

    return app


@pytest.fixture(scope="module")
def https(small: Flask, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Https]:
    with serving(small, tmp_path_factory.mktemp("keys")) as server:
        yield server


@pytest.mark.parametrize(
    ("method", "path", "headers", "status", "length"),
    [
        ("GET", "/health", {}, 200, 16),
        ("HEAD", "/health", {}, 200, 0),
        ("GET", "/empty", {}, 204, 0),
        ("HEAD", "/empty", {}, 204, 0),
        ("GET", "/tagged", {}, 200, 700),
        ("HEAD", "/tagged", {}, 200, 0),
        ("GET", "/tagged", {"If-None-Match": '"one"'}, 304, 0),
        ("HEAD", "/tagged", {"If-None-Match": '"one"'}, 304, 0),
        ("GET", "/none", {}, 404, None),
        ("OPTIONS", "/health", {}, 200, 0),
    ],
)
def test_answers_are_right_over_https(
    https: Https, method: str, path: str, headers: dict[str, str], status: int, length: int | None
) -> None:
    found, _, body = https.ask(method, path, **headers)
    assert found == status
    assert length is None or len(body) == length


@pytest.mark.parametrize("size", [0, 1, 65536, 65537, 17_000_000])
def test_bodies_of_any_size_arrive_whole(https: Https, size: int) -> None:
    status, _, body = https.ask("POST", "/echo", bytes(size))
    assert status == 200
    assert f'"length":{size}' in body.decode().replace(" ", "")


def test_without_the_authority_it_is_refused(https: Https) -> None:
    with pytest.raises(ssl.SSLCertVerificationError):
        ssl.create_default_context().wrap_socket(https.connect(), server_hostname=HOST)


@pytest.mark.parametrize("version", [ssl.TLSVersion.TLSv1_1, ssl.TLSVersion.TLSv1])
@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_old_tls_is_refused(https: Https, version: ssl.TLSVersion) -> None:
    old = ssl.create_default_context(cadata=https.own.authority.pem.decode())
    old.minimum_version = old.maximum_version = version
    old.set_ciphers("ALL:@SECLEVEL=0")
    with pytest.raises(ssl.SSLError):
        old.wrap_socket(https.connect(), server_hostname=HOST)


def test_silent_and_slow_connections_hold_nobody_up(https: Https) -> None:
    """More than the server has threads: mute before TLS, mute after it, and bodies that do not end."""
    mute = [https.connect() for _ in range(200)]
    slow = [https.trust.wrap_socket(https.connect(), server_hostname=HOST) for _ in range(30)]
    for one in slow[:20]:
        one.sendall(b"POST /echo HTTP/1.1\r\nHost: x\r\nContent-Length: 9000\r\n\r\nslow")
    try:
        assert [https.ask("GET", "/health")[0] for _ in range(5)] == [200] * 5
    finally:
        for one in (*mute, *slow):
            one.close()


def test_one_address_leaves_room_for_the_others(https: Https) -> None:
    """127.0.0.1 has all its places taken by bodies that do not end; 127.0.0.2 is another phone."""
    slow = [https.trust.wrap_socket(https.connect(), server_hostname=HOST) for _ in range(100)]
    for one in slow:
        one.sendall(b"POST /echo HTTP/1.1\r\nHost: x\r\nContent-Length: 90000\r\n\r\nslow")
    try:
        assert https.ask("GET", "/health", source="127.0.0.2")[0] == 200
    finally:
        for one in slow:
            one.close()
    assert https.ask("GET", "/health")[0] == 200


def test_a_browsers_crowd_of_files_is_served(https: Https) -> None:
    with ThreadPoolExecutor(150) as crowd:
        asked = [crowd.submit(https.ask, "GET", "/tagged") for _ in range(150)]
        assert {one.result()[0] for one in asked} == {200}


@pytest.mark.parametrize(
    ("head", "status"),
    [
        (b"GET /h\xff HTTP/1.1\r\nHost: x\r\n\r\n", {400, 404}),
        (b"GET /?q=\xff HTTP/1.1\r\nHost: x\r\n\r\n", {400}),
        (
            b"POST /echo HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n"
            + b"10000\r\n"
            + bytes(65536)
            + b"\r\n1\r\nx\r\n0\r\n\r\n",
            {413},
        ),
        (b"POST /echo HTTP/1.1\r\nHost: x\r\nContent-Length: 3\r\nContent-Length: 4\r\n\r\nabcd", {400}),
        (b"GET / HTTP/1.1\r\nHost: x\r\nX: " + b"a" * 70_000 + b"\r\n\r\n", {400, 431}),
        (b"nonsense\r\n\r\n", {400}),
    ],
    ids=["path", "question", "chunked", "two lengths", "long header", "nonsense"],
)
def test_what_is_no_request_gets_a_refusal(https: Https, head: bytes, status: set[int]) -> None:
    with https.trust.wrap_socket(https.connect(), server_hostname=HOST) as secured:
        secured.sendall(head)
        first = secured.recv(64)
    assert int(first.split()[1]) in status
    assert https.ask("GET", "/health")[0] == 200


def test_it_renews_on_day_368_with_no_restart(small: Flask, tmp_path: Path) -> None:
    with serving(small, tmp_path / "keys", checked_every=0.05) as server:
        first = server.shown()
        server.clock.pass_by(days=365)
        time.sleep(0.3)
        assert server.shown() == first
        server.clock.pass_by(days=3)
        wait_until(lambda: server.shown() != first)
        second = server.shown()
        assert second.issuer == first.issuer
        assert second.not_valid_after_utc > first.not_valid_after_utc
        assert (
            server.own.authority.certificate
            == OfOurOwn(tmp_path / "keys", HOST, list, server.clock).authority.certificate
        )


def test_the_servers_key_is_readable_by_nobody_else(https: Https) -> None:
    modes = {path.name: path.stat().st_mode & 0o777 for path in https.own.folder.iterdir()}
    assert modes == {"authority.pem": 0o600, "server.pem": 0o600}


class Started:
    """`python3 -m api serve` as a process."""

    def __init__(self, data: Path) -> None:
        self.port, self.plain = free_port(), free_port()
        options = ["--address", HOST, "--listen", "127.0.0.1", "--data", str(data)]
        ports = ["--https-port", str(self.port), "--plain-port", str(self.plain)]
        command = [sys.executable, "-m", "api", "serve", *options, *ports]
        self.process = subprocess.Popen(
            command,
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            env=os.environ | {"PYTHONWARNINGS": ""},
        )
        wait_until(lambda: can_connect(self.port) and can_connect(self.plain), 60)

    def plainly(self, path: str, method: str = "GET") -> tuple[int, str, bytes]:
        connection = http.client.HTTPConnection("127.0.0.1", self.plain, timeout=20)
        connection.request(method, path)
        answer = connection.getresponse()
        found = answer.status, answer.getheader("Content-Type", ""), answer.read()
        connection.close()
        return found

    def end(self) -> str:
        self.process.send_signal(signal.SIGTERM)
        said, _ = self.process.communicate(timeout=30)
        return said


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Started]:
    server = Started(tmp_path_factory.mktemp("serve") / "data")
    yield server
    if server.process.poll() is None:
        server.process.kill()
        server.process.communicate()


def test_the_plain_page_has_the_certificate_and_nothing_else(started: Started) -> None:
    status, kind, der = started.plainly("/authority.crt")
    authority = x509.load_der_x509_certificate(der)
    assert (status, kind) == (200, "application/x-x509-ca-cert")
    page = started.plainly("/")[2].decode()
    fingerprint = authority.fingerprint(hashes.SHA256())
    assert fingerprint.hex(" ").upper()[:23] in page
    assert f"https://{HOST}:{started.port}/pair" in page
    for path in ("/api/jobs", "/sign-in", "/office/jobs", "/health", "/app.js", "/style/../../secret.py"):
        assert started.plainly(path)[0] == 404
    assert started.plainly("/", "POST")[0] == 405


def test_it_stops_in_order_and_says_so(started: Started) -> None:
    """Last of the process's tests: it ends it. Connections that stand open do not keep it."""
    held = [socket.create_connection(("127.0.0.1", started.port)) for _ in range(5)]
    said = started.end()
    for one in held:
        one.close()
    assert started.process.returncode == 0
    assert said.splitlines()[-1] == "Stopped. Everything that was acknowledged is kept."
    assert re.search(rf"https://{HOST}:\d+/set-up with the code [2-9A-Z]{{4}}-[2-9A-Z]{{4}}", said)
    assert "Traceback" not in said


def test_what_will_not_end_does_not_keep_the_server() -> None:
    """As a connection that waits for its peer's farewell: asked once to end, it goes on waiting."""
    asked = []

    async def stubborn(times: int) -> None:
        for _ in range(times):
            try:
                await asyncio.Event().wait()
            except asyncio.CancelledError:
                asked.append(times)

    def end() -> None:
        loop = asyncio.new_event_loop()
        loop.run_until_complete(begin(loop))
        cut_off(loop)
        loop.close()

    async def begin(loop: asyncio.AbstractEventLoop) -> None:
        kept.extend(loop.create_task(stubborn(times)) for times in (1, 3))
        await asyncio.sleep(0)

    kept: list[asyncio.Task[None]] = []
    with ThreadPoolExecutor(1) as apart:  # another test's browser may keep a loop running in this thread
        apart.submit(end).result()
    assert all(task.done() for task in kept)
    assert sorted(asked) == [1, 3, 3, 3]


def test_a_former_address_is_still_answered_under(tmp_path: Path) -> None:
    first = start.settle(start.Options(tmp_path, host="old.home.arpa"))
    kept = start.settle(start.Options(tmp_path))
    moved = start.settle(start.Options(tmp_path, host="new.home.arpa"))
    assert (first.address, first.former) == (kept.address, kept.former)
    assert (moved.address.host, [one.host for one in moved.former]) == ("new.home.arpa", ["old.home.arpa"])


@pytest.mark.parametrize("host", ["no spaces", "under_score.example", "-x.example", "single", "1.2.3.4.5"])
def test_an_address_that_is_none_is_refused(tmp_path: Path, host: str) -> None:
    with pytest.raises(start.NoAddressError):
        start.settle(start.Options(tmp_path, host=host))


def test_the_log_is_turned_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = logging.getLogger()
    before, level = root.handlers[:], root.level
    monkeypatch.setattr("api.serve.logs.LARGEST", 2_000)
    to_file(tmp_path)
    try:
        for number in range(400):
            logging.getLogger("teepiece").info("line %d", number)
    finally:
        for handler in root.handlers:
            handler.close()
        root.handlers[:] = before
        root.setLevel(level)
    files = sorted(path.name for path in tmp_path.iterdir())
    assert files == ["server.log", *(f"server.log.{number}" for number in range(1, 6))]
    assert all(path.stat().st_size <= 2_000 for path in tmp_path.iterdir())
    assert re.match(
        r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ INFO teepiece line", (tmp_path / "server.log").read_text()
    )


def test_the_unit_starts_this_checkout(tmp_path: Path) -> None:
    lines = unit(tmp_path / "a folder 100%").splitlines()
    assert f'ExecStart="{sys.executable}" -m api serve --data "{tmp_path}/a folder 100%%"' in lines
    assert f"WorkingDirectory={ROOT}" in lines
    sections = [line for line in lines if line.startswith("[")]
    assert sections == ["[Unit]", "[Service]", "[Install]"]
    assert {"Restart=on-failure", "KillSignal=SIGTERM", "NoNewPrivileges=yes"} <= set(lines)
