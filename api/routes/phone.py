"""The phone's app as files: shell, vendored engine, and the list that makes them one release."""

from flask import Blueprint, Response, request

from api import packed, release
from api.context import context
from api.errors import Problem
from api.shelf import Book

blueprint = Blueprint("phone", __name__)


@blueprint.get("/health")
def health() -> dict[str, str]:
    """Says that the server is up; the phone asks this before it believes in a connection."""
    return {"status": "ok"}


@blueprint.get("/release.js")
def release_script() -> Response:
    """The files of the release on disk, for the service worker."""
    script = release.current(context().shelf, context().calc).script()
    return _send(Book("release.js", script.encode()))


@blueprint.get(release.ENGINE_ZIP)
def engine_zip() -> Response:
    """`calc` as the phone loads it."""
    return _send(release.engine_zip(context().calc))


@blueprint.get("/")
@blueprint.get("/<path:name>")
def file(name: str = "index.html") -> Response:
    """A file of the app."""
    shelf = context().shelf
    book = shelf.book(name) or packed.by_name(shelf, name)
    if book is None:
        raise Problem(404, "not_found", "There is no such page or file here.")
    return _send(book)


def _send(book: Book) -> Response:
    encoding, data = _encoded(book)
    response = Response(data, mimetype=book.kind)
    response.headers["Cache-Control"] = "no-cache"
    response.set_etag(book.sha256[:32] + (f"-{encoding}" if encoding else ""))
    if book.compressible:
        response.vary.add("Accept-Encoding")
    if encoding:
        response.content_encoding = encoding
    response.make_conditional(request)
    return response


def _encoded(book: Book) -> tuple[str, bytes]:
    if not book.compressible:
        return "", book.data
    accepted = request.accept_encodings
    if accepted["br"] > 0:
        return "br", book.brotli
    if accepted["gzip"] > 0:
        return "gzip", book.gzip
    return "", book.data
