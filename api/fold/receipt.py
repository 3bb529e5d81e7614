"""The sum that a phone compares before it says *safe in the workshop*."""

import hashlib
from collections.abc import Iterable


def receipt_lines(operations: Iterable[tuple[int, str, str]], blobs: Iterable[str]) -> list[str]:
    """One line for each operation `(number, id, SHA-256 of its bytes)` by number, then one for each blob."""
    numbered = [f"{number} {one} {digest}" for number, one, digest in sorted(operations)]
    return [*numbered, *(f"blob {digest}" for digest in sorted(set(blobs)))]


def receipt_sum(lines: Iterable[str]) -> str:
    """SHA-256 over the lines, each ended by a line feed, in small hexadecimal letters."""
    return hashlib.sha256("".join(f"{line}\n" for line in lines).encode()).hexdigest()


def running_hash(previous: str, number: int, one: str) -> str:
    """Where a phone stands after operation `number`: SHA-256 of previous hash, number and id."""
    return hashlib.sha256(f"{previous} {number} {one}".encode()).hexdigest()
