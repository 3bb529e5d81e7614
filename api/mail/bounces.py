"""A letter that came back: what a delivery report says of it (RFC 3464, in the frame of RFC 6522)."""

from dataclasses import dataclass
from email import message_from_bytes
from email.message import EmailMessage, Message
from email.policy import default

LONGEST = 200


@dataclass(frozen=True)
class Bounce:
    """Which letter was not delivered, and why."""

    message_id: str
    says: str


def read(data: bytes) -> Bounce | None:
    """The bounce that this message is; None where it is none, or does not name its letter."""
    message = message_from_bytes(data, _class=EmailMessage, policy=default)
    if message.get_content_type() != "multipart/report":
        return None
    parts = list(message.walk())
    fields = [
        field
        for part in parts
        if part.get_content_type() == "message/delivery-status"
        for field in _inner(part)
    ]
    failed = next((one for one in fields if str(one.get("Action", "")).strip().lower() == "failed"), None)
    letter = next((found for part in parts if (found := _letter_of(part))), "")
    if failed is None or not letter:
        return None
    why = failed.get("Diagnostic-Code") or failed.get("Status") or ""
    return Bounce(letter, f"It came back: {' '.join(str(why).split())[:LONGEST]}")


def _inner(part: Message) -> list[Message]:
    content = part.get_payload()
    return [one for one in content if isinstance(one, Message)] if isinstance(content, list) else []


def _letter_of(part: Message) -> str:
    """The Message-ID in the returned letter or its headers."""
    if part.get_content_type() == "text/rfc822-headers":
        content = part.get_payload(decode=True)
        headers = message_from_bytes(content if isinstance(content, bytes) else b"")
        return str(headers.get("Message-ID", "")).strip()
    if part.get_content_type() == "message/rfc822":
        inner = _inner(part)
        return str(inner[0].get("Message-ID", "")).strip() if inner else ""
    return ""
