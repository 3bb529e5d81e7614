"""The workshop's own certificate authority, and the certificate that its server shows.

Made so that Android, iOS and desktop browsers take them once a person has trusted the authority: it has a
common name (without one iOS does not list it), signs no further authorities (path length 0) and is bound to
the workshop's name and private addresses, so that whoever steals its key can pose as nobody else (RFC 5280,
4.2.1.9 and 4.2.1.10).
"""

import ipaddress
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from api.address import is_number

AUTHORITY_LASTS = timedelta(days=3650)
LEAF_LASTS = timedelta(days=397)
RENEWED_BEFORE = timedelta(days=30)
CLOCKS_DIFFER = timedelta(hours=24)  # a phone whose clock is behind must not find it not yet valid
LONGEST_COMMON_NAME = 64  # RFC 5280, appendix A

# RFC 1918, section 3.
PRIVATE = tuple(map(ipaddress.IPv4Network, ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16")))


class NotPrivateError(ValueError):
    """The address is not one of a private network, so this authority may not vouch for it."""


@dataclass(frozen=True)
class Issued:
    """A certificate and its key."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey

    @property
    def pem(self) -> bytes:
        return self.certificate.public_bytes(serialization.Encoding.PEM)

    @property
    def key_pem(self) -> bytes:
        return self.key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        )


def read(pem: bytes, key_pem: bytes) -> Issued:
    """What `pem` and `key_pem` wrote."""
    key = serialization.load_pem_private_key(key_pem, None)
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise ValueError("not a key of ours")
    return Issued(x509.load_pem_x509_certificate(pem), key)


def new_authority(host: str, now: datetime) -> Issued:
    """An authority for one workshop, known by `host`.

    Raises
    ------
    NotPrivateError
        the host is an address outside the private networks
    """
    key = ec.generate_private_key(ec.SECP256R1())
    name = _name(f"Teepiece workshop {host}")
    builder = _builder(name, name, key, now, AUTHORITY_LASTS)
    for extension in (
        x509.BasicConstraints(ca=True, path_length=0),
        _usage(key_cert_sign=True, crl_sign=True),
        _constraints(host),
    ):
        builder = builder.add_extension(extension, critical=True)
    return Issued(builder.sign(key, hashes.SHA256()), key)


def new_leaf(authority: Issued, host: str, addresses: Iterable[str], now: datetime) -> Issued:
    """A server's certificate for the host and for the private ones among its addresses."""
    key = ec.generate_private_key(ec.SECP256R1())
    issuer = authority.certificate
    # A name with blanks: one that could be a host's would be held against the constraints as if it were.
    builder = _builder(_name(f"Teepiece server {host}"), issuer.subject, key, now, LEAF_LASTS)
    builder = builder.add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
    builder = builder.add_extension(_usage(digital_signature=True), critical=True)
    for extension in (
        x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]),
        x509.SubjectAlternativeName(_alternatives(host, addresses)),
        x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key()),
    ):
        builder = builder.add_extension(extension, critical=False)
    return Issued(builder.sign(authority.key, hashes.SHA256()), key)


def is_due(leaf: x509.Certificate, host: str, addresses: Iterable[str], now: datetime) -> bool:
    """Whether a leaf ends soon, or does not name what the server is reached by."""
    names = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    named = set(names) >= set(_alternatives(host, addresses))
    return not named or leaf.not_valid_after_utc - now < RENEWED_BEFORE


def fingerprint(certificate: x509.Certificate) -> str:
    """SHA-256 of a certificate as people compare it: pairs of digits."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def is_private(address: str) -> bool:
    """Whether it is an IPv4 address of a private network."""
    return is_number(address) and any(ipaddress.IPv4Address(address) in network for network in PRIVATE)


def _builder(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    now: datetime,
    lasts: timedelta,
) -> x509.CertificateBuilder:
    begins = now - CLOCKS_DIFFER
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + lasts)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _name(common: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, common[:LONGEST_COMMON_NAME])])


def _usage(**named: bool) -> x509.KeyUsage:
    every = dict.fromkeys(
        (
            "digital_signature",
            "content_commitment",
            "key_encipherment",
            "data_encipherment",
            "key_agreement",
            "key_cert_sign",
            "crl_sign",
            "encipher_only",
            "decipher_only",
        ),
        False,
    )
    return x509.KeyUsage(**(every | named))


def _constraints(host: str) -> x509.NameConstraints:
    """Only the host and private addresses; for a host that is an address no name at all."""
    networks: list[x509.GeneralName] = [x509.IPAddress(network) for network in PRIVATE]
    if not is_number(host):
        return x509.NameConstraints([x509.DNSName(host), *networks], None)
    if not is_private(host):
        raise NotPrivateError(f"{host} is no address of a private network")
    return x509.NameConstraints(networks, [x509.DNSName("")])


def _alternatives(host: str, addresses: Iterable[str]) -> list[x509.GeneralName]:
    numbers = dict.fromkeys(one for one in (host, *addresses) if is_private(one))
    names: list[x509.GeneralName] = [] if is_number(host) else [x509.DNSName(host)]
    return [*names, *(x509.IPAddress(ipaddress.IPv4Address(one)) for one in numbers)]
