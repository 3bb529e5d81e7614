"""`/api/blobs/<sha256>`: photos and logs, named by their bytes."""

from collections.abc import Iterator

from flask import Blueprint, Response, request

from api.context import context
from api.errors import Problem
from api.guard import SANDBOX_POLICY
from api.store.blobs import LARGEST, NAME, TooLargeError, WrongHashError

blueprint = Blueprint("blobs", __name__)

PIECE = 64 * 1024
KINDS = {b"\xff\xd8\xff": ("image/jpeg", ".jpg"), b"\x89PNG": ("image/png", ".png")}


@blueprint.get("/api/blobs/<name>")
def fetch(name: str) -> Response:
    """The bytes as they came; `HEAD` tells whether they are here."""
    path = context().blobs.find(name)
    if path is None:
        raise Problem(404, "no_blob", "There is no blob of this name here.")
    data = path.read_bytes()
    kind, suffix = _kind(data)
    response = Response(data, mimetype=kind)
    response.headers["Content-Disposition"] = f'attachment; filename="{name[:16]}{suffix}"'
    response.headers["Content-Security-Policy"] = SANDBOX_POLICY
    return response


@blueprint.put("/api/blobs/<name>")
def keep(name: str) -> tuple[dict[str, str], int]:
    """Keep a blob: 201 where it is new, 200 where it was there."""
    request.max_content_length = LARGEST
    if not NAME.fullmatch(name):
        raise Problem(400, "no_hash", "A blob's name is the SHA-256 of its bytes in small letters.")
    try:
        is_new = context().blobs.put(name, _pieces())
    except WrongHashError:
        raise Problem(422, "wrong_hash", "The bytes that came are not those of this name.") from None
    except TooLargeError:
        raise Problem(413, "too_large", "A blob holds at most 16 MB.") from None
    except OSError:
        raise Problem(507, "no_room", "The server could not write the blob to its disk.") from None
    return {"sha256": name}, 201 if is_new else 200


def _pieces() -> Iterator[bytes]:
    while piece := request.stream.read(PIECE):
        yield piece


def _kind(data: bytes) -> tuple[str, str]:
    known = (kind for magic, kind in KINDS.items() if data.startswith(magic))
    return next(known, ("application/octet-stream", ""))
