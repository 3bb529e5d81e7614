"""`/api/blobs/<sha256>`: photos and logs, named by their bytes."""

import re
from collections.abc import Iterator
from pathlib import Path

from flask import Blueprint, Response, jsonify, request

from api.context import context
from api.errors import Problem, answer, no_room
from api.guard import SANDBOX_POLICY
from api.store.blobs import LARGEST, NAME, Part, TooLargeError, WrongHashError, WrongOffsetError

blueprint = Blueprint("blobs", __name__)

PIECE = 64 * 1024
RANGE = re.compile(r"bytes (\d{1,12})-(\d{1,12})/(\d{1,12})")
KINDS = {b"\xff\xd8\xff": ("image/jpeg", ".jpg"), b"\x89PNG": ("image/png", ".png")}


@blueprint.get("/api/blobs/<name>")
def fetch(name: str) -> Response:
    """The bytes as they came; `HEAD` tells whether they are here, and else where the next part begins."""
    path = context().blobs.find(name) or _finished(name)
    if path is None:
        return _not_here(name)
    data = path.read_bytes()
    kind, suffix = _kind(data)
    response = Response(data, mimetype=kind)
    response.headers["Content-Disposition"] = f'attachment; filename="{name[:16]}{suffix}"'
    response.headers["Content-Security-Policy"] = SANDBOX_POLICY
    return response


@blueprint.put("/api/blobs/<name>")
def keep(name: str) -> Response | tuple[dict[str, str], int]:
    """Keep a blob: 201 where it is whole, 200 where it was there, 202 where more parts are to come.

    A part says with `Content-Range: bytes FIRST-LAST/TOTAL` (RFC 9110, 14.4) where it belongs; 409 and
    `Upload-Offset` answer one that does not begin where the server stands.
    """
    request.max_content_length = LARGEST
    if not NAME.fullmatch(name):
        raise Problem(400, "no_hash", "A blob's name is the SHA-256 of its bytes in small letters.")
    try:
        if "Content-Range" in request.headers:
            return _join(name)
        is_new = context().blobs.put(name, _pieces())
    except WrongHashError:
        raise Problem(422, "wrong_hash", "The bytes that came are not those of this name.") from None
    except TooLargeError:
        raise Problem(413, "too_large", "A blob holds at most 16 MB.") from None
    except OSError as error:
        raise no_room(error) from None
    return {"sha256": name}, 201 if is_new else 200


def _finished(name: str) -> Path | None:
    try:
        return context().blobs.finish(name)
    except OSError as error:
        raise no_room(error) from None


def _join(name: str) -> Response:
    start, end, total = _range()
    data = request.get_data()
    if len(data) != end - start + 1:
        raise Problem(422, "bad_range", "The part is not as long as its Content-Range says.")
    try:
        whole = context().blobs.join(name, Part(start, total, data))
    except WrongOffsetError as wrong:
        problem = Problem(409, "wrong_offset", "The part does not begin where the last one ended.")
        return _at_offset(answer(problem), wrong.offset)
    body = jsonify({"sha256": name})
    return _at_offset((body, 201 if whole else 202), total if whole else end + 1)


def _range() -> tuple[int, int, int]:
    found = RANGE.fullmatch(request.headers["Content-Range"])
    if not found:
        raise Problem(400, "bad_range", "Content-Range is not of the form: bytes FIRST-LAST/TOTAL.")
    start, end, total = map(int, found.groups())
    if not start <= end < total:
        raise Problem(422, "bad_range", "Content-Range does not lie within its total.")
    return start, end, total


def _not_here(name: str) -> Response:
    problem = Problem(404, "no_blob", "There is no blob of this name here.")
    return _at_offset(answer(problem), context().blobs.received(name) if NAME.fullmatch(name) else 0)


def _at_offset(answered: tuple[Response, int], offset: int) -> Response:
    response, status = answered
    response.status_code = status
    response.headers["Upload-Offset"] = str(offset)
    return response


def _pieces() -> Iterator[bytes]:
    while piece := request.stream.read(PIECE):
        yield piece


def _kind(data: bytes) -> tuple[str, str]:
    known = (kind for magic, kind in KINDS.items() if data.startswith(magic))
    return next(known, ("application/octet-stream", ""))
