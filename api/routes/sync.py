"""`/api/sync` and what goes with it: operations handed in, the list taken up, whole jobs, the list's end."""

import secrets
from io import BytesIO
from typing import Any

from flask import Blueprint, current_app, request

from api import erasure, exchange, intake
from api.context import connection, context
from api.errors import Problem
from api.fold.text import BrokenTextError, parse
from api.learning import learn
from api.store import clocks, erasures, operations
from api.store.operations import Standing

blueprint = Blueprint("sync", __name__)

MOST_OPERATIONS = 200
MOST_ERASURES = 1000
LARGEST_BATCH = 256 * 1024
LARGEST_COPY = 16 * 1024 * 1024
LARGEST_BODY = 4 * LARGEST_BATCH  # operations travel as texts inside a text: their quotes are escaped


@blueprint.post("/api/sync")
def sync() -> dict[str, Any]:
    """Answers for the operations sent, and the entries that follow where the phone stands."""
    request.max_content_length = LARGEST_BODY
    body = _body()
    texts, phone, records = _operations(body), _standing(body), _erasures(body)
    store = connection()
    clocks.note(store, body.get("device"), body.get("clock"))
    learn(records)
    answers = exchange.take(store, texts) if texts else []
    begins = body.get("begins") is True and phone.number == 0
    listed = exchange.beginning(store) if begins else exchange.entries_after(store, phone)
    return {
        "answers": [answer.as_json() for answer in answers],
        **listed,
        **_erasures_for(body.get("erasures_sum")),
        "run": run(),
        "server_time": exchange.server_time(),
    }


def run() -> str:
    """This run of the server, by a random name: a phone that meets another one proves anew what is safe.

    A list that phones have rebuilt after a restore can be the same to the last hash while photos are missing.
    """
    name: str = current_app.extensions.setdefault("teepiece_run", secrets.token_hex(8))
    return name


@blueprint.get("/api/standing")
def standing() -> dict[str, int | str]:
    """The end of the list: a phone asks this often, to see the other phone's readings as they come."""
    last = operations.end(connection())
    return {"number": last.number, "hash": last.hash}


@blueprint.get("/api/jobs/<job_id>/operations")
def whole_job(job_id: str) -> dict[str, Any]:
    """All operations of a job by number, for a phone that does not hold it: the whole job or none of it."""
    listed = operations.of_job(connection(), job_id)
    if not listed:
        raise Problem(404, "no_job", "There is no job of this number here.")
    return {"entries": [one.as_entry() for one in listed], "server_time": exchange.server_time()}


@blueprint.post("/api/copies")
def take_in() -> dict[str, Any]:
    """Take in a copy that a phone saved (`application/zip`); larger ones by the command `take-in`."""
    request.max_content_length = LARGEST_COPY
    copy = BytesIO(request.get_data())
    try:
        return intake.take_in(connection(), context().blobs, learn, copy).as_json()
    except intake.NotACopyError as reason:
        raise Problem(422, "not_a_copy", str(reason)) from None


def _erasures_for(sum_at_phone: object) -> dict[str, Any]:
    """All records, where the phone's differ; and the sum of them, by which it knows that ours lack some."""
    records = erasures.all_records(connection())
    own = erasures.sum_of(records)
    shown = [] if sum_at_phone == own else [record.as_json() for record in records]
    return {"erasures": shown, "erasures_sum": own}


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


def _erasures(body: dict[str, Any]) -> list[erasures.Erasure]:
    values = body.get("erasures", [])
    if not isinstance(values, list) or len(values) > MOST_ERASURES:
        raise Problem(400, "no_erasures", f"erasures is not a list of at most {MOST_ERASURES} records.")
    try:
        return [erasure.read(value) for value in values]
    except ValueError as error:
        raise Problem(400, "bad_erasure", f"An erasure record cannot be taken: {error}.") from None


def _standing(body: dict[str, Any]) -> Standing:
    number, running = body.get("number"), body.get("hash")
    if isinstance(number, float) and number.is_integer():  # 96.0 is the whole number 96 (JSON Schema, 6.1.1)
        number = int(number)
    if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number < 2**53:
        raise Problem(400, "no_number", "number is not a whole number from 0.")
    if not isinstance(running, str):
        raise Problem(400, "no_hash", "hash is not a text.")
    return Standing(number, running)
