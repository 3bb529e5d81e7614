"""The letter itself: the customer's report as an attachment, headers that nothing can be smuggled into."""

import hashlib
from datetime import datetime
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime

LONGEST_HEADER = 120
SUBJECT = {"en": "What we found on your car{car}", "de": "Was wir an Ihrem Fahrzeug gefunden haben{car}"}
TEXT = {
    "en": "Hello,\n\n"
    "the report on your car{car} is attached. It says in plain words what we found, how we know,\n"
    "what it will cost, and what was not checked.\n\nAsk us whatever is not clear.\n\n{house}\n",
    "de": "Guten Tag,\n\n"
    "der Bericht über Ihr Fahrzeug{car} ist angehängt. Er sagt in einfachen Worten, was wir gefunden haben,\n"
    "woher wir das wissen, was es kosten wird und was nicht geprüft wurde.\n\n"
    "Fragen Sie uns, wenn etwas unklar ist.\n\n{house}\n",
}


def message_id(job: str, wish: str, sender: str) -> str:
    """The same for every attempt at one wish (RFC 5322, 3.6.4), whatever the phone called it."""
    name = hashlib.sha256(f"{job} {wish}".encode()).hexdigest()[:40]
    return f"<{name}@{sender.rpartition('@')[2]}>"


def one_line(text: str) -> str:
    """Text for a header: every sign that is no plain sign becomes a blank (CVE-2024-6923, CVE-2026-1299).

    An encoded word (RFC 2047) in it would be read as one, with line breaks in it: its opening is parted.
    """
    plain = "".join(sign if sign.isprintable() else " " for sign in text).replace("=?", "= ?")
    return " ".join(plain.split())[:LONGEST_HEADER]


def letter(
    *,
    identity: str,
    sender: str,
    house: str,
    recipient: str,
    car: str,
    language: str,
    report: bytes,
    at: datetime,
) -> bytes:
    """The bytes that every attempt sends."""
    message = EmailMessage(policy=SMTP)
    message["From"] = Address(display_name=one_line(house), addr_spec=sender)
    message["To"] = Address(addr_spec=recipient)
    named = f" {one_line(car)}" if one_line(car) else ""
    message["Subject"] = SUBJECT[language].format(car=named)
    message["Date"] = format_datetime(at)
    message["Message-ID"] = identity
    message.set_content(TEXT[language].format(car=named, house=one_line(house)))
    message.add_attachment(report, maintype="application", subtype="pdf", filename="report.pdf")
    return message.as_bytes()
