"""`POST /api/sync`: a phone hands in its operations and takes up the list where it stands."""

from typing import Any

from flask import Blueprint, request

from api import exchange
from api.context import connection
from api.errors import Problem
from api.fold.text import BrokenTextError, parse
from api.store.operations import Standing

blueprint = Blueprint("sync", __name__)

MOST_OPERATIONS = 200
LARGEST_BATCH = 256 * 1024
LARGEST_BODY = 4 * LARGEST_BATCH  # operations travel as texts inside a text: their quotes are escaped


@blueprint.post("/api/sync")
def sync() -> dict[str, Any]:
    """Answers for the operations sent, and the entries that follow where the phone stands."""
    request.max_content_length = LARGEST_BODY
    body = _body()
    texts, phone = _operations(body), _standing(body)
    answers = exchange.take(connection(), texts) if texts else []
    return {
        "answers": [answer.as_json() for answer in answers],
        **exchange.entries_after(connection(), phone),
        "server_time": exchange.server_time(),
    }


def _body() -> dict[str, Any]:
    try:
        body = parse(request.get_data().decode())
    except (UnicodeDecodeError, BrokenTextError) as error:
        raise Problem(400, "not_json", f"The request cannot be read: {error}.") from None
    if not isinstance(body, dict):
        raise Problem(400, "not_an_object", "The request is not a JSON object.")
    return body


def _operations(body: dict[str, Any]) -> list[str]:
    texts = body.get("operations")
    if not isinstance(texts, list) or not all(isinstance(text, str) for text in texts):
        raise Problem(400, "no_operations", "operations is not a list of texts.")
    if len(texts) > MOST_OPERATIONS or sum(len(text.encode()) for text in texts) > LARGEST_BATCH:
        raise Problem(413, "batch_too_large", "One batch holds at most 200 operations and 256 KB.")
    return texts


def _standing(body: dict[str, Any]) -> Standing:
    number, running = body.get("number"), body.get("hash")
    if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number < 2**53:
        raise Problem(400, "no_number", "number is not a whole number from 0.")
    if not isinstance(running, str):
        raise Problem(400, "no_hash", "hash is not a text.")
    return Standing(number, running)
