"""Certificates in use: kept as files, renewed while the server runs, chosen by the name that is asked for."""

import ssl
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Protocol

from cryptography import x509

from api import certificate
from api.certificate import Issued
from api.clock import Clock
from api.secret import keep_secret

AUTHORITY, LEAF = "authority", "server"
PROTOCOLS = ("h2", "http/1.1")

# Bytes that ask for nothing but TLS 1.2 with forward secrecy; TLS 1.3 has its own list (RFC 9325, 4.2).
CIPHERS = "ECDHE+AESGCM:ECDHE+CHACHA20"


class Certificate(Protocol):
    """What the server shows for one name."""

    context: ssl.SSLContext

    def check(self) -> bool:
        """Renew it where it is due; whether that was done."""


class OfOurOwn:
    """A certificate of the workshop's own authority; `addresses` asks for those that the machine has now."""

    def __init__(self, folder: Path, host: str, addresses: Callable[[], Iterable[str]], clock: Clock) -> None:
        self.folder, self.host, self.addresses, self.clock = folder, host, addresses, clock
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        self.authority = self._read(AUTHORITY) or self._keep(
            AUTHORITY, certificate.new_authority(host, clock())
        )
        self.context = new_context()
        self.check()
        self._show()

    def check(self) -> bool:
        """Renew the leaf where it ends soon or an address is new; connections that stand are not touched."""
        leaf, now, addresses = self._read(LEAF), self.clock(), tuple(self.addresses())
        if leaf and not certificate.is_due(leaf.certificate, self.host, addresses, now):
            return False
        self._keep(LEAF, certificate.new_leaf(self.authority, self.host, addresses, now))
        self._show()
        return True

    def _show(self) -> None:
        self.context.load_cert_chain(self.folder / f"{LEAF}.pem")

    def _read(self, name: str) -> Issued | None:
        path = self.folder / f"{name}.pem"
        if not path.is_file():
            return None
        both = path.read_bytes()
        return certificate.read(both, both)

    def _keep(self, name: str, issued: Issued) -> Issued:
        """Certificate and key in one file, so that no crash leaves one without the other."""
        keep_secret(self.folder / f"{name}.pem", issued.pem + issued.key_pem)
        return issued


class Brought:
    """A certificate that the workshop brings for its own domain; read again when its file changes."""

    def __init__(self, chain: Path, key: Path) -> None:
        self.chain, self.key = chain, key
        self.context = new_context()
        self._seen = 0
        self.check()

    def check(self) -> bool:
        """Read the files again where they are newer; files that do not fit leave the present ones in use."""
        changed = max(path.stat().st_mtime_ns for path in (self.chain, self.key))
        if changed == self._seen:
            return False
        self._seen = changed
        self.context.load_cert_chain(self.chain, self.key)
        return True


def new_context() -> ssl.SSLContext:
    """TLS 1.2 and 1.3 alone, by the recommendations of RFC 9325."""
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.minimum_version = ssl.TLSVersion.TLSv1_2
    context.options |= ssl.OP_NO_COMPRESSION | ssl.OP_NO_RENEGOTIATION
    context.set_ciphers(CIPHERS)
    context.set_alpn_protocols(list(PROTOCOLS))
    return context


def choose_by_name(present: ssl.SSLContext, former: dict[str, ssl.SSLContext]) -> None:
    """Let a phone that still knows a former name be shown that name's certificate (RFC 6066, section 3)."""

    def choose(connection: ssl.SSLObject, name: str | None, _context: ssl.SSLContext) -> None:
        if name in former:
            connection.context = former[name]

    present.sni_callback = choose


def authority_der(authority: Issued) -> bytes:
    """The authority's certificate as phones take it."""
    from cryptography.hazmat.primitives.serialization import Encoding

    return authority.certificate.public_bytes(Encoding.DER)


def common_name(found: x509.Certificate) -> str:
    """The name by which a phone lists a certificate."""
    return str(found.subject.get_attributes_for_oid(x509.NameOID.COMMON_NAME)[0].value)
