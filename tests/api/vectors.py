"""The examples of `fixtures/vectors`, and how their bytes are meant (its README)."""

import json
from pathlib import Path
from typing import Any

FILE = Path(__file__).resolve().parents[2] / "fixtures/vectors/operations.json"
VECTORS: list[dict[str, Any]] = json.loads(FILE.read_text("utf-8"))["vectors"]


def named(vectors: list[dict[str, Any]]) -> dict[str, Any]:
    """Arguments for a parametrised test whose cases carry the vectors' names."""
    return {"argvalues": vectors, "ids": [vector["name"] for vector in vectors]}


def bytes_as_made(operation: dict[str, Any]) -> str:
    """The operation's own text; where the vector gives none, one is made."""
    return operation.get("bytes") or json.dumps(operation)
