"""An operation as it comes from outside: read strictly, or refused with a reason that names the fault."""

import re
from typing import Any

import calc
from api.fold.holding import Operation
from api.fold.places import is_item
from api.fold.text import BrokenTextError, parse

LARGEST = 64 * 1024
LONGEST_TEXT = 1000
UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")  # RFC 9562, as written
# RFC 3339, section 5.6; the zone is demanded, since the technician's own time is shown.
TIME = re.compile(r"\d{4}-\d\d-\d\d[Tt]\d\d:\d\d:\d\d(\.\d+)?([Zz]|[+-]\d\d:\d\d)")
TEXT_KEYS = ("id", "job", "device", "person", "at", "do", "path")


class RefusedError(Exception):
    """The operation cannot be taken; the message is the reason that the phone shows."""


def read(text: str) -> Operation:
    """The operation that the text spells; its form is right then, its place not yet looked at."""
    operation = _parsed(text)
    for key in TEXT_KEYS:
        value = operation.get(key)
        if not isinstance(value, str) or len(value) > LONGEST_TEXT:
            raise RefusedError(f"{key} is not a text")
    _check_ids(operation)
    if not TIME.fullmatch(operation["at"]):
        raise RefusedError("at is not a time of day with its zone (RFC 3339)")
    if operation["do"] not in ("set", "add", "remove"):
        raise RefusedError("do is none of set, add, remove")
    return operation


def check_place(operation: Operation) -> None:
    """Hold what the operation does against the contract of the job document."""
    path, do = operation["path"], operation["do"]
    if do != "remove" and "value" not in operation:
        raise RefusedError("value is missing")
    if do == "set":
        _check_set(path, operation["value"])
    elif not is_item(path):
        raise RefusedError(f"{path}: no list of items there")
    elif do == "add" and not isinstance(operation["value"], dict):
        raise RefusedError(f"{path}: an item is an object")
    else:
        _check(path, operation.get("value"))


def _parsed(text: str) -> Operation:
    try:
        size = len(text) if text.isascii() else len(text.encode())
        operation = parse(text) if size <= LARGEST else None
    except (UnicodeEncodeError, BrokenTextError) as error:
        raise RefusedError(f"the operation cannot be read: {error}") from None
    if size > LARGEST:
        raise RefusedError("the operation is larger than 64 KB")
    if not isinstance(operation, dict):
        raise RefusedError("the operation is not an object")
    return operation


def _check_ids(operation: Operation) -> None:
    replaced = operation.get("replaced")
    if not isinstance(replaced, list):
        raise RefusedError("replaced is not a list of ids")
    for one in (operation["id"], operation["job"], *replaced):
        if not isinstance(one, str) or not UUID.fullmatch(one):
            raise RefusedError("an id is not a UUID")


def _check_set(path: str, value: Any) -> None:
    if is_item(path):
        raise RefusedError(f"{path}: an item is added, its places are set")
    _check(path, value)


def _check(path: str, value: Any) -> None:
    try:
        calc.check_place(path, value)
    except calc.BrokenPlace as broken:
        raise RefusedError(str(broken)) from None
