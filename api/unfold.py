"""The reverse of the fold: operations that make a given job document.

What is taken in from outside (the demo job, a document on disk) becomes operations like any other, so that
phones sync it and every correction has something to name. The same document gives the same bytes.
"""

import hashlib
import json
from collections.abc import Iterator
from typing import Any

import calc

_LISTS = frozenset(calc.ITEM_LISTS)
_NOT_SET = frozenset({"format", "id"})


def operations_for(document: dict[str, Any], *, device: str, person: str, at: str) -> list[str]:
    """The texts of operations whose fold is the document.

    `document` is as `calc.read_job` gives it and its `id` is a UUID. Items without an id get one; keys that
    the contract does not know have no place and are left out.
    """
    job = document["id"]
    changes = [
        change for key, value in document.items() for change in _changes(f"/{key}", f"/{key}", key, value)
    ]
    common = {"job": job, "device": device, "person": person, "at": at, "replaced": []}
    return [
        json.dumps({"id": _uuid(job, f"{number} {path}")} | common | {"do": do, "path": path, "value": value})
        for number, (do, path, value) in enumerate(changes)
    ]


def _changes(path: str, pattern: str, key: str, value: Any) -> Iterator[tuple[str, str, Any]]:
    if pattern in _LISTS:
        for number, item in enumerate(item for item in value if item is not None):
            yield from _added(path, pattern, number, item)
    elif key not in _NOT_SET and _is_place(path, value):
        yield "set", path, value
    elif isinstance(value, dict):
        for inner, one in value.items():
            yield from _changes(_below(path, inner), f"{pattern}/{inner}", inner, one)


def _added(path: str, pattern: str, number: int, item: dict[str, Any]) -> Iterator[tuple[str, str, Any]]:
    """The item with the values that are set in it whole, then what lies deeper in it."""
    name = item.get("id") or _uuid(path, str(number))
    item_path = _below(path, name)
    inner = {key: value for key, value in item.items() if key not in _NOT_SET}
    whole = {key: value for key, value in inner.items() if _is_place(_below(item_path, key), value)}
    yield "add", item_path, whole | {"rank": _rank(item_path, number)}
    for key, value in inner.items():
        if key not in whole:
            yield from _changes(_below(item_path, key), f"{pattern}/*/{key}", key, value)


def _is_place(path: str, value: Any) -> bool:
    try:
        calc.check_place(path, value)
    except calc.BrokenPlace:
        return False
    return True


def _below(path: str, key: str) -> str:
    return f"{path}/{key.replace('~', '~0').replace('/', '~1')}"


def _rank(path: str, number: int) -> str:
    """A rank of the form that phones make: a head by the item's position, four characters as a tail."""
    return f"h{number:06d}{_digest(path)[:4]}"


def _uuid(*parts: str) -> str:
    """A UUID of version 8, whose bits the maker defines (RFC 9562, section 5.8): here by the contents."""
    digest = _digest(*parts)
    return f"{digest[:8]}-{digest[8:12]}-8{digest[13:16]}-8{digest[17:20]}-{digest[20:32]}"


def _digest(*parts: str) -> str:
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()
