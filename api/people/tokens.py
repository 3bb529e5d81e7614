"""Secrets that are shown once and kept as hashes: session and phone tokens, pairing and set-up codes."""

import hashlib
import secrets

# 31 signs that cannot be taken for one another, typed with a thumb: 8 of them are 39 bits.
SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
CODE_LENGTH = 8


def token() -> str:
    """256 bits for a cookie."""
    return secrets.token_urlsafe(32)


def code() -> str:
    """A code to be typed, in two groups."""
    signs = "".join(secrets.choice(SIGNS) for _ in range(CODE_LENGTH))
    return f"{signs[:4]}-{signs[4:]}"


def digest(secret: str) -> str:
    """What is kept of a token."""
    return hashlib.sha256(secret.encode()).hexdigest()


def code_digest(typed: str) -> str:
    """What is kept of a code, however it was typed: small letters, blanks and hyphens do not count."""
    return digest("".join(sign for sign in typed.upper() if sign.isalnum()))
