"""What every request must satisfy and every answer carries: host, origin, size, content policy."""

from flask import Flask, Response, request

from api.context import context
from api.errors import Problem
from api.people.language import tell

LOOPBACK_NAMES = frozenset({"localhost", "127.0.0.1"})
SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
SMALL_BODY = 64 * 1024

CONTENT_POLICY = (
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' blob: data:; "
    "object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'"
)
# For what a browser should never run as a page of ours: photos and documents (OWASP ASVS 5.0, 3.2.1).
SANDBOX_POLICY = "sandbox; default-src 'none'; frame-ancestors 'none'"
STRICT_TRANSPORT = "max-age=31536000"  # a year; the certificate renews itself long before it ends


def register(app: Flask) -> None:
    """Put the checks before every request and the headers on every answer."""
    app.config["MAX_CONTENT_LENGTH"] = SMALL_BODY
    app.before_request(check_host)
    app.before_request(check_origin)
    app.after_request(add_headers)


def check_host() -> None:
    """Answer only under names of ours, so that no foreign name can be pointed at the server."""
    if request.host.rsplit(":", 1)[0] in LOOPBACK_NAMES:
        return
    if request.host not in {address.netloc for address in context().addresses}:
        raise Problem(400, "unknown_host", "This server does not answer under that name.")


def check_origin() -> None:
    """A change of state must come from a page of ours (OWASP ASVS 5.0, 3.5.1 to 3.5.3)."""
    if request.method in SAFE_METHODS:
        return
    if request.headers.get("Origin") != f"{request.scheme}://{request.host}":
        raise Problem(403, "foreign_origin", tell("problem.foreign_origin"))
    if request.path.startswith("/api/") and request.headers.get("X-Teepiece") != "1":
        raise Problem(403, "no_header", "The header X-Teepiece is missing.")


def add_headers(response: Response) -> Response:
    """Content policy, no guessing of types, no referrer; answers of the API are kept by nobody."""
    response.headers.setdefault("Content-Security-Policy", CONTENT_POLICY)
    response.headers["X-Content-Type-Options"] = "nosniff"
    # With no-referrer a form's Origin would be null (Fetch, append a request Origin header).
    response.headers["Referrer-Policy"] = "same-origin"
    response.headers["Cross-Origin-Opener-Policy"] = "same-origin"
    response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
    if context().address:
        response.headers["Strict-Transport-Security"] = STRICT_TRANSPORT
    if request.path.startswith("/api/"):
        response.headers["Cache-Control"] = "no-store"
    return response
