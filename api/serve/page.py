"""What a phone that has never been here is told."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Welcome:
    """`url` is the plain page's address, `origin` the workshop's; `der` is the authority's certificate."""

    url: str
    origin: str
    name: str
    fingerprint: str
    der: bytes

    @property
    def pairing(self) -> str:
        return f"{self.origin}/pair"

    @property
    def fingerprint_lines(self) -> list[str]:
        """The fingerprint in lines of eight pairs, to be compared by eye."""
        pairs = self.fingerprint.split(":")
        return [" ".join(pairs[start : start + 8]) for start in range(0, len(pairs), 8)]
