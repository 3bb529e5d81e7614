"""The id of an erasure record shows that this workshop made it.

A record holds ids and a place, never who erased: phones, files and backups pass it on as it is. So its id is
a UUID of version 8 (RFC 9562, 5.8): six bytes are chance, and the rest follows from them, job and place under
the workshop's key. Nobody else can make one, and none can be turned to another job or place.
"""

import hmac
import secrets
from hashlib import sha256
from uuid import UUID

from api.store.erasures import Erasure

CHANCE = 6  # bytes; the other ten are the seal, less six bits for version and variant
VERSION, VARIANT = 8 << 76, 2 << 62
NOT_VERSION, NOT_VARIANT = ~(0xF << 76), ~(0x3 << 62)


def sealed(key: bytes, job: str, path: str) -> Erasure:
    """A new record of this workshop's."""
    return Erasure(_id(key, secrets.token_bytes(CHANCE), job, path), job, path)


def is_ours(key: bytes, record: Erasure) -> bool:
    """Whether the record was made with this key, for this job and place."""
    chance = UUID(record.id).bytes[:CHANCE]
    return hmac.compare_digest(_id(key, chance, record.job, record.path), record.id)


def _id(key: bytes, chance: bytes, job: str, path: str) -> str:
    seal = hmac.digest(key, b"%b %b %b" % (chance, job.encode(), path.encode()), sha256)
    number = int.from_bytes((chance + seal)[:16], "big")
    return str(UUID(int=number & NOT_VERSION & NOT_VARIANT | VERSION | VARIANT))
