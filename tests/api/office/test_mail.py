"""Mail settings and the test message, against an SMTP server of the test's own (RFC 5321, RFC 3207)."""

import socketserver
import ssl
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from api import certificate
from api.office import mail
from tests.security.visitor import Visitor, Workshop

AUTHORITY = certificate.new_authority("localhost", datetime.now(UTC))
SETTINGS = {
    "host": "localhost",
    "protection": "starttls",
    "user": "garage",
    "sender": "office@garage.example",
}


class Letterbox(socketserver.StreamRequestHandler):
    """Speaks as much SMTP as a message needs, and only after TLS."""

    def say(self, line: str) -> None:
        self.wfile.write(f"{line}\r\n".encode())

    def handle(self) -> None:
        server: Any = self.server
        if server.tls_at_once:
            self.secure()
        self.say("220 letterbox")
        while line := self.rfile.readline().decode().strip():
            word = line.split()[0].upper()
            if word == "EHLO":
                self.wfile.write(b"250-letterbox\r\n250-STARTTLS\r\n250 AUTH PLAIN\r\n")
            elif word == "STARTTLS":
                self.say("220 go on")
                self.secure()
            elif word == "AUTH":
                server.logins.append(line)
                self.say("535 no" if server.refuses else "235 yes")
            elif word == "DATA":
                self.say("354 go on")
                lines = []
                while (text := self.rfile.readline().decode()) != ".\r\n":
                    lines.append(text)
                server.messages.append("".join(lines))
                self.say("250 taken")
            else:
                self.say("221 bye" if word == "QUIT" else "250 fine")

    def secure(self) -> None:
        server: Any = self.server
        self.rfile.close()
        self.wfile.close()
        self.connection = server.trust.wrap_socket(self.connection, server_side=True)
        self.rfile, self.wfile = self.connection.makefile("rb"), self.connection.makefile("wb", buffering=0)

    def finish(self) -> None:
        super().finish()
        self.connection.close()


class Server(socketserver.ThreadingTCPServer):
    """Letters that came, and logins."""

    allow_reuse_address = True
    daemon_threads = True

    def handle_error(self, *_: object) -> None:
        """A client that hangs up in the middle is part of the tests."""


@contextmanager
def letterbox(folder: Path, *, tls_at_once: bool = False, refuses: bool = False) -> Iterator[Any]:
    server: Any = Server(("127.0.0.1", 0), Letterbox)
    leaf = certificate.new_leaf(AUTHORITY, "localhost", [], datetime.now(UTC))
    (folder / "mail.pem").write_bytes(leaf.pem + leaf.key_pem)
    server.trust = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    server.trust.load_cert_chain(folder / "mail.pem")
    server.messages, server.logins = [], []
    server.tls_at_once, server.refuses = tls_at_once, refuses
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


@pytest.fixture
def trusted(monkeypatch: pytest.MonkeyPatch) -> None:
    """This machine trusts the letterbox's authority, and knows it as localhost."""
    pem = AUTHORITY.pem.decode()
    make = ssl.create_default_context
    # A server's own context names its purpose; a client's names nothing.
    monkeypatch.setattr(
        ssl, "create_default_context", lambda *for_: make(*for_, **({} if for_ else {"cadata": pem}))
    )


def save(owner: Visitor, server: Any, **more: str) -> None:
    form = SETTINGS | {"port": str(server.server_address[1]), "password": "a secret of the mailbox"} | more
    assert owner.fill("/office/mail", form).status_code == 302


def send_test(owner: Visitor, to: str = "kim@garage.example") -> str:
    answer = owner.fill("/office/mail", {"to": to}, to="/office/mail/test")
    return owner.get(answer.location).text if answer.status_code == 302 else answer.text


@pytest.mark.usefixtures("trusted")
@pytest.mark.parametrize(("protection", "tls_at_once"), [("starttls", False), ("tls", True)])
def test_a_message_is_sent_protected(
    owner: Visitor, tmp_path: Path, protection: str, tls_at_once: bool
) -> None:
    with letterbox(tmp_path, tls_at_once=tls_at_once) as server:
        save(owner, server, protection=protection)
        assert "The server took the message." in send_test(owner)
    (message,) = server.messages
    assert "To: kim@garage.example\r\n" in message
    assert len(server.logins) == 1


def test_a_server_that_is_not_trusted_gets_no_password(owner: Visitor, tmp_path: Path) -> None:
    with letterbox(tmp_path) as server:
        save(owner, server)
        assert "not one that this machine trusts" in send_test(owner)
    assert (server.logins, server.messages) == ([], [])


@pytest.mark.usefixtures("trusted")
def test_a_wrong_password_is_said(owner: Visitor, tmp_path: Path) -> None:
    with letterbox(tmp_path, refuses=True) as server:
        save(owner, server)
        assert "does not take this user name and password" in send_test(owner)


def test_a_server_out_of_reach_is_said(owner: Visitor, tmp_path: Path) -> None:
    with letterbox(tmp_path) as server:
        save(owner, server)
    assert "cannot be reached" in send_test(owner)


@pytest.mark.parametrize(
    "address",
    [
        "kim@garage.example\r\nBcc: all@garage.example",
        "kim@garage.example, jo@garage.example",
        "Kim <kim@garage.example>",
        "kim@localhost",
        "kim",
        "kim@garage.example\0",
        "k\u00efm@garage.example",
    ],
)
def test_only_one_plain_address_is_taken(owner: Visitor, tmp_path: Path, address: str) -> None:
    """CVE-2024-6923 and CVE-2026-1299 of older Pythons: what could break a header gets as far as none."""
    with letterbox(tmp_path) as server:
        save(owner, server)
        assert "One plain address" in send_test(owner, address)
    assert server.messages == []


@pytest.mark.parametrize(
    "host", ["mail.example.com\r\nX: y", "127.0.0.1:25/@", "a b", "file:///etc/passwd", "-x", "x;y"]
)
def test_only_a_servers_name_is_taken(owner: Visitor, host: str) -> None:
    answer = owner.fill("/office/mail", SETTINGS | {"port": "587", "password": "", "host": host})
    assert answer.status_code == 200
    assert "One server" in answer.text


def test_the_mailboxs_password_lies_in_no_database_and_on_no_page(
    workshop: Workshop, owner: Visitor, tmp_path: Path
) -> None:
    with letterbox(tmp_path) as server:
        save(owner, server)
    assert "a secret of the mailbox" not in owner.get("/office/mail").text
    connection = workshop.connect()
    assert "a secret of the mailbox" not in "\n".join(connection.iterdump())
    connection.close()
    kept = workshop.data / mail.PASSWORD_FILE
    assert kept.read_text() == "a secret of the mailbox"
    assert kept.stat().st_mode & 0o777 == 0o600
