"""Secrets kept as files beside the database, readable by their owner alone and in no copy of it."""

import os
import secrets
from pathlib import Path

COOKIE_KEY = "cookies.key"


def cookie_key(data: Path) -> bytes:
    """The key that signs cookies and form tokens: made once for a data folder."""
    path = data / COOKIE_KEY
    if not path.exists():
        keep_secret(path, secrets.token_bytes(32))
    return path.read_bytes()


def keep_secret(path: Path, secret: bytes) -> None:
    """Write a secret in place of an earlier one; it is never there in part or readable by others."""
    part = path.with_name(f".{path.name}.{secrets.token_hex(4)}")
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(secret)
        file.flush()
        os.fsync(file.fileno())
    part.replace(path)


def read_secret(path: Path) -> bytes:
    """The secret, or nothing where none is kept."""
    return path.read_bytes() if path.is_file() else b""
