"""A mail server of the tests' own on loopback: aiosmtpd over TLS, with one fault for each attempt."""

import asyncio
import datetime
import ipaddress
import socket
import ssl
import tempfile
from collections import Counter
from email import message_from_bytes
from pathlib import Path
from typing import Any

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

# What a server may do to one attempt; `before` is a break where nothing can have been taken.
FAULTS = ("fine", "refused", "greylisted", "dropped_before", "dropped_after", "lost_after", "slow", "shut")
LOOPBACK = "127.0.0.1"
WAIT = 0.25  # seconds that a client of the tests waits; slow is longer


class PostOffice:
    """Takes letters, and does to each attempt what `faults` says next; when they are used up all is fine."""

    def __init__(self, protection: str = "starttls") -> None:
        self.faults: list[str] = []
        self.taken: Counter[str] = Counter()
        self.letters: list[bytes] = []
        self.protection = protection
        self.trust, served = certificate()
        tls = {"ssl_context": served} if protection == "tls" else {}
        self._controller = _Controller(self, served, hostname=LOOPBACK, port=free_port(), **tls)

    def __enter__(self) -> "PostOffice":
        self._controller.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._controller.stop()

    @property
    def port(self) -> int:
        return int(self._controller.port)

    def next_fault(self) -> str:
        return self.faults.pop(0) if self.faults else "fine"

    async def handle_RCPT(self, server: SMTP, session: Any, envelope: Any, address: str, _: Any) -> str:  # noqa: N802
        session.fault = self.next_fault()
        if session.fault == "refused":
            return "550 5.1.1 No such person here"
        if session.fault == "greylisted":
            return "451 4.7.1 Come again later"
        if session.fault == "dropped_before":
            server.transport.abort()
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server: SMTP, session: Any, envelope: Any) -> str:  # noqa: N802
        if session.fault == "shut":
            return "421 4.3.2 Shutting down"  # not taken, by RFC 5321, 4.2.1
        if session.fault != "lost_after":
            self.letters.append(envelope.content)
            self.taken[str(message_from_bytes(envelope.content)["Message-ID"])] += 1
        if session.fault in ("dropped_after", "lost_after"):
            server.transport.abort()
        if session.fault == "slow":
            await asyncio.sleep(2 * WAIT)
        return "250 OK"


class _Controller(Controller):
    def __init__(self, office: PostOffice, served: ssl.SSLContext, **options: Any) -> None:
        super().__init__(office, **options)
        self._served = served

    def factory(self) -> SMTP:
        starttls = {} if self.ssl_context else {"tls_context": self._served, "require_starttls": True}
        return SMTP(self.handler, hostname="mail.example", **starttls)


def free_port() -> int:
    with socket.create_server((LOOPBACK, 0)) as found:
        return int(found.getsockname()[1])


def certificate() -> tuple[ssl.SSLContext, ssl.SSLContext]:
    """A context that trusts the server's fresh certificate, and the server's own."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "post office of a test")])
    now = datetime.datetime.now(datetime.UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - datetime.timedelta(days=1))
        .not_valid_after(now + datetime.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address(LOOPBACK))]), False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), True)
        .sign(key, hashes.SHA256())
    )
    pem = made.public_bytes(serialization.Encoding.PEM)
    secret = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    served = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    with tempfile.NamedTemporaryFile(suffix=".pem") as file:
        Path(file.name).write_bytes(pem + secret)
        served.load_cert_chain(file.name)
    return ssl.create_default_context(cadata=pem.decode()), served
