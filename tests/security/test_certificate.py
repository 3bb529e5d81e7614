"""The authority and its certificates, held against OpenSSL and the rules of the systems that must take them.

Sources: RFC 5280; Apple's requirements for trusted certificates (support.apple.com/103769: at most 825 days,
SHA-2, a DNS name in the alternative names, serverAuth); iOS lists no authority without a common name.
"""

import datetime
import ipaddress
import subprocess
from datetime import UTC, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID

from api import certificate
from api.certificate import Issued

HOST = "garage.home.arpa"
NOW = datetime.datetime(2026, 11, 25, 9, tzinfo=UTC)
AUTHORITY = certificate.new_authority(HOST, NOW)
ISSUED_BY = x509.AuthorityKeyIdentifier.from_issuer_public_key(AUTHORITY.key.public_key())
LEAF = certificate.new_leaf(AUTHORITY, HOST, ["192.168.1.20", "203.0.113.9"], NOW)


def openssl(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(["openssl", *map(str, arguments)], capture_output=True, text=True, check=False)


def verify(
    folder: Path, leaf: x509.Certificate, *more: str, authority: Issued = AUTHORITY, day: int = 1
) -> str:
    """What OpenSSL says of a leaf under the authority, on a day counted from its making."""
    (folder / "authority.pem").write_bytes(authority.pem)
    (folder / "leaf.pem").write_bytes(leaf.public_bytes(Encoding.PEM))
    at = str(int((NOW + timedelta(days=day)).timestamp()))
    done = openssl(
        "verify", "-x509_strict", "-purpose", "sslserver", "-attime", at, *more,
        "-CAfile", folder / "authority.pem", folder / "leaf.pem",
    )  # fmt: skip
    return done.stdout + done.stderr


def text(folder: Path, issued: Issued) -> str:
    (folder / "one.pem").write_bytes(issued.pem)
    return openssl("x509", "-in", folder / "one.pem", "-noout", "-text").stdout


def forged(**names: str) -> x509.Certificate:
    """What a thief of the authority's key would make for somebody else."""
    key = ec.generate_private_key(ec.SECP256R1())
    kinds = {"dns": x509.DNSName, "ip": lambda text: x509.IPAddress(ipaddress.ip_address(text))}
    names_of = [kinds[kind](name) for kind, name in names.items()]
    return (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "forged")]))
        .issuer_name(AUTHORITY.certificate.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(NOW)
        .not_valid_after(NOW + timedelta(days=30))
        .add_extension(x509.SubjectAlternativeName(names_of), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(ISSUED_BY, critical=False)
        .sign(AUTHORITY.key, hashes.SHA256())
    )


@pytest.mark.parametrize("more", [("-verify_hostname", HOST), ("-verify_ip", "192.168.1.20")])
def test_openssl_takes_the_servers_certificate(tmp_path: Path, more: tuple[str, str]) -> None:
    assert verify(tmp_path, LEAF.certificate, *more).endswith("leaf.pem: OK\n")


@pytest.mark.parametrize("more", [("-verify_hostname", "bank.example"), ("-verify_ip", "203.0.113.9")])
def test_it_is_for_no_other_name(tmp_path: Path, more: tuple[str, str]) -> None:
    assert "mismatch" in verify(tmp_path, LEAF.certificate, *more)


@pytest.mark.parametrize(
    "names",
    [{"dns": "bank.example"}, {"dns": "home.arpa"}, {"ip": "8.8.8.8"}, {"dns": HOST, "ip": "203.0.113.9"}],
)
def test_a_stolen_authority_is_good_for_nobody_else(tmp_path: Path, names: dict[str, str]) -> None:
    assert "permitted subtree violation" in verify(tmp_path, forged(**names))


def test_what_it_may_vouch_for_it_does(tmp_path: Path) -> None:
    """The check above fails for its names, not for how the certificate is made."""
    assert "OK" in verify(tmp_path, forged(dns=HOST, ip="10.1.2.3"))


def test_an_authority_for_an_address_vouches_for_no_name(tmp_path: Path) -> None:
    authority = certificate.new_authority("192.168.1.20", NOW)
    leaf = certificate.new_leaf(authority, "192.168.1.20", [], NOW)
    assert "OK" in verify(tmp_path, leaf.certificate, "-verify_ip", "192.168.1.20", authority=authority)
    forged_name = certificate.new_leaf(authority, "bank.example", [], NOW)
    assert "excluded subtree violation" in verify(tmp_path, forged_name.certificate, authority=authority)


def test_it_signs_no_further_authority(tmp_path: Path) -> None:
    extension = AUTHORITY.certificate.extensions.get_extension_for_class(x509.BasicConstraints)
    assert (extension.critical, extension.value.ca, extension.value.path_length) == (True, True, 0)
    assert "CA:TRUE, pathlen:0" in text(tmp_path, AUTHORITY)


def test_it_has_a_common_name_by_which_a_phone_lists_it(tmp_path: Path) -> None:
    assert f"Subject: CN = Teepiece workshop {HOST}" in text(tmp_path, AUTHORITY)
    long = certificate.new_authority("a" * 60 + ".home.arpa", NOW).certificate
    assert len(long.subject.rfc4514_string()) <= len("CN=") + 64


@pytest.mark.parametrize(
    "line",
    [
        "Signature Algorithm: ecdsa-with-SHA256",
        "ASN1 OID: prime256v1",
        "TLS Web Server Authentication",
        f"DNS:{HOST}, IP Address:192.168.1.20",
        "CA:FALSE",
    ],
)
def test_the_leaf_is_as_phones_demand(tmp_path: Path, line: str) -> None:
    shown = text(tmp_path, LEAF)
    assert line in shown
    assert "203.0.113.9" not in shown
    assert "Code Signing" not in shown


def test_the_leaf_lasts_397_days(tmp_path: Path) -> None:
    found = LEAF.certificate
    assert found.not_valid_after_utc - found.not_valid_before_utc == timedelta(days=397)
    assert "OK" in verify(tmp_path, found, day=395)
    assert "has expired" in verify(tmp_path, found, day=397)


def test_it_is_due_thirty_days_before_its_end() -> None:
    def due(day: int, *addresses: str) -> bool:
        return certificate.is_due(LEAF.certificate, HOST, addresses, NOW + timedelta(days=day))

    assert not due(365)
    assert due(368)
    assert due(1, "10.0.0.9")
    assert not due(1, "203.0.113.9")


@pytest.mark.parametrize("host", ["8.8.8.8", "203.0.113.9"])
def test_a_public_address_gets_no_authority(host: str) -> None:
    with pytest.raises(certificate.NotPrivateError):
        certificate.new_authority(host, NOW)


def test_the_fingerprint_is_openssls(tmp_path: Path) -> None:
    (tmp_path / "one.pem").write_bytes(AUTHORITY.pem)
    shown = openssl("x509", "-in", tmp_path / "one.pem", "-noout", "-fingerprint", "-sha256").stdout
    assert shown.strip().partition("=")[2] == certificate.fingerprint(AUTHORITY.certificate)
