"""One attempt to hand a letter to the mail server, and what is known of it afterwards.

SMTP's own limit (RFC 5321, 4.5.3.2.6, and RFC 1047): where the connection breaks between the last dot of the
letter and the server's answer, the sender cannot know whether it was taken.
"""

import re
import smtplib
import ssl
from dataclasses import dataclass
from enum import Enum

from api.mail.account import Account, connect

LINE_BEGINS_WITH_A_DOT = re.compile(rb"(?m)^\.")
SHORTEST_PERMANENT = 500


class Outcome(Enum):
    """What an attempt came to. UNSURE: the server may have taken it."""

    TAKEN = "taken"
    LATER = "later"
    REFUSED = "refused"
    UNSURE = "unsure"


@dataclass(frozen=True)
class Attempt:
    """The outcome, and in plain words why."""

    outcome: Outcome
    says: str = ""


class _RefusedError(Exception):
    def __init__(self, code: int, reply: bytes) -> None:
        super().__init__(code)
        self.code, self.reply = code, reply


def hand_over(account: Account, recipient: str, message: bytes) -> Attempt:
    """Try once."""
    try:
        server = connect(account)
    except Exception as error:  # noqa: BLE001  (each kind is told apart below)
        return _before(error)
    try:
        _envelope(server, account.sender, recipient)
    except (_RefusedError, smtplib.SMTPException, OSError) as error:
        server.close()
        return _before(error)
    try:
        answer = _content(server, message)
    except (smtplib.SMTPException, OSError):
        server.close()
        return Attempt(Outcome.UNSURE, "The connection broke after the letter was handed over.")
    _leave(server)
    return answer


def _envelope(server: smtplib.SMTP, sender: str, recipient: str) -> None:
    for code, reply in (server.mail(sender), server.rcpt(recipient), server.docmd("data")):
        if code >= 400:
            raise _RefusedError(code, reply)


def _content(server: smtplib.SMTP, message: bytes) -> Attempt:
    body = LINE_BEGINS_WITH_A_DOT.sub(b"..", message)
    server.send(body + (b"" if body.endswith(b"\r\n") else b"\r\n") + b".\r\n")
    code, reply = server.getreply()
    return Attempt(Outcome.TAKEN) if 200 <= code < 300 else _answered(code, reply)


def _leave(server: smtplib.SMTP) -> None:
    try:
        server.quit()
    except (smtplib.SMTPException, OSError):
        server.close()


def _before(error: Exception) -> Attempt:
    """Why nothing was handed over: the letter is surely not there."""
    if isinstance(error, _RefusedError):
        return _answered(error.code, error.reply)
    if isinstance(error, ssl.SSLError):
        return Attempt(Outcome.LATER, "The mail server's certificate is not one that this machine trusts.")
    if isinstance(error, smtplib.SMTPAuthenticationError):
        return Attempt(Outcome.LATER, "The mail server does not take this user name and password.")
    if isinstance(error, smtplib.SMTPResponseException):
        reply = error.smtp_error
        return _answered(error.smtp_code, reply if isinstance(reply, bytes) else str(reply).encode())
    if isinstance(error, smtplib.SMTPException):
        return Attempt(Outcome.LATER, f"The mail server broke off ({type(error).__name__}).")
    if isinstance(error, OSError):
        return Attempt(Outcome.LATER, "The mail server cannot be reached.")
    raise error


def _answered(code: int, reply: bytes) -> Attempt:
    """A 4xx answer asks to come again, a 5xx one does not (RFC 5321, 4.2.1)."""
    words = " ".join(reply.decode("ascii", "replace").split())[:200]
    outcome = Outcome.REFUSED if code >= SHORTEST_PERMANENT else Outcome.LATER
    return Attempt(outcome, f"The mail server said {code}: {words}")
