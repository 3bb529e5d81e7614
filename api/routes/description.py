"""`/api/openapi.json`: the API described (OpenAPI 3.1), for programs and for the tests."""

from functools import cache
from pathlib import Path

from flask import Blueprint, Response

blueprint = Blueprint("description", __name__)

FILE = Path(__file__).with_name("openapi.json")


@blueprint.get("/api/openapi.json")
def openapi() -> Response:
    """The description, as it is kept beside this file."""
    return Response(_text(), mimetype="application/json")


@cache
def _text() -> bytes:
    return FILE.read_bytes()
