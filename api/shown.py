"""Photos as they are shown and printed: the copies of the workshop's blobs."""

from api import pictures
from api.context import context


def copy_of(name: str) -> bytes | None:
    """The copy for screens of the photo with that SHA-256, None where its blob is not here.

    Raises `pictures.UnreadableError` where the blob cannot be decoded in the limits.
    """
    return _copy(name, pictures.SHOWN)


def printed(name: str) -> bytes | None:
    """Likewise the smaller copy for paper."""
    return _copy(name, pictures.PRINTED)


def _copy(name: str, longest: int) -> bytes | None:
    blobs = context().blobs
    original = blobs.find(name)
    return None if original is None else pictures.kept_copy(original, blobs.copy_path(name, longest), longest)
