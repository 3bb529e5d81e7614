"""The workshop's mail account, one plain address, and the protected way to its server."""

import re
import smtplib
import ssl
from dataclasses import dataclass
from email.errors import MessageError
from email.headerregistry import Address as MailAddress
from pathlib import Path
from typing import Any

from api.secret import read_secret

PASSWORD_FILE = "mail.password"  # noqa: S105  (its name)
SECONDS = 15.0
LABEL = r"[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z0-9])?"
DOMAIN = re.compile(rf"(?:{LABEL}\.)+{LABEL}")  # RFC 5321, 4.1.2
ENCODED = "=?"  # how a word begins that a reader decodes (RFC 2047)


@dataclass(frozen=True)
class Account:
    """Where letters are handed in. `trust` is the machine's own trust unless a test brings another."""

    host: str
    port: int
    protection: str
    sender: str
    user: str = ""
    password: str = ""
    trust: ssl.SSLContext | None = None
    seconds: float = SECONDS


def account_of(kept: dict[str, Any], data: Path) -> Account:
    """The account by the office's settings, with its password."""
    user = kept.get("user") or ""
    password = read_secret(data / PASSWORD_FILE).decode() if user else ""
    return Account(kept["host"], kept["port"], kept["protection"], kept["sender"], user, password)


def connect(account: Account) -> smtplib.SMTP:
    """A protected connection, signed in; nothing is ever sent in the clear (RFC 3207, RFC 8314)."""
    trust = account.trust or ssl.create_default_context()
    server = _protected(account, trust)
    try:
        server.ehlo_or_helo_if_needed()
        if account.user:
            server.login(account.user, account.password)
    except BaseException:
        server.close()
        raise
    return server


def _protected(account: Account, trust: ssl.SSLContext) -> smtplib.SMTP:
    seconds = account.seconds
    if account.protection == "tls":
        return smtplib.SMTP_SSL(account.host, account.port, context=trust, timeout=seconds)
    server = smtplib.SMTP(account.host, account.port, timeout=seconds)
    try:
        server.starttls(context=trust)
    except BaseException:
        server.close()
        raise
    return server


def plain_address(text: str) -> str:
    """The text, if it is one plain address; a ValueError otherwise (RFC 5322, 3.4.1)."""
    if any(ord(sign) < 33 or ord(sign) > 126 for sign in text) or ENCODED in text:
        raise ValueError("not one line of plain letters")
    try:
        found = MailAddress(addr_spec=text)
    except (IndexError, MessageError):  # what the parser raises for text that is empty or breaks off
        raise ValueError("no address") from None
    if not found.username or not DOMAIN.fullmatch(found.domain):
        raise ValueError("no address")
    return found.addr_spec
