"""Logs of road runs, read from their blobs by the same `calc.read_log` as on the phone."""

import json
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

import calc
from api.context import context

REMEMBERED = 4


def read(name: str, wish: str) -> Mapping[str, Any] | None:
    """The run that a log makes (a `calc.LogReader`); None where its blob has not come yet."""
    path = context().blobs.find(name)
    return None if path is None else _read(path, wish)


@lru_cache(maxsize=REMEMBERED)
def _read(path: Path, wish: str) -> Mapping[str, Any]:
    return calc.read_log(path.read_bytes(), **json.loads(wish))
