"""The workshop's one address: phones keep their work under it, so it is fixed before the first is paired."""

import ipaddress
import re
from dataclasses import dataclass

# A label of a host name (RFC 1123, 2.1).
LABEL = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)")
HTTPS_PORT = 443


class NoAddressError(ValueError):
    """The text is no host name and no address."""


@dataclass(frozen=True)
class Address:
    """A host name or an IPv4 address, and the port that HTTPS is served on."""

    host: str
    port: int

    def __post_init__(self) -> None:
        if not is_host(self.host):
            raise NoAddressError(f"{self.host!r} is neither a host name nor an address")

    @property
    def netloc(self) -> str:
        return self.host if self.port == HTTPS_PORT else f"{self.host}:{self.port}"

    @property
    def origin(self) -> str:
        """What browsers keep a phone's work under (RFC 6454)."""
        return f"https://{self.netloc}"


def is_host(text: str) -> bool:
    """Whether the text names a host: labels of small letters, at least two, or an IPv4 address."""
    if is_number(text):
        return True
    labels = text.split(".")
    return (
        len(text) <= 253
        and len(labels) > 1
        and all(map(LABEL.fullmatch, labels))
        and not labels[-1].isdigit()
    )


def is_number(text: str) -> bool:
    """Whether the text is an IPv4 address."""
    try:
        ipaddress.IPv4Address(text)
    except ValueError:
        return False
    return True
